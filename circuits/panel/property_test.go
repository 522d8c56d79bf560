package panel

import (
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"branchwork/loads/inventory"
)

// drawPanel draws a panel of any size with breakers as they come: few sizes,
// many of each, some there already.
func drawPanel(rt *rapid.T) (inventory.System, int, []Want) {
	sys := system(rt, rapid.SampledFrom([]string{splitPhase, wye208, wye480, highLeg240, twoWire}).Draw(rt, "system"))
	spaces := rapid.IntRange(1, 84).Draw(rt, "spaces")
	wants := drawFixed(rt, sys, spaces, 6)
	amps := rapid.SliceOfN(rapid.Int64Range(0, 4000), 1, 6).Draw(rt, "sizes")
	for i := range rapid.IntRange(0, spaces).Draw(rt, "wants") {
		w := Want{
			ID: i, Poles: rapid.IntRange(1, 3).Draw(rt, "poles"), Amps: rapid.SampledFrom(amps).Draw(rt, "amps"),
			Group: rapid.IntRange(0, 3).Draw(rt, "group"), Apart: max(0, rapid.IntRange(-20, 3).Draw(rt, "apart")),
		}
		w.LowLegsOnly = w.Poles == 1
		wants = append(wants, w)
	}
	return sys, spaces, wants
}

// lightWork keeps the properties fast; they hold whatever the limits are.
func lightWork() Work { return Work{Cells: 60_000, Pairs: 300_000, Tries: 100_000} }

func TestEveryLayoutIsOneThatCanBeWired(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		got := Place(sys, spaces, wants, Day{}, lightWork())
		used := map[int]bool{}
		sums := make([]int64, sys.Legs)
		for i, w := range wants {
			at := got.Spaces[i]
			assert.Equal(rt, at == nil, slices.Contains(got.Unplaced, i), "want %d", i)
			assert.Equal(rt, LegsOf(sys, at), got.Legs[i], "legs follow the bus")
			if at == nil {
				continue
			}
			assert.NoError(rt, Check(sys, spaces, at), "want %d", i)
			if w.Fixed != nil {
				assert.Equal(rt, w.Fixed, at, "existing breaker %d moved", i)
			} else {
				assert.Len(rt, at, w.Poles)
			}
			for _, s := range at {
				assert.False(rt, used[s], "space %d is used twice", s)
				used[s] = true
				leg := LegOf(sys, s)
				sums[leg] += w.Amps
				assert.True(rt, w.Fixed != nil || !w.LowLegsOnly || HasNeutralUse(sys, leg), "want %d on the high leg", i)
			}
		}
		assert.Equal(rt, sums, got.Sums)
		assert.Equal(rt, slices.Max(sums), got.Worst)
		assert.LessOrEqual(rt, got.Bound, got.Worst)
		assert.Equal(rt, got.Bound == got.Worst, got.Proved)
		assert.NotEmpty(rt, got.Why)
	})
}

func TestOrderOfTheListDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		shuffled := slices.Clone(wants)
		rand.New(rand.NewSource(rapid.Int64().Draw(rt, "seed"))).
			Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		a, b := Place(sys, spaces, wants, Day{}, lightWork()), Place(sys, spaces, shuffled, Day{}, lightWork())
		byID := func(wants []Want, l Layout) map[int][]int {
			at := map[int][]int{}
			for i, w := range wants {
				at[w.ID] = l.Spaces[i]
			}
			return at
		}
		assert.Equal(rt, a.Worst, b.Worst)
		assert.Equal(rt, byID(wants, a), byID(shuffled, b))
	})
}

func TestSameInputSameLayout(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		assert.Equal(rt, Place(sys, spaces, wants, Day{}, lightWork()), Place(sys, spaces, slices.Clone(wants), Day{}, lightWork()))
	})
}

func TestEqualBreakersAreReadInTheirOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		got := Place(sys, spaces, wants, Day{}, lightWork())
		for i, x := range wants {
			for j, y := range wants {
				same := x.Fixed == nil && y.Fixed == nil && x.Poles == y.Poles && x.Amps == y.Amps && x.Group == y.Group &&
					x.Apart == y.Apart && got.Spaces[i] != nil && got.Spaces[j] != nil
				if same && x.ID < y.ID {
					assert.Less(rt, got.Spaces[i][0], got.Spaces[j][0], "%d before %d", x.ID, y.ID)
				}
			}
		}
	})
}

// Scaling all currents scales the answer where both are proved.
func TestScaleDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		k := rapid.Int64Range(2, 1000).Draw(rt, "factor")
		scaled := slices.Clone(wants)
		for i := range scaled {
			scaled[i].Amps *= k
		}
		a, b := Place(sys, spaces, wants, Day{}, lightWork()), Place(sys, spaces, scaled, Day{}, lightWork())
		if a.Proved && b.Proved {
			assert.Equal(rt, k*a.Worst, b.Worst)
		}
		assert.LessOrEqual(rt, b.Bound, k*a.Worst)
		assert.LessOrEqual(rt, k*a.Bound, b.Worst)
	})
}

// Two more rows never make the worst leg worse, as long as all find space.
func TestMoreSpacesNeverHurt(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		for i := range wants {
			wants[i].Apart = 0 // kept only where it can be, and then before balance
		}
		a, b := Place(sys, spaces, wants, Day{}, lightWork()), Place(sys, spaces+4, wants, Day{}, lightWork())
		assert.LessOrEqual(rt, len(b.Unplaced), len(a.Unplaced))
		if len(a.Unplaced) == 0 && a.Proved {
			assert.LessOrEqual(rt, b.Bound, a.Worst)
			if b.Proved {
				assert.LessOrEqual(rt, b.Worst, a.Worst)
			}
		}
	})
}

// Needs is where Place first leaves nothing out that spaces could cure.
func TestNeedsIsWhereAllFindSpace(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		curable := func(have int) (n int) {
			for _, i := range Place(sys, have, wants, Day{}, lightWork()).Unplaced {
				if wants[i].Fixed == nil && wants[i].Poles <= sys.Legs {
					n++
				}
			}
			return n
		}
		need := Needs(sys, spaces, wants)
		assert.GreaterOrEqual(rt, need, spaces)
		assert.Zero(rt, (need-spaces)%2)
		assert.Zero(rt, curable(need))
		if need > spaces {
			assert.Positive(rt, curable(need-2))
		}
	})
}

// Whatever the limits of work, the answer is a layout and the bound a bound.
func TestWorkLimitsCostOnlyTheProof(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sys, spaces, wants := drawPanel(rt)
		for i := range wants {
			wants[i].Apart = 0 // kept only where it can be, and then before balance
		}
		least := Place(sys, spaces, wants, Day{}, Work{Cells: 1, Pairs: 1, Tries: 1})
		more := Place(sys, spaces, wants, Day{}, lightWork())
		assert.LessOrEqual(rt, least.Bound, least.Worst)
		if slices.Equal(least.Unplaced, more.Unplaced) {
			assert.LessOrEqual(rt, least.Bound, more.Worst)
			assert.LessOrEqual(rt, more.Bound, least.Worst)
		}
	})
}
