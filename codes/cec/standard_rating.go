package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func standardRating() codes.Rule {
	return codes.Rule{
		ID:    "standard-rating",
		Title: "the breaker has a rating of the code's table",
		Why: "A rating that is not in the list is most often a misread handle or a typing error, and everything judged from it is " +
			"wrong with it.",
		Clauses:  clauses("Table 13", recalled),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checks.StandardRating,
	}
}
