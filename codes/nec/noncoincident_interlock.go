package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func noncoincidentInterlock() codes.Rule {
	return codes.Rule{
		ID:    "noncoincident-interlock",
		Title: "rooms that are lit by turns are kept from being lit together by an interlock",
		Why: "Two rooms that are lit by turns never need the service twice, but a timer is not an interlock: one mistake in a " +
			"schedule lights both. They count once only where a device keeps them from being on together. The code asks less, " +
			"only that it be unlikely; the rest is this program's own.",
		Clauses:  clauses(clause{since: "2017", at: "220.60"}, clause{since: "2026", at: "120.60"}),
		Severity: codes.Advice,
		Subject:  codes.OfPanel,
		Needs:    []codes.Fact{codes.Alternating},
		Remedies: []codes.Remedy{codes.Interlock},
		Check:    checks.NoncoincidentInterlock,
	}
}
