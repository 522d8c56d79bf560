package nec

import (
	"fmt"
	"strings"

	"branchwork/codes"
)

func multiwireCircuit() codes.Rule {
	return codes.Rule{
		ID:    "multiwire-circuit",
		Title: "circuits that share a neutral leave one panel on legs of their own, and one handle opens them all",
		Why: "On legs of their own two circuits return less through a shared neutral than either draws. On one leg they return " +
			"their sum, which no breaker sees, and the neutral burns. Where only one of them is opened, the neutral in the hands " +
			"of whoever works there is still live through the other.",
		Clauses:  always("210.4(A), (B), (C)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "shares_neutral",
		Needs:    []codes.Fact{codes.NeutralWith, codes.OnePanel, codes.LegsDiffer, codes.Neighbours, codes.OneHandle},
		Remedies: []codes.Remedy{codes.OtherSpace, codes.AddProtection, codes.AskOnSite},
		Check:    checkMultiwireCircuit,
	}
}

// checkMultiwireCircuit is asked of one circuit of those that share a neutral, for
// all of them. That each stands on a leg of its own follows from what a multiwire
// circuit is; that it feeds loads from its leg to neutral only (210.4(C)) from its
// one pole, which the file demands.
func checkMultiwireCircuit(f *codes.Facts) codes.Verdict {
	names := codes.Of[[]string](f, codes.NeutralWith)
	if f.Has(codes.NeutralWith) && len(names) == 0 {
		return codes.NotConcerned()
	}
	list, where := strings.Join(names, " and "), codes.Of[string](f, codes.SharedSpaces)
	const own = "give each a neutral of its own"
	switch {
	case f.No(codes.OnePanel):
		return codes.Whether(false).Saying(own+", or have a licensed electrician bring them to one panel",
			"%s share a neutral and leave different panels: %s", list, where)
	case f.No(codes.LegsDiffer):
		return codes.Whether(false).Saying("have a licensed electrician move the breakers to adjacent spaces on one side, which stand on different legs, or "+own,
			"%s share a neutral and stand on one leg, so that it carries their sum: %s", list, where)
	case f.No(codes.Neighbours):
		return codes.Whether(false).Saying("have a licensed electrician move the breakers to adjacent spaces on one side and join their handles, or "+own,
			"%s share a neutral, and no handle reaches all their breakers: %s", list, where)
	}
	return codes.Whether(f.Yes(codes.OneHandle)).Saying(
		fmt.Sprintf("fit a breaker of %d poles, or handle ties made for these breakers, or %s", len(names), own),
		"%s share a neutral, and each is opened by itself: %s", list, where)
}
