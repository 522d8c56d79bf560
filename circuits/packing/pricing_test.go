package packing

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// bestContent finds by enumeration what the best content of a class is worth,
// or the floor if none is worth more.
func bestContent(c *cell, a *ask, k int) int64 {
	best := a.floor[k]
	counts := make([]int, len(c.need))
	var from func(t int)
	from = func(t int) {
		if t == len(counts) {
			var items []entry
			for t, n := range counts {
				if n > 0 {
					items = append(items, entry{t, n})
				}
			}
			if len(items) > 0 && c.holds(k, items) {
				best = max(best, worthOfItems(a, k, items))
			}
			return
		}
		for n := 0; n <= min(a.copies[t], c.classes[k].most[t]); n++ {
			counts[t] = n
			from(t + 1)
		}
		counts[t] = 0
	}
	from(0)
	return best
}

func worthOfItems(a *ask, k int, items []entry) int64 {
	p := &pattern{k, items}
	var v int64
	for _, e := range items {
		v += a.value[e.lot] * int64(e.count)
	}
	for _, j := range append(append([]joint(nil), a.steps...), a.joints...) {
		if (j.class < 0 || j.class == k) && p.meets(j.conds) {
			v += j.extra
		}
	}
	return v
}

func drawAsk(t *rapid.T, c *cell) *ask {
	lot := rapid.IntRange(0, len(c.need)-1)
	a := &ask{copies: c.need}
	for range c.need {
		a.value = append(a.value, rapid.Int64Range(0, 1000).Draw(t, "value"))
	}
	for range c.classes {
		a.floor = append(a.floor, rapid.Int64Range(-50, 1500).Draw(t, "floor"))
	}
	extra := rapid.Int64Range(-800, 800)
	condition := func() cond {
		return cond{lot.Draw(t, "lot"), rapid.IntRange(1, 3).Draw(t, "least")}
	}
	for range rapid.IntRange(0, 2).Draw(t, "steps") {
		a.steps = append(a.steps, joint{-1, []cond{condition()}, extra.Draw(t, "extra")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "joints") {
		a.joints = append(a.joints, joint{rapid.IntRange(-1, len(c.classes)-1).Draw(t, "class"),
			[]cond{condition(), condition()}, extra.Draw(t, "extra")})
	}
	return a
}

// TestPricingFindsTheBestContent compares every answer with enumeration: over
// small and coarse tables, with conflicts, several resources, steps and joint
// conditions. The quick answer is a content, and its limit still a limit.
func TestPricingFindsTheBestContent(t *testing.T) {
	for _, unit := range []int64{1, 1_000_003} {
		rounds(t, 2, func(t *rapid.T) {
			p := drawProblem(t, unit)
			for _, c := range reduce(&p).split() {
				c.prepare()
				a := drawAsk(t, c)
				m := Work{}.share(1)
				sharp := slices.Clone(c.price(a, m))
				for k := range sharp {
					sharp[k].items = slices.Clone(sharp[k].items)
				}
				a.keep = 1
				quick := c.price(a, m)
				for k := range c.classes {
					want := bestContent(c, a, k)
					require.Equal(t, want, sharp[k].value)
					require.GreaterOrEqual(t, sharp[k].limit, want)
					require.GreaterOrEqual(t, quick[k].limit, want)
					require.LessOrEqual(t, quick[k].value, want)
					for _, q := range []quote{sharp[k], quick[k]} {
						if q.items != nil {
							require.True(t, c.holds(k, q.items))
							require.Equal(t, q.value, worthOfItems(a, k, q.items))
						}
					}
				}
			}
		})
	}
}

// TestTwoScarceResourcesAreExact needs the labels: no table knows both limits.
func TestTwoScarceResourcesAreExact(t *testing.T) {
	rounds(t, 2, func(t *rapid.T) {
		p := Problem{Resources: 4}
		amount := rapid.Int64Range(1, 900)
		for range 6 {
			p.Kinds = append(p.Kinds, Kind{3, []Form{{0, rapid.SliceOfN(amount, 4, 4).Draw(t, "uses")}}})
		}
		p.Bins = []BinKind{
			{Limits: []int64{2000, 2100, 1900, 2000}, Width: 1},
			{Limits: []int64{1500, 2500, 2500, 1500}, Width: 1},
		}
		for _, c := range reduce(&p).split() {
			c.prepare()
			a := &ask{copies: c.need, floor: make([]int64, len(c.classes))}
			for range c.need {
				a.value = append(a.value, rapid.Int64Range(100, 1000).Draw(t, "value"))
			}
			for k, q := range c.price(a, Work{}.share(1)) {
				require.Equal(t, bestContent(c, a, k), q.value)
				require.Equal(t, q.value, q.limit)
			}
		}
	})
}
