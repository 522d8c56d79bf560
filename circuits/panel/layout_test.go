package panel

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"branchwork/loads/inventory"
)

// equalWants returns n wants of equal poles and current, IDs from first.
func equalWants(first, n, poles int, amps int64) []Want {
	wants := make([]Want, n)
	for i := range wants {
		wants[i] = Want{ID: first + i, Poles: poles, Amps: amps}
	}
	return wants
}

func TestEqualBreakersFillFromTheTopInOrder(t *testing.T) {
	got := Place(system(t, splitPhase), 42, equalWants(1, 5, 2, 1361), Day{}, Work{})
	assert.Equal(t, [][]int{{1, 3}, {2, 4}, {5, 7}, {6, 8}, {9, 11}}, got.Spaces)
	assert.Equal(t, []int64{6805, 6805}, got.Sums)
	assert.True(t, got.Proved)

	got = Place(system(t, wye208), 42, equalWants(1, 6, 2, 1000), Day{}, Work{})
	assert.Equal(t, [][]int{{1, 3}, {2, 4}, {5, 7}, {6, 8}, {9, 11}, {10, 12}}, got.Spaces)
	assert.Equal(t, []int64{4000, 4000, 4000}, got.Sums)
	assert.Equal(t, []int{2, 0}, got.Legs[2], "the third starts on C")
}

func TestGroupsFollowOneAnother(t *testing.T) {
	wants := equalWants(1, 4, 2, 1000)
	wants[0].Group, wants[1].Group, wants[2].Group, wants[3].Group = 2, 1, 2, 1
	got := Place(system(t, splitPhase), 20, wants, Day{}, Work{})
	assert.Equal(t, [][]int{{5, 7}, {1, 3}, {6, 8}, {2, 4}}, got.Spaces)
}

func TestExistingBreakersStay(t *testing.T) {
	wants := append(equalWants(1, 3, 2, 1000),
		Want{ID: 8, Poles: 2, Amps: 500, Fixed: []int{1, 3}}, Want{ID: 9, Poles: 1, Amps: 700, Fixed: []int{6}})
	got := Place(system(t, wye208), 12, wants, Day{}, Work{})
	assert.Equal(t, []int{1, 3}, got.Spaces[3])
	assert.Equal(t, []int{6}, got.Spaces[4])
	assert.Empty(t, got.Unplaced)
	// A 500, B 500, C 700 stand. Two of the new ones share a leg at least, and
	// any three pairs of legs put two on each: 2500, 2500, 2700.
	assert.Equal(t, int64(2700), got.Worst)
	assert.True(t, got.Proved)
}

func TestFixedBreakersThatCannotBeAreLeftOut(t *testing.T) {
	wants := []Want{
		{ID: 1, Poles: 2, Amps: 100, Fixed: []int{1, 3}},
		{ID: 2, Poles: 1, Amps: 100, Fixed: []int{3}},
		{ID: 3, Poles: 1, Amps: 100, Fixed: []int{9}},
		{ID: 4, Poles: 1, Amps: 100},
	}
	got := Place(system(t, splitPhase), 8, wants, Day{}, Work{})
	assert.Equal(t, []int{1, 2}, got.Unplaced)
	assert.Equal(t, []int{1, 3}, got.Spaces[0])
	assert.NotNil(t, got.Spaces[3])
}

func TestNeutralLoadsKeepOffTheHighLeg(t *testing.T) {
	high := system(t, highLeg240)
	wants := equalWants(1, 9, 1, 800)
	for i := range wants {
		wants[i].LowLegsOnly = true
	}
	got := Place(high, 12, wants, Day{}, Work{})
	assert.Len(t, got.Unplaced, 1, "twelve spaces have eight on A and C")
	for i, spaces := range got.Spaces {
		for _, s := range spaces {
			assert.True(t, HasNeutralUse(high, LegOf(high, s)), "want %d", i)
		}
	}
	assert.Equal(t, []int64{3200, 0, 3200}, got.Sums)
	assert.Equal(t, 8, got.Unplaced[0], "the last by ID gives way")

	wye := Place(system(t, wye208), 12, wants, Day{}, Work{})
	assert.Equal(t, []int64{2400, 2400, 2400}, wye.Sums, "a wye has no high leg")
}

func TestOutOfSpace(t *testing.T) {
	wants := append(equalWants(1, 2, 3, 3000), equalWants(3, 4, 1, 400)...)
	got := Place(system(t, wye208), 8, wants, Day{}, Work{})
	assert.Equal(t, []int{1}, got.Unplaced, "as many as possible find space; of equals the last by ID gives way")
	assert.Equal(t, int64(3800), got.Worst, "four of 4 A over three legs put two on one, beside 30 A")

	none := Place(system(t, wye208), 0, wants, Day{}, Work{})
	assert.Len(t, none.Unplaced, 6)
	assert.Zero(t, none.Worst)
	assert.True(t, none.Proved)
}

