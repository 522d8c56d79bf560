package nec

import (
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

func branchRating() codes.Rule {
	return codes.Rule{
		ID:    "branch-rating",
		Title: "a circuit of more than one outlet has one of the ratings permitted for it",
		Why: "Receptacles, cords and the wire inside luminaires are made for a few circuit ratings. A circuit that many things " +
			"hang on may only have one of those, so that its device protects what is plugged in.",
		Clauses:  clauses(clause{since: "2017", at: "210.18", in26: true}),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.Individual},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.SmallerBreaker},
		Check:    checkBranchRating,
	}
}

func checkBranchRating(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.Individual) {
		return codes.NotConcerned()
	}
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	var names []string
	fits, below := false, units.Current(0)
	for _, r := range f.Book().Branch.Ratings {
		fits = fits || r == breaker
		names = append(names, units.Round(float64(r), 0))
		if r < breaker {
			below = r
		}
	}
	v := codes.Whether(fits)
	v.Actual = units.Any{Value: float64(breaker), Unit: "A"}
	if own := codes.Of[string](f, codes.DeviceFor); own != "" {
		return v.Saying("leave "+own+" alone on it and give everything else circuits of its own",
			"its breaker of %s is there for %s alone, by its motor or nameplate rule: nothing else goes on it", breaker, own)
	}
	remedy := "divide its loads over circuits of " + below.String() + " or less, each with its own breaker"
	if below == 0 {
		remedy = "put its loads on a circuit of a permitted rating"
	}
	return v.Saying(remedy, "it feeds more than one outlet on a breaker of %s; such circuits are of %s A", breaker, strings.Join(names, ", "))
}
