package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func controllerOutlets() codes.Rule {
	return codes.Rule{
		ID:    "controller-outlets",
		Title: "a controller switches no more units than it has outlets",
		Why: "What does not fit into the controller's outlets ends up on splitters and power strips, which are not made to be " +
			"permanent wiring and gather current where nobody expects it.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfControl,
		Key:      "outlets",
		Needs:    []codes.Fact{codes.OutletsUsed, codes.Outlets},
		Remedies: []codes.Remedy{codes.AnotherControl, codes.ReduceLoad},
		Check:    checks.ControllerOutlets,
	}
}
