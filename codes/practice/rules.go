// Package practice holds rules of good practice that no clause of a code asks
// for, shared by all profiles. Their cite is common practice without a source,
// or the product standard that they rest on.
//
// A rule of practice is a warning or advice, except where a plan would be
// worthless or dangerous without it: a unit that no circuit feeds, and branch
// wiring of aluminum or of a kind that nobody knows.
package practice

import (
	"slices"

	"branchwork/codes"
)

// Rules lists the rules, one file each.
func Rules() []codes.Rule {
	return []codes.Rule{
		unfedLoad(), branchWiring(),
		inrushCount(), leakageSum(), measuredLoad(), plugFits(), ownCircuit(), lifeSupport(),
		legBalance(), spareSpaces(),
	}
}

// NotCovered lists what no rule of a profile can tell: what the file has no words
// for, and what it has words for that the profile holds no rule about.
func NotCovered(rules []codes.Rule) []string {
	out := []string{
		"which class of ground-fault device is installed: the file says only that there is one",
		"several motors on one circuit, and the overload protection of motors",
		"the grounding conductors of feeders that exist, and the raceways of feeders",
		"ground-fault protection of equipment at large services",
		"the cords of chained fixtures beyond the first inlet; power strips, extension cords and timers: what hangs on which, and their ratings",
	}
	for _, x := range []struct{ rule, says string }{
		{"multiwire-circuit", "circuits that share a neutral: how their breakers stand and open"},
		{"neutral-counted", "conductors that hold only while their neutral is left out of the count"},
		{"link-chain", "chains of linked fixtures: what their first inlet carries"},
		{"controller-contactor", "the rating of contacts in relays and contactors"},
		{"raceway-fill", "how full an existing raceway is"},
	} {
		if !slices.ContainsFunc(rules, func(r codes.Rule) bool { return r.ID == x.rule }) {
			out = append(out, x.says)
		}
	}
	return out
}
