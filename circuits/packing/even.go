package packing

import (
	"cmp"
	"slices"
)

// Effort of evening out.
const (
	evenRounds = 4  // passes over all bins
	evenSwaps  = 64 // moves within one pair of bins
)

// loaded is one bin while loads are evened out.
type loaded struct {
	class  int
	counts []int // per lot
	load   int64 // main size inside
}

// evenOut moves items between opened bins of the same class so that none stays
// nearly empty beside one nearly full. Bins keep their class, so width, number
// and cost stay as they are. Fullest and emptiest are paired, then the next.
func (c *cell) evenOut(p *plan) []loaded {
	all := 0
	for _, u := range p.uses {
		if u.class != leftOut {
			all += u.times
		}
	}
	bins, store := make([]loaded, 0, all), make([]int, all*len(c.need))
	for _, u := range p.uses {
		if u.class == leftOut {
			continue
		}
		for range u.times {
			b := loaded{class: u.class, counts: store[:len(c.need):len(c.need)]}
			store = store[len(c.need):]
			for _, e := range u.items {
				b.counts[e.lot] = e.count
				b.load += int64(e.count) * c.classes[u.class].uses[e.lot][0]
			}
			bins = append(bins, b)
		}
	}
	for k := range c.classes {
		if c.classes[k].opened == 0 {
			continue
		}
		same := make([]*loaded, 0, len(bins))
		for i := range bins {
			if bins[i].class == k {
				same = append(same, &bins[i])
			}
		}
		c.level(same, true)
	}
	return bins
}

// level evens out the fullest and the emptiest bin, then the next, again and again.
func (c *cell) level(bins []*loaded, hold bool) {
	for range evenRounds {
		if !slices.ContainsFunc(bins, func(b *loaded) bool { return b.load != bins[0].load }) {
			return // as even as can be
		}
		slices.SortStableFunc(bins, func(a, b *loaded) int { return cmp.Compare(a.load, b.load) })
		moved := false
		for i, j := 0, len(bins)-1; i < j; i, j = i+1, j-1 {
			moved = c.evenPair(bins[i], bins[j], hold) || moved
		}
		if !moved {
			return
		}
	}
}

// evenPair moves or swaps items from the fuller bin to the other as long as
// that brings their loads closer together; so that both hold what is in them, if asked.
func (c *cell) evenPair(low, high *loaded, hold bool) bool {
	any := false
	for range evenSwaps {
		if low.load > high.load {
			low, high = high, low
		}
		// The best step shifts half the difference.
		gap := high.load - low.load
		if gap == 0 {
			return any
		}
		bestOut, bestIn, best := -1, -1, gap
		class := &c.classes[low.class]
		for out, n := range high.counts {
			if n == 0 {
				continue
			}
			for in := -1; in < len(low.counts); in++ {
				shift := class.uses[out][0]
				if in >= 0 {
					if low.counts[in] == 0 || in == out {
						continue
					}
					shift -= class.uses[in][0]
				}
				after := gap - 2*shift
				after = max(after, -after)
				if shift > 0 && after < best && (!hold || c.swapFits(low, high, out, in)) {
					bestOut, bestIn, best = out, in, after
				}
			}
		}
		if bestOut < 0 {
			return any
		}
		any = true
		c.swap(low, high, bestOut, bestIn)
	}
	return any
}

func (c *cell) swap(low, high *loaded, out, in int) {
	class := &c.classes[low.class]
	move := func(from, to *loaded, lot int) {
		from.counts[lot]--
		to.counts[lot]++
		from.load -= class.uses[lot][0]
		to.load += class.uses[lot][0]
	}
	move(high, low, out)
	if in >= 0 {
		move(low, high, in)
	}
}

// swapFits tries a swap and takes it back.
func (c *cell) swapFits(low, high *loaded, out, in int) bool {
	c.swap(low, high, out, in)
	c.scratch = low.entries(c.scratch[:0])
	ok := c.holds(low.class, c.scratch)
	if ok {
		c.scratch = high.entries(c.scratch[:0])
		ok = c.holds(high.class, c.scratch)
	}
	c.swap(high, low, out, in)
	return ok
}

// entries appends what a bin holds.
func (b *loaded) entries(items []entry) []entry {
	for t, n := range b.counts {
		if n > 0 {
			items = append(items, entry{t, n})
		}
	}
	return items
}
