package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func panelBus() codes.Rule {
	return codes.Rule{
		ID:    "panel-bus",
		Title: "the device ahead of the panel protects its bus",
		Why: "The bus carries everything at once. A main or feeder breaker above its rating lets it glow, and bolted joints " +
			"loosen with the heat.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "bus",
		Needs:    []codes.Fact{codes.AheadAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerPanel},
		Check:    checks.PanelBus,
	}
}
