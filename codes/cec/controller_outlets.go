package cec

import (
	"fmt"

	"branchwork/codes"
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
		Check:    checkControllerOutlets,
	}
}

func checkControllerOutlets(f *codes.Facts) codes.Verdict {
	if relay(f) {
		return codes.NotConcerned()
	}
	used, have := codes.Of[int](f, codes.OutletsUsed), codes.Of[int](f, codes.Outlets)
	return codes.Within(float64(used), float64(have), "outlets").Saying(fmt.Sprintf("add a controller for %d units, or move them to another one", used-have),
		"it switches %d units and has %d outlets", used, have)
}

// relay reports whether nothing says that a controller has outlets of its own:
// such a one switches ordinary circuits, which are judged as circuits.
func relay(f *codes.Facts) bool {
	return !f.Has(codes.Outlets) && !f.Has(codes.FeedRating) && !f.Has(codes.OutletRating)
}
