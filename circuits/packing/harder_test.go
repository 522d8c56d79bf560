package packing

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// family draws seeded problems of one sort: as many kinds as a large room has,
// with all that makes them hard.
type family struct {
	name string
	draw func(r *rand.Rand) Problem
}

// drawSize draws a size of 0.2 to 14 units.
func drawSize(r *rand.Rand, unit int64) int64 {
	switch r.IntN(4) {
	case 0:
		return unit/5 + r.Int64N(unit)
	case 1:
		return unit + r.Int64N(2*unit)
	case 2:
		return 2*unit + r.Int64N(4*unit)
	}
	return 5*unit + r.Int64N(9*unit)
}

// drawRoom draws kinds of sizes in units, and bins of 12 to 40 units at costs
// that are nearly proportional to their size, which makes them hard to tell
// apart. The second resource counts items.
func drawRoom(r *rand.Rand, unit int64, kinds, most, bins int, items []int64) Problem {
	p := Problem{Resources: 2}
	for range kinds {
		p.Kinds = append(p.Kinds, Kind{1 + r.IntN(most), []Form{{0, []int64{drawSize(r, unit), 1}}}})
	}
	limits, costs := []int64{12, 16, 24, 32, 40}, []int64{96, 100, 141, 188, 236}
	for b := range bins {
		n := int64(1 << 20)
		if items != nil {
			n = items[b]
		}
		p.Bins = append(p.Bins, BinKind{Limits: []int64{limits[b] * unit, n}, Width: 1, Cost: costs[b]})
	}
	return p
}

func harder() []family {
	items := []int64{8, 10, 12, 14, 16}
	return []family{
		{"five bins", func(r *rand.Rand) Problem { return drawRoom(r, 10, 12+r.IntN(18), 60, 5, nil) }},
		{"fine sizes, item limits", func(r *rand.Rand) Problem { return drawRoom(r, 100, 12+r.IntN(18), 60, 3, items) }},
		{"finest sizes", func(r *rand.Rand) Problem { return drawRoom(r, 5000, 5+r.IntN(5), 40, 4, nil) }},
		{"finest sizes, item limits", func(r *rand.Rand) Problem { return drawRoom(r, 5000, 5+r.IntN(5), 40, 4, items) }},
		{"conflicts", func(r *rand.Rand) Problem {
			p := drawRoom(r, 10, 10+r.IntN(12), 40, 3, nil)
			for a := range p.Kinds {
				for b := range a {
					if r.IntN(5) == 0 {
						p.Conflicts = append(p.Conflicts, [2]int{a, b})
					}
				}
			}
			return p
		}},
		{"refusals", func(r *rand.Rand) Problem {
			p := drawRoom(r, 10, 5+r.IntN(8), 40, 5, items)
			for b := range p.Bins {
				for range p.Kinds {
					p.Bins[b].Allow = append(p.Bins[b].Allow, r.IntN(3) > 0)
				}
			}
			return p
		}},
		{"four resources", func(r *rand.Rand) Problem {
			p := drawRoom(r, 100, 5+r.IntN(8), 40, 3, items)
			p.Resources = 4
			for k := range p.Kinds {
				uses := &p.Kinds[k].Forms[0].Uses
				*uses = append(*uses, (*uses)[0]*(3+r.Int64N(30)), r.Int64N(600))
			}
			for b := range p.Bins {
				p.Bins[b].Limits = append(p.Bins[b].Limits, p.Bins[b].Limits[0]*20, 3500)
			}
			return p
		}},
		{"three families", func(r *rand.Rand) Problem {
			p := drawRoom(r, 10, 6+r.IntN(10), 40, 3, nil)
			for k := range p.Kinds {
				size := p.Kinds[k].Forms[0].Uses[0]
				if r.IntN(3) > 0 {
					p.Kinds[k].Forms = append(p.Kinds[k].Forms, Form{1, []int64{(size*120 + 207) / 208, 1}})
				}
				if r.IntN(3) == 0 {
					p.Kinds[k].Forms = append(p.Kinds[k].Forms, Form{2, []int64{(size*120 + 276) / 277, 1}})
				}
			}
			for _, k := range p.Bins[1:3] {
				p.Bins = append(p.Bins,
					BinKind{Family: 1, Limits: k.Limits, Width: 2, Cost: k.Cost*17/10 + 3},
					BinKind{Family: 2, Limits: k.Limits, Width: 1, Cost: k.Cost*14/10 + 31})
			}
			return p
		}},
		{"existing bins", func(r *rand.Rand) Problem {
			p := drawRoom(r, 10, 6+r.IntN(10), 30, 3, nil)
			for range 10 + r.IntN(40) {
				p.Existing = append(p.Existing, Existing{Limits: []int64{r.Int64N(160), 100}})
			}
			return p
		}},
		{"few bins", func(r *rand.Rand) Problem {
			p := drawRoom(r, 10, 6+r.IntN(10), 30, 5, nil)
			for b := range p.Bins {
				p.Bins[b].Max = 1 + r.IntN(6)
			}
			return p
		}},
	}
}

// TestHarderProblemsAreProved solves problems of each family within the default
// work limits.
func TestHarderProblemsAreProved(t *testing.T) {
	for _, f := range harder() {
		for seed := range uint64(2) {
			t.Run(fmt.Sprintf("%s/%d", f.name, seed), func(t *testing.T) {
				requireProved(t, solved(t, f.draw(rand.New(rand.NewPCG(seed, 7)))))
			})
		}
	}
}

// crowd is a hundred thousand items of thirty kinds.
func crowd(bins int, unit int64, items []int64) Problem {
	p := drawRoom(rand.New(rand.NewPCG(1, uint64(unit))), unit, 30, 1, bins, items)
	left := 100_000
	for k := range p.Kinds {
		p.Kinds[k].Count = left / (30 - k)
		if k%2 == 0 && k < 29 {
			p.Kinds[k].Count += 37 * k
		}
		left -= p.Kinds[k].Count
	}
	return p
}

// crowds are such problems, by name.
func crowds() []family {
	of := func(bins int, unit int64, items ...int64) func(*rand.Rand) Problem {
		return func(*rand.Rand) Problem { return crowd(bins, unit, items) }
	}
	return []family{
		{"three bins", of(3, 10)},
		{"five bins", of(5, 10)},
		{"fine sizes", of(5, 100)},
		{"fine sizes, item limits", of(3, 100, 8, 10, 12)},
		{"five bins, item limits", of(5, 10, 8, 10, 12, 16, 20)},
	}
}

func TestHundredThousandItemsAreProved(t *testing.T) {
	for _, f := range crowds() {
		t.Run(f.name, func(t *testing.T) {
			if underRace && f.name == "five bins, item limits" {
				t.Skip("takes a minute under the race detector")
			}
			p := f.draw(nil)
			total := 0
			for _, k := range p.Kinds {
				total += k.Count
			}
			require.Equal(t, 100_000, total)
			requireProved(t, solved(t, p))
		})
	}
}