func TestNeedsCountsRows(t *testing.T) {
	assert.Equal(t, 20, Needs(system(t, splitPhase), 20, equalWants(1, 10, 2, 100)))
	assert.Equal(t, 24, Needs(system(t, splitPhase), 12, equalWants(1, 11, 2, 100)), "a side of eleven rows holds five")
	assert.Equal(t, 8, Needs(system(t, splitPhase), 8, []Want{{ID: 1, Poles: 3, Amps: 100}}), "no number of spaces cures it")
	low := equalWants(1, 9, 1, 800)
	for i := range low {
		low[i].LowLegsOnly = true
	}
	assert.Equal(t, 14, Needs(system(t, highLeg240), 6, low), "every third row is the high leg")
}

func TestPolesThatTheSystemLacks(t *testing.T) {
	got := Place(system(t, splitPhase), 20, []Want{{ID: 1, Poles: 3, Amps: 100}, {ID: 2, Poles: 2, Amps: 100}, {ID: 3, Amps: 100}}, Day{}, Work{})
	assert.Equal(t, []int{0, 2}, got.Unplaced)
	got = Place(system(t, twoWire), 6, append(equalWants(1, 3, 1, 500), Want{ID: 4, Poles: 2, Amps: 100}), Day{}, Work{})
	assert.Equal(t, []int{3}, got.Unplaced)
	assert.Equal(t, [][]int{{1}, {2}, {3}, nil}, got.Spaces)
	assert.Equal(t, []int64{1500}, got.Sums)
	assert.True(t, got.Proved)
}

func TestApartUsesTwoLegsWhereItCostsNothing(t *testing.T) {
	for _, name := range []string{splitPhase, wye208} {
		wants := append(equalWants(1, 6, 1, 900), Want{ID: 7, Poles: 1, Amps: 300, Apart: 1}, Want{ID: 8, Poles: 1, Amps: 200, Apart: 1})
		got := Place(system(t, name), 20, wants, Day{}, Work{})
		assert.NotEqual(t, got.Legs[6], got.Legs[7], name)
		assert.Equal(t, got.Bound, got.Worst)
	}
	// Two-pole breakers: two pairs of legs.
	wants := equalWants(1, 3, 2, 900)
	wants[0].Apart, wants[1].Apart = 4, 4
	got := Place(system(t, wye208), 20, wants, Day{}, Work{})
	assert.NotEqual(t, got.Legs[0], got.Legs[1])

	// The partner is there already, on A.
	wants = []Want{{ID: 1, Poles: 1, Amps: 500, Fixed: []int{1}, Apart: 2}, {ID: 2, Poles: 1, Amps: 0, Apart: 2}}
	got = Place(system(t, wye208), 12, wants, Day{}, Work{})
	assert.NotEqual(t, []int{legA}, got.Legs[1])
}

// Apart outweighs balance: 30 A would stand alone against two of 15 A.
func TestApartOutweighsBalance(t *testing.T) {
	wants := []Want{{ID: 1, Poles: 1, Amps: 3000}, {ID: 2, Poles: 1, Amps: 1500, Apart: 1}, {ID: 3, Poles: 1, Amps: 1500, Apart: 1}}
	got := Place(system(t, splitPhase), 12, wants, Day{}, Work{})
	assert.Equal(t, int64(4500), got.Worst)
	assert.NotEqual(t, got.Legs[1], got.Legs[2])
	assert.True(t, got.Proved, got.Why)
}

func TestSpareSpacesAreAtTheBottom(t *testing.T) {
	wants := append(equalWants(1, 5, 2, 1361), equalWants(6, 4, 1, 900)...)
	for _, name := range []string{splitPhase, wye208} {
		got := Place(system(t, name), 42, wants, Day{}, Work{})
		last := 0
		for _, spaces := range got.Spaces {
			last = max(last, slices.Max(spaces))
		}
		assert.LessOrEqual(t, Row(last), 8, name) // 14 spaces need seven rows
	}
}

// optimum is the most breakers that find space and, with all of them placed,
// the smallest largest leg sum and the smallest gap with it, by trying
// everything.
type optimum struct {
	sys    inventory.System
	spaces int
	wants  []Want

	taken       []bool
	sums        []int64
	worst, gap  int64
	placedAll   bool
	most, count int
}

func bruteForce(sys inventory.System, spaces int, wants []Want) *optimum {
	o := &optimum{sys: sys, spaces: spaces, taken: make([]bool, spaces+1), sums: make([]int64, sys.Legs)}
	for _, w := range wants {
		if len(w.Fixed) > 0 {
			for _, s := range w.Fixed {
				o.taken[s] = true
				o.sums[LegOf(sys, s)] += w.Amps
			}
		} else {
			o.wants = append(o.wants, w)
		}
	}
	o.from(0)
	return o
}

