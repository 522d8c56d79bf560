package panel

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"branchwork/loads/inventory"
)

// flip is two rooms that light by turns: what is on by day is off by night.
var flip = Day{Moments: []Moment{{Lit: true}, {Lit: true}}}

// Two rooms of three two-pole breakers each, 10 A and 14 A, on a wye. By hand:
// each room alone puts two poles on every leg, 20 A by day and 28 A by night.
func TestRoomsThatLightByTurnsAreBalancedByDayAndByNight(t *testing.T) {
	sys := system(t, wye208)
	var wants []Want
	for i := range 6 {
		w := Want{ID: i, Poles: 2, Amps: 1000, At: []int64{1000, 0}}
		if i >= 3 {
			w.Amps, w.At = 1400, []int64{0, 1400}
		}
		wants = append(wants, w)
	}
	got := Place(sys, 12, wants, flip, Work{})
	assert.Equal(t, []int64{2000, 2000, 2000}, sumsAt(sys, wants, got, 0), "by day")
	assert.Equal(t, []int64{2800, 2800, 2800}, sumsAt(sys, wants, got, 1), "by night")
	assert.Equal(t, int64(2800), got.Worst)
	assert.Equal(t, 1, got.At)
	assert.Equal(t, int64(4800), got.Lit)
	assert.True(t, got.Proved && got.Lit == got.LitBound, got.Why)
}

// Six breakers of 12 A by day and six by night, and no hours known to the
// search: four on each leg are even, and nothing keeps four of the day off one.
func TestBalanceWithoutTheHoursLeavesADayUneven(t *testing.T) {
	sys := system(t, wye208)
	var wants, blind []Want
	for i := range 12 {
		w := Want{ID: i, Poles: 1, Amps: 1200, At: []int64{1200, 0}}
		if i > 3 && i != 6 && i != 7 {
			w.At = []int64{0, 1200}
		}
		wants = append(wants, w)
		w.At = nil
		blind = append(blind, w)
	}
	without := Place(sys, 12, blind, Day{}, Work{})
	assert.True(t, without.Proved)
	day := sumsAt(sys, wants, without, 0)
	assert.Equal(t, []int64{4800, 2400, 0}, day, "by day, hours not looked at")
	with := Place(sys, 12, wants, flip, Work{})
	assert.Equal(t, []int64{2400, 2400, 2400}, sumsAt(sys, wants, with, 0), "by day")
	assert.Equal(t, []int64{2400, 2400, 2400}, sumsAt(sys, wants, with, 1), "by night")
	assert.True(t, with.Proved && with.Lit == with.LitBound)
}

// With lights off a heater runs. It rules the fullest leg, and the lights are
// divided evenly beside it all the same.
func TestLightsAreEvenWhereTheHeaterRules(t *testing.T) {
	sys := system(t, splitPhase)
	day := Day{Moments: []Moment{{Lit: true}, {}}}
	wants := []Want{{ID: 0, Poles: 1, Amps: 5000, At: []int64{0, 5000}}}
	for i := range 4 {
		wants = append(wants, Want{ID: i + 1, Poles: 1, Amps: 800, At: []int64{800, 0}})
	}
	got := Place(sys, 12, wants, day, Work{})
	assert.Equal(t, int64(5000), got.Worst)
	assert.Equal(t, 1, got.At)
	assert.Equal(t, int64(1600), got.Lit)
	assert.Equal(t, got.LitEven, got.Lit)
	assert.True(t, got.Proved && got.Lit == got.LitBound)
}

// A sub-panel that passes 20 A on by day, all on leg A, is met by what this
// panel's breakers put on B and C then.
func TestWhatASubPanelPassesOnCounts(t *testing.T) {
	sys := system(t, wye208)
	day := Day{Moments: []Moment{{Lit: true, Base: []int64{2000, 0, 0}}}, Base: []int64{2000, 0, 0}}
	wants := []Want{{ID: 0, Poles: 1, Amps: 2000, At: []int64{2000}}, {ID: 1, Poles: 1, Amps: 2000, At: []int64{2000}}}
	got := Place(sys, 12, wants, day, Work{})
	assert.Equal(t, []int64{2000, 2000, 2000}, got.Sums)
	assert.True(t, got.Proved)
}

func sumsAt(sys inventory.System, wants []Want, l Layout, moment int) []int64 {
	sums := make([]int64, sys.Legs)
	for i, w := range wants {
		for _, s := range l.Spaces[i] {
			sums[LegOf(sys, s)] += w.At[moment]
		}
	}
	return sums
}

