package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func standardRating() codes.Rule {
	return codes.Rule{
		ID:    "standard-rating",
		Title: "the breaker has a standard rating",
		Why: "A rating that is not in the list is most often a misread handle or a typing error, and everything judged from it is " +
			"wrong with it. Devices of other ratings are permitted, but they are rare.",
		Clauses:  clauses(clause{since: "2017", at: "240.6(A)", in26: true}),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checks.StandardRating,
	}
}
