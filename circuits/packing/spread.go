package packing

import (
	"container/heap"
	"slices"
)

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
	bins, store := make(byLoad, n), make([]int, n*len(t.need))
	for i := range bins {
		bins[i] = place{&loaded{counts: store[i*len(t.need) : (i+1)*len(t.need)]}, i}
	}
	for lot, need := range t.need {
		for range need {
			bins[0].counts[lot]++
			bins[0].load += class.uses[lot][0]
			heap.Fix(&bins, 0)
		}
	}
	slices.SortFunc(bins, func(a, b place) int { return a.order - b.order })
	all := make([]*loaded, n)
	for i, b := range bins {
		all[i] = b.loaded
	}
	c.level(all, false)
	uses := make([]use, n)
	for i, b := range all {
		items := b.entries(nil)
		if !c.holds(0, items) {
			return
		}
		uses[i] = use{&pattern{0, items}, 1}
	}
	s.offer(t, uses)
}

// place is a bin with its number.
type place struct {
	*loaded
	order int
}

// byLoad is a heap of bins, the emptiest first, of equals the first.
type byLoad []place

func (h byLoad) Len() int      { return len(h) }
func (h byLoad) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h byLoad) Less(a, b int) bool {
	return h[a].load < h[b].load || h[a].load == h[b].load && h[a].order < h[b].order
}
func (h *byLoad) Push(x any) { *h = append(*h, x.(place)) }
func (h *byLoad) Pop() any {
	last := len(*h) - 1
	x := (*h)[last]
	*h = (*h)[:last]
	return x
}
