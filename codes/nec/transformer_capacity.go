package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func transformerCapacity() codes.Rule {
	return codes.Rule{
		ID:    "transformer-capacity",
		Title: "the transformer carries the fullest leg of the panel behind it on every leg",
		Why: "A transformer's rating is for all its windings together; one winding carries only its share. Loaded beyond it for " +
			"hours it overheats, and its insulation ages by the hour.",
		Clauses:  instructions(),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "transformer",
		Needs:    []codes.Fact{codes.ThroughVA},
		Remedies: []codes.Remedy{codes.Balance, codes.ReduceLoad, codes.LargerPanel},
		Check:    checks.TransformerCapacity,
	}
}
