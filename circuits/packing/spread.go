package packing

import "slices"

// spread divides everything evenly over as few bins as the bound of the width
// allows, where one class alone can be opened: the largest item left goes into the
// emptiest bin, then pairs of bins are evened out. Of many small items, which is what
// rooms hold, such a plan is found at once where the bound can be met at all but for
// little; largest first leaves its last bin with what fits nowhere.
func (s *solver) spread(t *task) {
	c := s.c
	if len(c.classes) != 1 || c.classes[0].max > 0 || c.classes[0].opened == 0 || c.classes[0].width == 0 {
		return
	}
	class := &c.classes[0]
	n := int(s.bound[aimWidth] / class.width)
	if n <= 1 || s.best.score[aimMissing] > 0 {
		return
	}
	bins, store := make([]*loaded, n), make([]int, n*len(t.need))
	for i := range bins {
		bins[i] = &loaded{counts: store[i*len(t.need) : (i+1)*len(t.need)]}
	}
	for lot, need := range t.need {
		for range need {
			b := slices.MinFunc(bins, func(a, b *loaded) int { return int(min(max(a.load-b.load, -1), 1)) })
			b.counts[lot]++
			b.load += class.uses[lot][0]
		}
	}
	c.level(bins)
	uses := make([]use, n)
	for i, b := range bins {
		items := b.entries(nil)
		if !c.holds(0, items) {
			return
		}
		uses[i] = use{&pattern{0, items}, 1}
	}
	s.offer(t, uses)
}

// level brings the loads of bins together whatever they may hold.
func (c *cell) level(bins []*loaded) {
	for range evenRounds {
		slices.SortStableFunc(bins, func(a, b *loaded) int { return int(min(max(a.load-b.load, -1), 1)) })
		moved := false
		for i, j := 0, len(bins)-1; i < j; i, j = i+1, j-1 {
			moved = c.evenPair(bins[i], bins[j], false) || moved
		}
		if !moved {
			return
		}
	}
}
