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
