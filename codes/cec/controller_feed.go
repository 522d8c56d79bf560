package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func controllerFeed() codes.Rule {
	return codes.Rule{
		ID:    "controller-feed",
		Title: "what a controller switches is within the rating of its supply, continuous load within its share",
		Why: "A controller gathers the current of all its outlets in one supply and one contactor. Each outlet may be within its " +
			"rating and the box still overloaded.",
		Clauses:  marked("8-104"),
		Severity: codes.Violation,
		Subject:  codes.OfControl,
		Key:      "feed",
		Needs:    []codes.Fact{codes.FeedDemand, codes.FeedRating, codes.UnitCount},
		Remedies: []codes.Remedy{codes.AnotherControl, codes.HigherVoltage, codes.ReduceLoad},
		Check:    checks.ControllerFeed,
	}
}
