package nec

import (
	"fmt"

	"branchwork/codes"
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
		Check:    checkPanelSpaces,
	}
}

func checkPanelSpaces(f *codes.Facts) codes.Verdict {
	if f.No(codes.HasCircuits) {
		return codes.NotConcerned()
	}
	need, have := codes.Of[int](f, codes.SpacesUsed), codes.Of[int](f, codes.Spaces)
	return codes.Within(float64(need), float64(have), "spaces").Saying(
		fmt.Sprintf("add a sub-panel of at least %d spaces, fed by a breaker that takes two or three more here, or supply more units per circuit at a higher voltage", need-have+2),
		"its circuits need %d spaces and it has %d: %d are missing", need, have, need-have)
}
