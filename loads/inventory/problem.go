package inventory

import (
	"slices"
	"sort"
)

// Problem is one thing wrong with an inventory. It knows nothing of terminals;
// Print shows it.
type Problem struct {
	At     Place   // where to point; never zero
	Also   []Place // other places that took part, such as the first use of a space
	Path   string  // "circuits.LP1-7.spaces[0]"
	Says   string  // lower case, no full stop, names the value
	Remedy string  // a right form, or the nearest names; lines end with \n
}

// inOrder sorts problems by place, those of one place in the order in which
// they were found, and drops exact duplicates.
func inOrder(problems []Problem) []Problem {
	sort.SliceStable(problems, func(i, j int) bool {
		return problems[i].At.Start < problems[j].At.Start
	})
	return slices.CompactFunc(problems, func(a, b Problem) bool {
		return a.At == b.At && a.Path == b.Path && a.Says == b.Says && a.Remedy == b.Remedy
	})
}
