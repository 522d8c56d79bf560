package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func loadCurrent() codes.Rule {
	return codes.Rule{
		ID:    "load-current",
		Title: "what every load draws on its circuit is known",
		Why: "A load whose current nobody knows counts as nothing, and its circuit looks emptier than it is. Here that is a motor " +
			"given by its horsepower: the tables of motor currents are not held.",
		Clauses:  clauses("8-104(2)", seen),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.UnitAmps},
		Remedies: []codes.Remedy{codes.CompleteFile, codes.AskMaker},
		Check:    checkLoadCurrent,
	}
}

// checkLoadCurrent holds wherever there is a current; what it is worth is the
// other rules' question.
func checkLoadCurrent(f *codes.Facts) codes.Verdict {
	i, known := codes.Get[units.Current](f, codes.UnitAmps)
	if !known {
		return codes.Unsettled("", "read the current on its nameplate and add `current` in place of `hp`", codes.UnitAmps)
	}
	return codes.Whether(i > 0)
}
