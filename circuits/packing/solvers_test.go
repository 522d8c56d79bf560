package packing_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/packing"
	"branchwork/codes/outside"
)

// Fresh instances at every run, solved by general integer-programming solvers
// over all patterns that a bin may hold: total width first, then bins, then cost.
func TestSolveAgreesWithGeneralSolvers(t *testing.T) {
	for _, name := range outside.Solvers() {
		t.Run(name, func(t *testing.T) {
			solver := outside.SolverNamed(t, name)
			seed := outside.Seed(t)
			c := outside.Compare(t, solver.Tool, "packing", "spaces, circuits and cost of the optimum, each", 0, "units", seed)
			r := rand.New(rand.NewSource(seed))
			for i := range map[string]int{"cbc": 25, "glpsol": 25, "highs": 10}[name] {
				p := fresh(r)
				got, err := packing.Solve(p)
				require.NoError(t, err)
				require.NoError(t, packing.Check(p, got))
				if got.Missing.Used > 0 {
					continue // an item that fits no bin: nothing to compare
				}
				want, ok := bySolver(t, solver, p)
				if !ok {
					continue // the solver came to no end
				}
				for k, used := range []int64{got.Width.Used, got.Opened.Used, got.Cost.Used} {
					c.Case(math.Abs(float64(used-want[k])), "instance %d: %d beside %d of %+v", i, used, want[k], p)
				}
				assert.LessOrEqual(t, got.Width.Bound, want[0], "instance %d", i)
			}
			c.AtLeast(12)
		})
	}
}

// fresh draws an instance small enough to list all its patterns.
func fresh(r *rand.Rand) packing.Problem {
	p := packing.Problem{Resources: 1 + r.Intn(2)}
	families := 1 + r.Intn(2)
	for range 1 + r.Intn(4) {
		k := packing.Kind{Count: 1 + r.Intn(14)}
		for f := range families {
			if f > 0 && r.Intn(2) == 0 {
				continue
			}
			uses := []int64{int64(200 + r.Intn(900))}
			if p.Resources > 1 {
				uses = append(uses, int64(r.Intn(30)))
			}
			k.Forms = append(k.Forms, packing.Form{Family: f, Uses: uses})
		}
		p.Kinds = append(p.Kinds, k)
	}
	for f := range families {
		for range 1 + r.Intn(2) {
			limits := []int64{int64(1200 + r.Intn(1200))}
			if p.Resources > 1 {
				limits = append(limits, int64(40+r.Intn(60)))
			}
			p.Bins = append(p.Bins, packing.BinKind{Family: f, Limits: limits, Width: 1 + (f+r.Intn(2))%3, Cost: int64(20 + r.Intn(80))})
		}
	}
	if len(p.Kinds) > 1 && r.Intn(3) == 0 {
		p.Conflicts = [][2]int{{0, 1}}
	}
	return p
}

// pattern is what one bin of a kind holds.
type pattern struct {
	bin   int
	holds []int
}

func patterns(p packing.Problem) []pattern {
	var out []pattern
	for b, bin := range p.Bins {
		holds := make([]int, len(p.Kinds))
		left := append([]int64{}, bin.Limits...)
		var fill func(k int)
		fill = func(k int) {
			if k == len(p.Kinds) {
				for _, n := range holds {
					if n > 0 {
						out = append(out, pattern{b, append([]int{}, holds...)})
						return
					}
				}
				return
			}
			fill(k + 1)
			for _, c := range p.Conflicts {
				if c[0] == k && holds[c[1]] > 0 || c[1] == k && holds[c[0]] > 0 {
					return
				}
			}
			for _, form := range p.Kinds[k].Forms {
				if form.Family != bin.Family {
					continue
				}
				n := 0
				for ; n < p.Kinds[k].Count && room(left, form.Uses); n++ {
					for r, u := range form.Uses {
						left[r] -= u
					}
					holds[k]++
					fill(k + 1)
				}
				for r, u := range form.Uses {
					left[r] += u * int64(n)
				}
				holds[k] = 0
			}
		}
		fill(0)
	}
	return out
}

func room(left, uses []int64) bool {
	for r, u := range uses {
		if u > left[r] {
			return false
		}
	}
	return true
}

// bySolver solves the covering programme over all patterns in three stages:
// width, bins, cost. ok is false where the solver does not finish one.
func bySolver(t *testing.T, solver outside.Solver, p packing.Problem) (best []int64, ok bool) {
	t.Helper()
	list := patterns(p)
	require.NotEmpty(t, list)
	weight := []func(pattern) int64{
		func(x pattern) int64 { return int64(p.Bins[x.bin].Width) },
		func(pattern) int64 { return 1 },
		func(x pattern) int64 { return p.Bins[x.bin].Cost },
	}
	for stage := range weight {
		var lp strings.Builder
		lp.WriteString("Minimize\n obj:" + terms(list, weight[stage]) + "\nSubject To\n")
		for k, kind := range p.Kinds {
			fmt.Fprintf(&lp, " d%d:%s >= %d\n", k, terms(list, func(x pattern) int64 { return int64(x.holds[k]) }), kind.Count)
		}
		for s, v := range best {
			fmt.Fprintf(&lp, " s%d:%s <= %d\n", s, terms(list, weight[s]), v)
		}
		lp.WriteString("Generals\n")
		for i := range list {
			fmt.Fprintf(&lp, " x%d\n", i)
		}
		lp.WriteString("End\n")
		v := solver.Solve(t, lp.String())
		if !v.Proved {
			return nil, false
		}
		best = append(best, v.Value)
	}
	return best, true
}

func terms(list []pattern, w func(pattern) int64) string {
	var b strings.Builder
	for i, x := range list {
		if v := w(x); v != 0 {
			fmt.Fprintf(&b, " + %d x%d", v, i)
			if i%20 == 19 {
				b.WriteString("\n ")
			}
		}
	}
	if b.Len() == 0 {
		return " 0 x0"
	}
	return b.String()
}
