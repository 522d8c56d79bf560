package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func loadCurrent() codes.Rule {
	return codes.Rule{
		ID:    "load-current",
		Title: "the current of every load counts on its circuit",
		Why: "A load whose current nobody knows counts as nothing, and its circuit looks emptier than it is. Here that is a motor " +
			"given by its horsepower: the tables of motor currents are not held.",
		Clauses:  clauses("8-104(2)", seen),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.UnitAmps},
		Remedies: []codes.Remedy{codes.CompleteFile, codes.AskMaker},
		Check:    checks.LoadCurrent,
	}
}