func (o *optimum) from(i int) {
	if i == len(o.wants) {
		o.most = max(o.most, o.count)
		if o.count == len(o.wants) {
			worst, gap := slices.Max(o.sums), slices.Max(o.sums)-slices.Min(o.sums)
			if !o.placedAll || worst < o.worst || worst == o.worst && gap < o.gap {
				o.placedAll, o.worst, o.gap = true, worst, gap
			}
		}
		return
	}
	w := o.wants[i]
	for first := 1; first <= o.spaces && w.Poles <= o.sys.Legs; first++ {
		at := Takes(first, w.Poles)
		if slices.ContainsFunc(at, func(s int) bool {
			return s > o.spaces || o.taken[s] || w.LowLegsOnly && !HasNeutralUse(o.sys, LegOf(o.sys, s))
		}) {
			continue
		}
		o.put(at, w.Amps, true)
		o.from(i + 1)
		o.put(at, -w.Amps, false)
	}
	if o.count+len(o.wants)-i-1 >= o.most { // leave it out
		o.from(i + 1)
	}
}

func (o *optimum) put(at []int, amps int64, in bool) {
	for _, s := range at {
		o.taken[s] = in
		o.sums[LegOf(o.sys, s)] += amps
	}
	o.count += sign(in)
}

// rounds is how many times over a fast property is checked.
const rounds = 20

// Every layout of a tiny panel is tried; Place must find the best and say so.
func TestPlaceIsExactOnTinyPanels(t *testing.T) {
	full, short := 0, 0
	compare := func(rt *rapid.T) {
		sys := system(rt, rapid.SampledFrom([]string{splitPhase, wye208, highLeg240, twoWire}).Draw(rt, "system"))
		spaces := rapid.IntRange(1, 10).Draw(rt, "spaces")
		wants := drawFixed(rt, sys, spaces, 2)
		for i := range rapid.IntRange(0, 6).Draw(rt, "wants") {
			w := Want{ID: i, Poles: rapid.IntRange(1, 3).Draw(rt, "poles"), Amps: rapid.Int64Range(0, 30).Draw(rt, "amps")}
			w.LowLegsOnly = w.Poles < 3 && rapid.Bool().Draw(rt, "low")
			wants = append(wants, w)
		}
		want, got := bruteForce(sys, spaces, wants), Place(sys, spaces, wants, Day{}, Work{})
		assert.Equal(rt, want.most, len(want.wants)-len(got.Unplaced), "breakers placed")
		if want.placedAll {
			full++
			assert.Equal(rt, want.worst, got.Worst, "largest leg sum")
			assert.Equal(rt, want.gap, got.Worst-slices.Min(got.Sums), "gap")
		} else {
			short++
			var kept []Want
			for i, w := range wants {
				if !slices.Contains(got.Unplaced, i) {
					kept = append(kept, w)
				}
			}
			assert.Equal(rt, bruteForce(sys, spaces, kept).worst, got.Worst, "largest leg sum of those placed")
		}
		assert.True(rt, got.Proved, got.Why)
		hurried := Place(sys, spaces, wants, Day{}, Work{
			Cells: rapid.Int64Range(1, 1000).Draw(rt, "cells"), Pairs: rapid.Int64Range(1, 200).Draw(rt, "pairs"),
			Tries: rapid.Int64Range(1, 50).Draw(rt, "tries"),
		})
		assert.LessOrEqual(rt, hurried.Bound, got.Worst, "the bound of a search cut short")
		assert.LessOrEqual(rt, got.Worst, hurried.Worst)
	}
	for range rounds {
		rapid.Check(t, compare)
	}
	assert.Positive(t, full, "no case had room for all")
	assert.Positive(t, short, "no case was short of room")
}

// drawFixed draws breakers that are there already, none on another's space.
func drawFixed(rt *rapid.T, sys inventory.System, spaces, most int) (wants []Want) {
	taken := map[int]bool{}
	for i := range rapid.IntRange(0, most).Draw(rt, "fixed") {
		at := Takes(rapid.IntRange(1, spaces).Draw(rt, "first"), rapid.IntRange(1, sys.Legs).Draw(rt, "poles"))
		if slices.ContainsFunc(at, func(s int) bool { return s > spaces || taken[s] }) {
			continue
		}
		for _, s := range at {
			taken[s] = true
		}
		wants = append(wants, Want{ID: 1000 + i, Poles: len(at), Amps: rapid.Int64Range(0, 40).Draw(rt, "amps"), Fixed: at})
	}
	return wants
}
