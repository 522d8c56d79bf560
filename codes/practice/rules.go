// Package practice holds rules of good practice that no clause of a code asks
// for, shared by all profiles. Their cite is common practice without a source,
// or the product standard that they rest on.
//
// A rule of practice is a warning or advice, except where a plan would be
// worthless or dangerous without it: a unit that no circuit feeds, and branch
// wiring of aluminium or of a kind that nobody knows.
package practice

import "branchwork/codes"

// Rules lists the rules, one file each.
func Rules() []codes.Rule {
	return []codes.Rule{
		unfedLoad(), branchWiring(),
		inrushCount(), leakageSum(), measuredLoad(), plugFits(), ownCircuit(), lifeSupport(),
		legBalance(), spareSpaces(),
	}
}

// NotCovered lists what no rule of any profile can tell, because the file has no
// words for it.
func NotCovered() []string {
	return []string{
		"multiwire circuits: every line-to-neutral circuit is taken to have a neutral of its own",
		"chains of linked fixtures and their cords, and the rating of contacts in relays and contactors",
		"which class of ground-fault device is installed: the file says only that there is one",
		"several motors on one circuit, and the overload protection of motors",
		"the grounding conductors of feeders that exist",
		"ground-fault protection of equipment at large services",
	}
}
