package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func loadsOf(p Problem, r Result, kind int) []int64 {
	var out []int64
	for _, b := range r.Bins {
		if b.Kind != kind {
			continue
		}
		var sum int64
		for k, n := range b.Holds {
			uses, _ := p.form(k, p.Bins[kind].Family)
			sum += uses[0] * int64(n)
		}
		out = append(out, sum)
	}
	return out
}

// TestLoadsAreEven has ten items of 3 in bins of 12: three bins are needed,
// four and four and two would do, but four, three and three are even.
func TestLoadsAreEven(t *testing.T) {
	p := Problem{
		Resources: 1,
		Kinds:     []Kind{{10, []Form{{0, []int64{3}}}}},
		Bins:      []BinKind{{Limits: []int64{12}, Width: 1, Cost: 1}},
	}
	require.ElementsMatch(t, []int64{12, 9, 9}, loadsOf(p, solved(t, p), 0))
}

// TestEvenPlansKeepTheirFigures evens out a plan and compares squares of
// loads: they never grow, and the plan stays what it was otherwise.
func TestEvenPlansKeepTheirFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		for _, c := range reduce(&p).split() {
			s := newSolver(c, Work{}.share(1))
			s.firstPlans()
			squares := func(bins []loaded) (sum int64) {
				for _, b := range bins {
					sum += b.load * b.load
				}
				return sum
			}
			var before int64
			for _, u := range s.best.uses {
				var load int64
				for _, e := range u.items {
					load += c.classes[u.class].uses[e.lot][0] * int64(e.count)
				}
				before += load * load * int64(u.times)
			}
			bins := c.evenOut(s.best)
			require.LessOrEqual(t, squares(bins), before)
			var uses []use
			for _, b := range bins {
				uses = append(uses, use{&pattern{b.class, b.entries(nil)}, 1})
			}
			after := &plan{uses, c.scoreOf(uses)}
			require.NoError(t, c.verify(after, c.need, c.allRoom()))
			require.Equal(t, s.best.score, after.score)
		}
	})
}