// Every layout of a tiny panel with a day of several moments is tried.
func TestPlaceIsExactOverTheDayOnTinyPanels(t *testing.T) {
	tried, several, more := 0, 0, 0
	once := func(rt *rapid.T) {
		tried++
		sys := system(rt, rapid.SampledFrom([]string{splitPhase, wye208, highLeg240}).Draw(rt, "system"))
		spaces := rapid.IntRange(4, 10).Draw(rt, "spaces")
		var day Day
		for range rapid.IntRange(1, 6).Draw(rt, "moments") {
			day.Moments = append(day.Moments, Moment{Lit: rapid.Bool().Draw(rt, "lit"), Base: drawBase(rt, sys)})
		}
		day.Base = drawBase(rt, sys)
		var wants []Want
		for i := range rapid.IntRange(1, 5).Draw(rt, "wants") {
			w := Want{ID: i, Poles: rapid.IntRange(1, sys.Legs).Draw(rt, "poles"), At: make([]int64, len(day.Moments))}
			for m := range w.At {
				w.At[m] = rapid.SampledFrom([]int64{0, 0, 7, 12, 20}).Draw(rt, "amps")
			}
			w.Amps = slices.Max(w.At)
			wants = append(wants, w)
		}
		if rapid.Bool().Draw(rt, "built") {
			wants[0].Fixed = Takes(1, wants[0].Poles)
		}
		got := Place(sys, spaces, wants, day, Work{})
		if len(got.Unplaced) > 0 {
			return
		}
		if len(maximal(day, wants)) > 1 {
			several++
		}
		worst, lit := bruteDay(sys, spaces, wants, day)
		if len(maximal(day, wants)) >= mostMoments { // more than are searched: as good as it says, and no better than can be
			assert.LessOrEqual(rt, worst, got.Worst)
			assert.LessOrEqual(rt, got.Bound, worst, got.Why)
			assert.Equal(rt, sumsOf(sys, wants, day, got), got.Lit)
			more++
			return
		}
		assert.Equal(rt, worst, got.Worst, "the fullest leg of the day")
		assert.Equal(rt, lit, got.Lit, "the fullest legs of the lit moments")
		assert.True(rt, got.Proved && got.Lit == got.LitBound, got.Why)
	}
	for range 20 { // until a day of each sort was drawn
		if rapid.Check(t, once); several > 0 && more > 0 || tried < 100 { // few were asked for
			return
		}
	}
	assert.Positive(t, several)
	assert.Positive(t, more)
}

// sumsOf adds up the fullest legs of the moments that count as lit, as the layout
// stands.
func sumsOf(sys inventory.System, wants []Want, day Day, l Layout) (lit int64) {
	for m, counts := range litMoments(day, wants) {
		if !counts {
			continue
		}
		sums := slices.Clone(day.Moments[m].Base)
		for i, w := range wants {
			for _, s := range l.Spaces[i] {
				sums[LegOf(sys, s)] += w.At[m]
			}
		}
		lit += slices.Max(sums)
	}
	return lit
}

func drawBase(rt *rapid.T, sys inventory.System) []int64 {
	return rapid.SliceOfN(rapid.SampledFrom([]int64{0, 0, 5, 11}), sys.Legs, sys.Legs).Draw(rt, "base")
}

// bruteDay tries every layout and returns the least fullest leg of the day and,
// with it, the least sum of the fullest legs of the moments that are lit and in
// which nothing is less than at another.
func bruteDay(sys inventory.System, spaces int, wants []Want, day Day) (worst, lit int64) {
	lits := litMoments(day, wants)
	taken, sums := make([]bool, spaces+1), make([][]int64, len(day.Moments))
	for m := range sums {
		sums[m] = slices.Clone(day.Moments[m].Base)
	}
	worst = -1
	var from func(i int)
	try := func(i int, at []int) {
		for _, s := range at {
			if s > spaces || taken[s] {
				return
			}
		}
		for sign := int64(1); ; sign = -1 {
			for _, s := range at {
				taken[s] = sign > 0
				for m := range sums {
					sums[m][LegOf(sys, s)] += sign * wants[i].At[m]
				}
			}
			if sign < 0 {
				return
			}
			from(i + 1)
		}
	}
	from = func(i int) {
		if i == len(wants) {
			var w, l int64
			for m := range sums {
				w = max(w, slices.Max(sums[m]))
				if lits[m] {
					l += slices.Max(sums[m])
				}
			}
			if worst < 0 || w < worst || w == worst && l < lit {
				worst, lit = w, l
			}
			return
		}
		if wants[i].Fixed != nil {
			try(i, wants[i].Fixed)
			return
		}
		for first := 1; first <= spaces; first++ {
			try(i, Takes(first, wants[i].Poles))
		}
	}
	from(0)
	return worst, lit
}

// litMoments tells which moments count as lit, pair by pair.
func litMoments(day Day, wants []Want) []bool {
	list := make([][]int64, len(day.Moments))
	for m := range list {
		list[m] = slices.Clone(day.Moments[m].Base)
		for _, w := range wants {
			list[m] = append(list[m], w.At[m])
		}
	}
	kept, any := make([]bool, len(list)), false
	for m := range list {
		kept[m] = true
		for o := range list {
			exceeds, same := true, true
			for i := range list[m] {
				exceeds = exceeds && list[o][i] >= list[m][i]
				same = same && list[o][i] == list[m][i]
			}
			if o != m && exceeds && (!same || o < m) {
				kept[m] = false
			}
		}
		any = any || kept[m] && day.Moments[m].Lit
	}
	for m := range kept {
		kept[m] = kept[m] && (!any || day.Moments[m].Lit)
	}
	return kept
}
