package packing

import (
	"container/heap"
	"math"
	"slices"
)

// node is a subproblem of the search: the task with further rows.
type node struct {
	cuts  []row
	bound int64
	basis []int // where the parent's linear program ended
	depth int
	order int
}

// nodes is a heap: least bound first, then deepest, then latest.
type nodes []*node

func (h nodes) Len() int      { return len(h) }
func (h nodes) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h nodes) Less(a, b int) bool {
	switch x, y := h[a], h[b]; {
	case x.bound != y.bound:
		return x.bound < y.bound
	case x.depth != y.depth:
		return x.depth > y.depth
	default:
		return x.order > y.order
	}
}
func (h *nodes) Push(x any) { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// search is branch and price: best bound first. It improves s.best and returns
// a proven bound of the task's aim.
func (s *solver) search(t *task) int64 {
	open := &nodes{{bound: s.bound[t.aim]}}
	if s.level > 0 {
		(*open)[0].bound = 0
	}
	made, stuck := 0, int64(math.MaxInt64)
	for open.Len() > 0 {
		n := heap.Pop(open).(*node)
		goal := s.goal(t)
		if n.bound >= goal {
			return goal // best first: no other node is better
		}
		if s.m.spent() {
			return n.bound
		}
		s.m.nodes--
		s.nodes++
		ms := newMaster(s, t, n.cuts, n.basis)
		bound := max(n.bound, ms.generate())
		if t.aim == aimWidth && n.depth == 0 && s.level == 0 {
			s.noteWeights(ms)
		}
		if bound >= s.goal(t) {
			continue
		}
		basis, values := ms.snapshot()
		s.round(ms, n.depth, bound, values, basis)
		if bound >= s.goal(t) {
			continue
		}
		down, up, ok := ms.branch(values)
		if !ok {
			// Whole numbers, yet not better than the best plan, or the work
			// limit ended the relaxation: the node stays open with its bound.
			n.bound = bound
			if s.m.spent() {
				heap.Push(open, n)
				return (*open)[0].bound
			}
			stuck = min(stuck, bound)
			continue
		}
		for _, cut := range []row{down, up} {
			made++
			heap.Push(open, &node{
				cuts:  withCut(n.cuts, cut),
				bound: bound, basis: basis, depth: n.depth + 1, order: made,
			})
		}
	}
	return min(s.goal(t), stuck)
}

// snapshot notes where the linear program ended: basis and value per column.
func (ms *master) snapshot() (basis []int, values []float64) {
	basis = append([]int(nil), ms.lp.basis...)
	values = make([]float64, len(ms.cols))
	for i, v := range basis {
		if v >= 0 {
			values[v] = ms.lp.x[i]
		}
	}
	return basis, values
}

// tolWhole is how far from a whole number a value may be and still count as
// one; the right sides are shifted by less.
const tolWhole = 1e-3

func fraction(v float64) float64 { return v - math.Floor(v+tolWhole) }

func isWhole(v float64) bool { return fraction(v) <= tolWhole }

// withCut adds a row. A weaker row on the same count makes room for it.
func withCut(cuts []row, cut row) []row {
	out := make([]row, 0, len(cuts)+1)
	for _, c := range cuts {
		if c.least != cut.least || !slices.Equal(c.coef, cut.coef) || !slices.Equal(c.conds, cut.conds) {
			out = append(out, c)
		}
	}
	return append(out, cut)
}
