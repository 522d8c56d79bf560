package nec

import (
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

func noncoincidentInterlock() codes.Rule {
	return codes.Rule{
		ID:    "noncoincident-interlock",
		Title: "rooms that are lit by turns are kept from being lit together by an interlock",
		Why: "Two rooms that are lit by turns never need the service twice, but a timer is not an interlock: one mistake in a " +
			"schedule lights both. They count once where a device keeps them from being on together, and only then.",
		Clauses:  clauses(clause{since: "2017", at: "220.60"}, clause{since: "2026", at: "120.60"}),
		Severity: codes.Advice,
		Subject:  codes.OfPanel,
		Needs:    []codes.Fact{codes.Alternating},
		Remedies: []codes.Remedy{codes.Interlock},
		Check:    checkNoncoincidentInterlock,
	}
}

// pairsNamed is how many pairs of rooms a finding names before it counts the rest.
const pairsNamed = 4

func checkNoncoincidentInterlock(f *codes.Facts) codes.Verdict {
	pairs := codes.Of[[]string](f, codes.Alternating)
	list, rest := pairs, ""
	if len(list) > pairsNamed {
		list, rest = list[:pairsNamed], " and "+units.Round(float64(len(pairs)-pairsNamed), 0)+" more pairs"
	}
	return codes.Whether(len(pairs) == 0).Saying(
		"give such rooms one name under `interlock` once a contactor or relay keeps them from being lit together; then the larger counts alone",
		"by their windows the lights of these rooms are never on together, and all are counted: %s%s", strings.Join(list, "; "), rest)
}
