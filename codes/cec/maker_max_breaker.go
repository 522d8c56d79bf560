package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func makerMaxBreaker() codes.Rule {
	return codes.Rule{
		ID:    "maker-max-breaker",
		Title: "the breaker is not larger than the maker of the equipment allows",
		Why: "The wire, the inlet and the cord inside equipment were tested behind a device of a certain size. Behind a larger one " +
			"a fault inside may burn before the breaker opens.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.BehindBox},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.AddCircuit},
		Check:    checks.MakerMaxBreaker,
	}
}
