package panel

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/loads/inventory"
)

func system(t interface{ Fatalf(string, ...any) }, name string) inventory.System {
	s, ok := inventory.SystemNamed(name)
	if !ok {
		t.Fatalf("no system %q", name)
	}
	return s
}

const (
	splitPhase = "120/240 V 1ph"
	wye208     = "208Y/120 V 3ph"
	wye480     = "480Y/277 V 3ph"
	highLeg240 = "240/120 V 3ph high-leg"
	twoWire    = "120 V 1ph"
)

// Case F42: circuit 24 is on C (electricianapprenticehq.com, "how to identify
// circuit number colors"), 11 and 17 are on C (forums.mikeholt.com, post
// 1725574). A rule that divides by three, given in the same thread and
// corrected there, fails on them.
func TestLegOfPublishedSpaces(t *testing.T) {
	wye := system(t, wye208)
	for _, space := range []int{24, 11, 17} {
		assert.Equal(t, 2, LegOf(wye, space), "space %d", space)
	}
}

// The remainder of the space number by six gives the leg of a three-phase
// panel: 1, 2 are A; 3, 4 are B; 5, 0 are C. Same source as F42.
func TestLegOfFollowsTheBus(t *testing.T) {
	legs := map[int]int{1: 0, 2: 0, 3: 1, 4: 1, 5: 2, 0: 2}
	for _, name := range []string{wye208, wye480, highLeg240} {
		for space := 1; space <= 84; space++ {
			assert.Equal(t, legs[space%6], LegOf(system(t, name), space), "%s space %d", name, space)
		}
	}
	for space := 1; space <= 42; space++ {
		assert.Equal(t, (Row(space)+1)%2, LegOf(system(t, splitPhase), space), "space %d", space)
		assert.Zero(t, LegOf(system(t, twoWire), space))
	}
}

func TestRowHoldsAnOddAndAnEvenSpace(t *testing.T) {
	for _, c := range []struct{ space, row int }{{1, 1}, {2, 1}, {3, 2}, {4, 2}, {41, 21}, {42, 21}} {
		assert.Equal(t, c.row, Row(c.space), "space %d", c.space)
	}
}

// Two-pole breakers start on A-B, B-C, C-A and so on by row (derived from the
// order of the bus).
func TestTwoPoleBreakerTakesNeighbouringRows(t *testing.T) {
	wye := system(t, wye208)
	assert.Equal(t, []int{5, 7}, Takes(5, 2))
	assert.Equal(t, []int{2, 4, 6}, Takes(2, 3))
	for first, legs := range map[int][]int{1: {0, 1}, 2: {0, 1}, 3: {1, 2}, 4: {1, 2}, 5: {2, 0}, 6: {2, 0}, 7: {0, 1}} {
		assert.Equal(t, legs, LegsOf(wye, Takes(first, 2)), "first space %d", first)
	}
}

func TestAdjacent(t *testing.T) {
	for _, c := range []struct {
		why    string
		spaces []int
		want   bool
	}{
		{"one pole", []int{7}, true},
		{"two rows of one side", []int{1, 3}, true},
		{"listed the other way round", []int{3, 1}, true},
		{"three rows", []int{2, 4, 6}, true},
		{"both sides of a row", []int{1, 2}, false},
		{"a row between", []int{1, 5}, false},
		{"twice the same", []int{3, 3}, false},
		{"numbering starts at 1", []int{-1, 1}, false},
		{"nothing", nil, false},
	} {
		assert.Equal(t, c.want, Adjacent(c.spaces), c.why)
	}
}

func TestCheckNamesWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		system string
		have   int
		spaces []int
		says   string
	}{
		{splitPhase, 20, []int{1, 3}, ""},
		{splitPhase, 0, []int{41, 43}, ""},
		{splitPhase, 20, nil, "no spaces"},
		{splitPhase, 20, []int{1, 3, 5}, "3 poles on a system of 2"},
		{wye208, 42, []int{1, 2}, "spaces [1 2] are not neighbours on one side"},
		{wye208, 42, []int{39, 41, 43}, "space 43 of a panel with 42"},
	} {
		err := Check(system(t, c.system), c.have, c.spaces)
		if c.says == "" {
			assert.NoError(t, err)
		} else {
			assert.EqualError(t, err, c.says)
		}
	}
}

func TestHighLegServesNoNeutralLoads(t *testing.T) {
	high := system(t, highLeg240)
	assert.True(t, HasNeutralUse(high, 0))
	assert.False(t, HasNeutralUse(high, 1))
	assert.True(t, HasNeutralUse(high, 2))
	assert.True(t, HasNeutralUse(system(t, wye208), 1))
}
