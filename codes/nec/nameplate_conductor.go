package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func nameplateConductor() codes.Rule {
	return codes.Rule{
		ID:    "nameplate-conductor",
		Title: "the conductor carries the minimum circuit ampacity on the nameplate",
		Why: "The nameplate's minimum circuit ampacity is what the equipment needs of its wire with everything in it running; it " +
			"holds the allowance already. A smaller wire overheats on the hottest days, when compressors run longest.",
		Clauses:  always("440.4(B), 440.35"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.WireAmps},
		Remedies: []codes.Remedy{codes.LargerConductor},
		Bounds:   true,
		Check:    checks.NameplateConductor,
	}
}
