package packing

import (
	"cmp"
	"slices"
)

// Limits of the verifier's knapsack.
const (
	stackGrid  = 1 << 15    // steps of the bound's table
	stackSteps = 2_000_000  // contents tried before the full table
	stackTable = 40_000_000 // entries of the full table
)

// stack is the verifier's knapsack without conflicts. Contents are tried lot
// by lot, bounded by a table of the main size alone; where that takes too
// long, a full table over all resources decides; where even that is too large,
// the answer is a weight that is not exceeded, perhaps not the largest.
type stack struct {
	limits []int64
	in     []cargo
	grid   int64     // the table's step of the main size
	above  [][]int64 // per lot and room: the most weight of this lot and later ones
	best   int64
	steps  int
}

func newStack(limits []int64, in []cargo) *stack {
	s := &stack{limits: slices.Clone(limits), in: slices.Clone(in)}
	slices.SortStableFunc(s.in, func(a, b cargo) int { return cmp.Compare(b.uses[0], a.uses[0]) })
	for i := range s.in {
		s.in[i].uses = slices.Clone(s.in[i].uses)
	}
	for r := range s.limits {
		var d int64
		for _, g := range s.in {
			for a, b := d, g.uses[r]; ; a, b = b, a%b {
				if b == 0 {
					d = a
					break
				}
			}
		}
		d = max(d, 1)
		s.limits[r] /= d
		for _, g := range s.in {
			g.uses[r] /= d
		}
	}
	s.grid = s.limits[0]/stackGrid + 1
	return s
}

func (s *stack) heaviest() int64 {
	s.above = make([][]int64, len(s.in)+1)
	s.above[len(s.in)] = make([]int64, s.limits[0]/s.grid+1)
	for i := len(s.in) - 1; i >= 0; i-- {
		// Sizes rounded down let more in, so the table bounds from above.
		g := s.in[i]
		t := slices.Clone(s.above[i+1])
		pieces(g.most, func(n int64) bool {
			size := n * (g.uses[0] / s.grid)
			for c := int64(len(t)) - 1; c >= size; c-- {
				t[c] = max(t[c], t[c-size]+n*g.weight)
			}
			return size < int64(len(t))
		})
		s.above[i] = t
	}
	s.steps = stackSteps
	s.try(0, slices.Clone(s.limits), 0)
	if s.steps > 0 {
		return s.best
	}
	if most, ok := s.table(); ok {
		return most
	}
	return s.above[0][len(s.above[0])-1]
}

// pieces calls f with 1, 2, 4, ... and a remainder that add up to most, so
// that every count is a sum of some of them, until f returns false.
func pieces(most int64, f func(n int64) bool) {
	for n := int64(1); most > 0; n *= 2 {
		n = min(n, most)
		if !f(n) {
			return
		}
		most -= n
	}
}

func (s *stack) try(i int, left []int64, weight int64) {
	if s.steps--; s.steps <= 0 {
		return
	}
	s.best = max(s.best, weight)
	if weight+s.above[i][left[0]/s.grid] <= s.best {
		return
	}
	g := s.in[i]
	most := g.most
	for r, u := range g.uses {
		if u > 0 {
			most = min(most, left[r]/u)
		}
	}
	for n := most; n >= 0; n-- {
		for r, u := range g.uses {
			left[r] -= n * u
		}
		s.try(i+1, left, weight+n*g.weight)
		for r, u := range g.uses {
			left[r] += n * u
		}
	}
}

// table packs over all resources that can run out; false if it is too large.
func (s *stack) table() (int64, bool) {
	states := int64(1)
	strides := make([]int64, len(s.limits))
	for r, limit := range s.limits {
		var all int64
		for _, g := range s.in {
			all += min(g.most, limit+1) * min(g.uses[r], limit+1)
			all = min(all, limit+1)
		}
		if all <= limit {
			continue // cannot run out
		}
		if limit >= stackTable/states {
			return 0, false
		}
		strides[r] = states
		states *= limit + 1
	}
	t := make([]int64, states)
	for _, g := range s.in {
		pieces(g.most, func(n int64) bool {
			var shift int64
			for r, stride := range strides {
				if stride > 0 && n*g.uses[r] > s.limits[r] {
					return false
				}
				shift += stride * n * g.uses[r]
			}
			for c := states - 1; c >= shift; c-- {
				if s.roomFor(strides, c, n, g) {
					t[c] = max(t[c], t[c-shift]+n*g.weight)
				}
			}
			return true
		})
	}
	return t[states-1], true
}

// roomFor reports whether state c has enough of every resource left.
func (s *stack) roomFor(strides []int64, c, n int64, g cargo) bool {
	for r, stride := range strides {
		if stride > 0 && c/stride%(s.limits[r]+1) < n*g.uses[r] {
			return false
		}
	}
	return true
}
