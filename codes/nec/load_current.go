package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func loadCurrent() codes.Rule {
	return codes.Rule{
		ID:    "load-current",
		Title: "the current of every load counts on its circuit",
		Why: "A load whose current nobody knows counts as nothing, and its circuit looks emptier than it is. Such a load is a motor " +
			"given by a horsepower or at a voltage that the tables of motor currents do not have.",
		Clauses:  always("430.6(A)(1)"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.UnitAmps},
		Remedies: []codes.Remedy{codes.CompleteFile, codes.AskMaker},
		Check:    checks.LoadCurrent,
	}
}
