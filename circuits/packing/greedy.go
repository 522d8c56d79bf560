package packing

import "slices"

// style is a way of packing greedily.
type style struct {
	byCost bool // choose the bin that is cheapest for its content, not the narrowest
	full   bool // fill each bin by knapsack, not largest first
}

// pointsPerBin is the weight of an item that fills a bin alone; greedy choices
// compare contents in these points.
const pointsPerBin = 1 << 20

// points is the weight of one item of a lot: at least 1, so that bigger
// content always counts for more.
func (c *cell) points(t int) int64 { return int64(c.share[t]*pointsPerBin) + 1 }

// greedy places the need: always the largest item left, in the bin that is
// filled at the least width (or cost) for the points inside, as often as the
// need allows. Items for which no bin is left are left out.
func (s *solver) greedy(need, room []int, st style) []use {
	c := s.c
	need, room = slices.Clone(need), slices.Clone(room)
	var uses []use
	for t := 0; t < len(need); {
		if need[t] == 0 {
			t++
			continue
		}
		var p *pattern
		if st.full {
			p = s.fullest(t, need, room, st)
		} else {
			p = s.largestFirst(t, need, room, st)
		}
		if p == nil {
			uses = append(uses, use{&pattern{leftOut, []entry{{t, 1}}}, need[t]})
			need[t] = 0
			continue
		}
		times := need[t]
		for _, e := range p.items {
			times = min(times, need[e.lot]/e.count)
		}
		if room[p.class] > 0 {
			times = min(times, room[p.class])
			room[p.class] -= times
		}
		for _, e := range p.items {
			need[e.lot] -= e.count * times
		}
		uses = append(uses, use{p, times})
	}
	return c.sorted(uses)
}

// sorted brings the entries of patterns into ascending order.
func (c *cell) sorted(uses []use) []use {
	for _, u := range uses {
		slices.SortFunc(u.items, func(a, b entry) int { return a.lot - b.lot })
	}
	return uses
}

// choice keeps the best content seen for one bin.
type choice struct {
	c      *cell
	st     style
	best   *pattern
	price  int64
	points int64
}

func (ch *choice) offer(k int, items []entry) {
	var points int64
	for _, e := range items {
		points += int64(e.count) * ch.c.points(e.lot)
	}
	class := &ch.c.classes[k]
	price := class.width
	if ch.st.byCost {
		price = class.cost
	}
	if ch.best != nil {
		// price/points < best.price/best.points; both sides stay below 2^62
		mine, his := float64(price)*float64(ch.points), float64(ch.price)*float64(points)
		if mine > his || (mine == his && points <= ch.points) {
			return
		}
	}
	ch.best = &pattern{k, slices.Clone(items)}
	ch.price, ch.points = price, points
}

// largestFirst fills one bin of each class with an item of lot t and then the
// largest that fit, and returns the best of these.
func (s *solver) largestFirst(t int, need, room []int, st style) *pattern {
	c := s.c
	ch := &choice{c: c, st: st}
	var items []entry
	left := make([]int64, 0, 4)
	for k := range c.classes {
		class := &c.classes[k]
		if room[k] == 0 || class.most[t] == 0 {
			continue
		}
		left = append(left[:0], class.limits...)
		items = items[:0]
		for u := t; u < len(need); u++ {
			n := min(need[u], class.most[u])
			for _, e := range items {
				if c.clash[u][e.lot] {
					n = 0
				}
			}
			if n == 0 {
				continue
			}
			for r, use := range class.uses[u] {
				if use > 0 {
					n = int(min(int64(n), left[r]/use))
				}
			}
			if n == 0 {
				continue
			}
			for r, use := range class.uses[u] {
				left[r] -= use * int64(n)
			}
			items = append(items, entry{u, n})
		}
		if len(items) > 0 && items[0].lot == t {
			ch.offer(k, items)
		}
	}
	return ch.best
}

// fullest fills one bin of each class by knapsack, with at least one item of
// lot t, and returns the best of these.
func (s *solver) fullest(t int, need, room []int, st style) *pattern {
	c := s.c
	a := &ask{keep: quickLabels, copies: need, floor: make([]int64, len(c.classes)), value: make([]int64, len(need))}
	for u := range need {
		a.value[u] = c.points(u)
	}
	// More than any content is worth, so that lot t is inside where it can be.
	must := int64(pointsPerBin) * int64(c.items+2) * 2
	a.steps = []joint{{-1, []cond{{t, 1}}, must}}
	ch := &choice{c: c, st: st}
	for k, q := range c.price(a, s.m) {
		if room[k] != 0 && q.items != nil && q.value >= must {
			ch.offer(k, q.items)
		}
	}
	return ch.best
}

// firstPlans finds plans to start from, and bounds that need no search. Filling
// bins by knapsack is tried only where the quick plans do not meet the bounds.
func (s *solver) firstPlans() {
	t, bounded := s.whole(aimMissing), false
	for _, full := range []bool{false, true} {
		for _, st := range s.styles(full) {
			if s.best != nil && s.m.spent() {
				break
			}
			s.offer(t, s.greedy(t.need, t.room, st))
		}
		if !full && s.best.score[aimMissing] > 0 {
			continue // bounds need the least number of items left out
		}
		if !bounded {
			s.cheapBounds()
			bounded = true
			if s.bound[aimWidth] < s.best.score[aimWidth] {
				s.spread(t)
			}
		}
		if s.settled() {
			return
		}
	}
}

// styles are the ways of packing greedily that can differ: with one class there
// is nothing to choose by cost.
func (s *solver) styles(full bool) []style {
	if len(s.c.classes) == 1 {
		return []style{{full: full}}
	}
	return []style{{full: full}, {byCost: true, full: full}}
}

// settled reports whether the best plan meets the bounds of all aims.
func (s *solver) settled() bool {
	b := s.best.score
	return b[aimMissing] == 0 && s.bound[aimWidth] >= b[aimWidth] &&
		s.c.even > 0 && s.bound[aimWidth]/s.c.even >= b[aimOpened] && b[aimOpened]*s.c.cheapest() >= b[aimCost]
}
