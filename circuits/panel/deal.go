package panel

import (
	"cmp"
	"math"
	"slices"
)

// deal splits the parts into two lists with about equally many states, each
// keeping the order. Parts of one kind stay together: many of their divisions
// lead to the same state, but only within one table.
func deal(parts []part) (one, two []part) {
	inOne := evenly(groupsOf(parts))
	for _, p := range parts {
		if inOne[p.kind] {
			one = append(one, p)
		} else {
			two = append(two, p)
		}
	}
	return one, two
}

// group is the parts of one kind.
type group struct {
	kind   int
	states float64 // logarithm of the number of divisions
}

func groupsOf(parts []part) []group {
	var groups []group
	for _, p := range parts {
		if !slices.ContainsFunc(groups, func(g group) bool { return g.kind == p.kind }) {
			groups = append(groups, group{p.kind, math.Log(float64(p.divisions))})
		}
	}
	slices.SortStableFunc(groups, func(g, h group) int { return cmp.Compare(h.states, g.states) })
	return groups
}

// mostGroups is the number of kinds up to which every way of dealing is tried.
// With more, the tables are far larger than their room however they are dealt.
const mostGroups = 12

// evenly chooses the kinds of the first list so that the larger of the two has
// as few states as possible.
func evenly(groups []group) map[int]bool {
	inOne := map[int]bool{}
	if len(groups) > mostGroups {
		var a, b float64
		for _, g := range groups {
			if inOne[g.kind] = a <= b; a <= b {
				a += g.states
			} else {
				b += g.states
			}
		}
		return inOne
	}
	var total float64
	for _, g := range groups {
		total += g.states
	}
	best, bestLarger := 0, math.Inf(1)
	for chosen := range 1 << len(groups) {
		var sum float64
		for i, g := range groups {
			if chosen>>i&1 == 1 {
				sum += g.states
			}
		}
		if larger := max(sum, total-sum); larger < bestLarger {
			best, bestLarger = chosen, larger
		}
	}
	for i, g := range groups {
		inOne[g.kind] = best>>i&1 == 1
	}
	return inOne
}

// room is how many states a table may keep.
type room struct {
	cells int
	whole bool // of use for whole tables only
}

// Rooms: small first, which settles nearly every panel; larger only while the
// answer is not proved. A panel of few kinds has tables that are whole in the
// middle room. The large one is for proof: 2 × 20 MB.
const (
	smallRoom  = 1 << 9
	middleRoom = 1 << 14
	largeRoom  = 1 << 19
)

// hopeful is how many times more divisions than room a table may have and still
// come out whole, since many of them lead to the same state or break a rule.
const hopeful = 8

// rooms returns the rooms to try, one after the other.
func rooms(one, two []part) []room {
	largest := 0.0
	for _, parts := range [][]part{one, two} {
		var states float64
		for _, g := range groupsOf(parts) {
			states += g.states
		}
		largest = max(largest, states)
	}
	sizes := []room{{cells: smallRoom}, {cells: smallRoom << 3}, {cells: middleRoom << 1}}
	switch {
	case largest <= math.Log(middleRoom):
		return []room{{cells: middleRoom}}
	case largest <= math.Log(hopeful*largeRoom):
		return append(sizes, room{largeRoom, true})
	}
	return sizes
}
