package panel

import (
	"fmt"
	"slices"

	"branchwork/loads/inventory"
)

// Spaces of a panelboard are numbered from the top, odd on the left and even on
// the right, so that a row holds spaces 2r−1 and 2r. The numbering is the
// makers' convention, common practice, no source; the order of the legs is
// A, B, C from the top (NEC 408.3(E), seen).

// sides is the number of columns of spaces in a panelboard.
const sides = 2

// maxPoles is the largest breaker that takes spaces of a panelboard here.
const maxPoles = 3

// highLeg is the index of the leg that stands at √3 times the line-to-neutral
// voltage in a high-leg delta system: B, the centre bus (NEC 408.3(E)).
const highLeg = 1

// Row returns the row of a space, from 1: ⌈space / 2⌉.
func Row(space int) int { return (space + 1) / sides }

// LegOf returns the index of the leg that a space connects to: legs follow one
// another row by row, so leg = (row − 1) mod legs. On a two-wire system every
// space is on the one leg.
//
// Checked with published cases: spaces 11, 17 and 24 of a three-phase panel are
// on leg C (testdata in spaces_test.go, F42).
func LegOf(sys inventory.System, space int) int {
	if sys.Legs < 2 {
		return 0
	}
	return (Row(space) - 1) % sys.Legs
}

// LegsOf returns the leg of each space, in the order of the spaces.
func LegsOf(sys inventory.System, spaces []int) []int {
	legs := make([]int, len(spaces))
	for i, s := range spaces {
		legs[i] = LegOf(sys, s)
	}
	return legs
}

// Takes returns the spaces of a breaker whose top space is first: every second
// number, since a breaker stays on its side. A 2-pole breaker at 5 takes 5
// and 7.
func Takes(first, poles int) []int {
	spaces := make([]int, poles)
	for i := range spaces {
		spaces[i] = first + sides*i
	}
	return spaces
}

// Adjacent reports whether the spaces are those of one breaker: one side,
// neighbouring rows, none twice. The order in which they are listed does not
// matter. No spaces are not a breaker.
func Adjacent(spaces []int) bool {
	if len(spaces) == 0 {
		return false
	}
	s := slices.Sorted(slices.Values(spaces))
	return s[0] >= 1 && slices.Equal(s, Takes(s[0], len(s)))
}

// HasNeutralUse reports whether a leg can serve line-to-neutral loads: every
// leg but the high one.
func HasNeutralUse(sys inventory.System, leg int) bool {
	return sys.Form != inventory.HighLeg || leg != highLeg
}

// Check returns what is wrong with the spaces of a breaker in a panel that has
// so many, or nil. Spaces may be unknown: have = 0 checks the shape only.
func Check(sys inventory.System, have int, spaces []int) error {
	switch {
	case len(spaces) == 0:
		return fmt.Errorf("no spaces")
	case len(spaces) > sys.Legs:
		return fmt.Errorf("%d poles on a system of %d", len(spaces), sys.Legs)
	case !Adjacent(spaces):
		return fmt.Errorf("spaces %v are not neighbours on one side", spaces)
	}
	if last := slices.Max(spaces); have > 0 && last > have {
		return fmt.Errorf("space %d of a panel with %d", last, have)
	}
	return nil
}
