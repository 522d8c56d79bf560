package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func controllerOutletRating() codes.Rule {
	return codes.Rule{
		ID:    "controller-outlet-rating",
		Title: "no unit draws more from a controller's outlet than 80 % of the outlet's rating",
		Why: "The outlets of a controller are receptacles like any others: at full rating for hours their contacts overheat, and " +
			"the relay behind them may weld and leave the lights on.",
		Clauses:  marked("8-104"),
		Severity: codes.Violation,
		Subject:  codes.OfControl,
		Key:      "outlet_rating",
		Needs:    []codes.Fact{codes.LargestUnit, codes.OutletRating},
		Remedies: []codes.Remedy{codes.AnotherControl, codes.HigherVoltage},
		Check:    checkControllerOutletRating,
	}
}

// checkControllerOutletRating takes every unit as continuous, as the code does
// where nothing shows otherwise.
func checkControllerOutletRating(f *codes.Facts) codes.Verdict {
	if checks.Relay(f) {
		return codes.NotConcerned()
	}
	rating := codes.Of[units.Current](f, codes.OutletRating)
	v := codes.Within(codes.Of[units.Current](f, codes.LargestUnit), units.Times(rating, 1/f.Book().Continuous.Factor()), "A")
	draws, most := v.Figures()
	return v.Saying(fmt.Sprintf("use a controller whose outlets may carry %s, or supply the units at a higher voltage", draws),
		"%s draws %s; an outlet of %s may carry %s", codes.Of[string](f, codes.LargestItem), draws, rating, most)
}
