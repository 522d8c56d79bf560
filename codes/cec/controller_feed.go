package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func controllerFeed() codes.Rule {
	return codes.Rule{
		ID:    "controller-feed",
		Title: "what a controller switches is within the rating of its supply, continuous load within its share",
		Why: "A controller gathers the current of all its outlets in one supply and one contactor. Each outlet may be within its " +
			"rating and the box still overloaded.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfControl,
		Key:      "feed",
		Needs:    []codes.Fact{codes.FeedDemand, codes.FeedRating, codes.UnitCount},
		Remedies: []codes.Remedy{codes.AnotherControl, codes.HigherVoltage, codes.ReduceLoad},
		Check:    checkControllerFeed,
	}
}

func checkControllerFeed(f *codes.Facts) codes.Verdict {
	if relay(f) {
		return codes.NotConcerned()
	}
	boxes := max(1, codes.Of[int](f, codes.UnitCount))
	rating := units.Times(codes.Of[units.Current](f, codes.FeedRating), float64(boxes))
	v := codes.Within(codes.Of[units.Current](f, codes.FeedDemand), rating, "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("move %s of what it switches to a further controller", units.Current(v.Actual.Value-v.Limit.Value)),
		"what it switches needs %s, its supply is rated %s", needs, has)
}
