package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
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
		Check:    checkMakerMaxBreaker,
	}
}

// checkMakerMaxBreaker asks of equipment that is marked, and not behind a
// controller, whose own protection is controller-branches'.
func checkMakerMaxBreaker(f *codes.Facts) codes.Verdict {
	most, marked := codes.Get[units.Current](f, codes.MakerBreaker)
	if !marked || f.Yes(codes.BehindBox) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), most, "A")
	has, limit := v.Figures()
	return v.Saying("feed it from a circuit of "+limit+" or less", "its breaker is rated %s, its maker allows %s at most", has, limit)
}
