package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func panelSpaces() codes.Rule {
	return codes.Rule{
		ID:    "panel-spaces",
		Title: "the panel has a space for every pole",
		Why: "A panel takes as many devices as it was designed for. What does not fit ends up on shared breakers or double-tapped " +
			"terminals.",
		Clauses:  recalled("408.54"),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "spaces",
		Needs:    []codes.Fact{codes.SpacesUsed, codes.Spaces, codes.HasCircuits},
		Remedies: []codes.Remedy{codes.AddPanel, codes.HigherVoltage, codes.ReduceLoad},
		Check:    checks.PanelSpaces,
	}
}
