package packing

import (
	"cmp"
	"fmt"
	"slices"
)

// The aims, in their order of importance.
const (
	aimMissing = iota // items left out
	aimWidth          // total width of opened bins
	aimOpened         // number of opened bins
	aimCost           // total cost of opened bins
	aims
)

// pattern is what one bin of a class holds. Class leftOut stands for a single
// item that is not placed.
type pattern struct {
	class int
	items []entry // ascending by lot, no zero counts
}

const leftOut = -1

func (p *pattern) count(lot int) int {
	for _, e := range p.items {
		if e.lot == lot {
			return e.count
		}
	}
	return 0
}

// key tells patterns apart.
func (p *pattern) key() string {
	b := make([]byte, 0, 3+6*len(p.items))
	put := func(n int) { b = append(b, byte(n), byte(n>>8), byte(n>>16)) } // below maxItems
	put(p.class)
	for _, e := range p.items {
		put(e.lot)
		put(e.count)
	}
	return string(b)
}

func (p *pattern) meets(conds []cond) bool {
	for _, c := range conds {
		if p.count(c.lot) < c.least {
			return false
		}
	}
	return true
}

// use is a number of bins with equal content.
type use struct {
	*pattern
	times int
}

// plan is a packing of a cell with its figures, one per aim.
type plan struct {
	uses  []use
	score [aims]int64
}

// priceOf is what one bin of the class, or one item left out, adds to an aim.
func (c *cell) priceOf(class, aim int) int64 {
	if class == leftOut {
		if aim == aimMissing {
			return 1
		}
		return 0
	}
	k := &c.classes[class]
	switch aim {
	case aimWidth:
		return k.width
	case aimOpened:
		return k.opened
	case aimCost:
		return k.cost
	}
	return 0
}

func (c *cell) scoreOf(uses []use) (score [aims]int64) {
	for _, u := range uses {
		for a := range score {
			score[a] += int64(u.times) * c.priceOf(u.class, a)
		}
	}
	return score
}

// better reports whether score a comes before b in the order of the aims.
func better(a, b [aims]int64) bool {
	return slices.Compare(a[:], b[:]) < 0
}

// holds reports whether a bin of the class may hold the items.
func (c *cell) holds(class int, items []entry) bool {
	k := &c.classes[class]
	for i, e := range items {
		if e.count > k.most[e.lot] {
			return false
		}
		for _, o := range items[:i] {
			if c.clash[e.lot][o.lot] {
				return false
			}
		}
	}
	for r, limit := range k.limits {
		for _, e := range items {
			u := k.uses[e.lot][r]
			if u > 0 && int64(e.count) > limit/u {
				return false
			}
			limit -= u * int64(e.count)
		}
		if limit < 0 {
			return false
		}
	}
	return true
}

// tidy turns uses that place every item at least once into a plan that places
// each exactly once, every bin in the best class that holds its content.
func (c *cell) tidy(uses []use, need []int, room []int) *plan {
	uses = c.trim(uses, need)
	uses = c.reclass(uses, room)
	return &plan{uses: uses, score: c.scoreOf(uses)}
}

// trim removes what is placed too often. Bins with less inside stay valid.
func (c *cell) trim(uses []use, need []int) []use {
	over := make([]int, len(need))
	for t, n := range need {
		over[t] = -n
	}
	for _, u := range uses {
		for _, e := range u.items {
			over[e.lot] += e.count * u.times
		}
	}
	if !slices.ContainsFunc(over, func(n int) bool { return n > 0 }) && !slices.ContainsFunc(uses, func(u use) bool { return u.class == leftOut }) {
		return slices.Clone(uses)
	}
	// Items left out come first: placing too many and leaving some out is waste.
	order := slices.Clone(uses)
	slices.SortStableFunc(order, func(a, b use) int {
		return cmp.Compare(min(a.class, 0), min(b.class, 0))
	})
	var out []use
	for len(order) > 0 {
		u := order[0]
		order = order[1:]
		whole, cut := u.times, make([]entry, 0, len(u.items))
		for _, e := range u.items {
			if over[e.lot] > 0 {
				// Bins that lose all their items of this lot, then one that
				// loses some.
				whole = min(whole, max(1, over[e.lot]/e.count))
			}
		}
		changed := false
		for _, e := range u.items {
			gone := min(e.count, max(over[e.lot], 0)/whole)
			if gone > 0 {
				changed = true
				over[e.lot] -= gone * whole
			}
			if e.count > gone {
				cut = append(cut, entry{e.lot, e.count - gone})
			}
		}
		if !changed {
			out = append(out, u)
			continue
		}
		if rest := u.times - whole; rest > 0 {
			order = append([]use{{u.pattern, rest}}, order...)
		}
		if len(cut) > 0 {
			order = append([]use{{&pattern{u.class, cut}, whole}}, order...)
		}
	}
	return out
}

// reclass moves each bin to the class that holds its content at the least
// width, then number, then cost.
func (c *cell) reclass(uses []use, room []int) []use {
	if len(c.classes) == 1 {
		return uses
	}
	left := slices.Clone(room)
	for _, u := range uses {
		if u.class != leftOut && left[u.class] >= 0 {
			left[u.class] -= u.times
		}
	}
	var out []use
	for _, u := range uses {
		for u.times > 0 {
			k, n := u.class, u.times
			if k != leftOut {
				for o := range c.classes {
					if left[o] != 0 && c.cheaper(o, k) && c.holds(o, u.items) {
						k = o
					}
				}
			}
			p := u.pattern
			if k != u.class {
				if left[k] > 0 {
					n = min(n, left[k])
					left[k] -= n
				}
				if left[u.class] >= 0 {
					left[u.class] += n
				}
				p = &pattern{k, u.items}
			}
			out = append(out, use{p, n})
			u.times -= n
		}
	}
	return out
}

func (c *cell) cheaper(a, b int) bool {
	ka, kb := &c.classes[a], &c.classes[b]
	return cmp.Or(cmp.Compare(ka.width, kb.width), cmp.Compare(ka.opened, kb.opened),
		cmp.Compare(ka.cost, kb.cost)) < 0
}

// verify reports the first way in which a plan breaks its cell. It guards the
// solver against itself.
func (c *cell) verify(p *plan, need, room []int) error {
	placed := make([]int, len(need))
	opened := make([]int, len(c.classes))
	for _, u := range p.uses {
		for _, e := range u.items {
			placed[e.lot] += e.count * u.times
		}
		if u.class == leftOut {
			continue
		}
		opened[u.class] += u.times
		if !c.holds(u.class, u.items) {
			return fmt.Errorf("class %d cannot hold %v", u.class, u.items)
		}
	}
	for t, n := range need {
		if placed[t] != n {
			return fmt.Errorf("lot %d: %d placed, want %d", t, placed[t], n)
		}
	}
	for k, n := range room {
		if n >= 0 && opened[k] > n {
			return fmt.Errorf("class %d: %d bins, at most %d", k, opened[k], n)
		}
	}
	return nil
}
