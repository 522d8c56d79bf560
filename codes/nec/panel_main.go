package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func panelMain() codes.Rule {
	return codes.Rule{
		ID:    "panel-main",
		Title: "the panel's main covers its fullest leg, continuous load with its allowance",
		Why: "Grow lighting runs all at once and for hours, so no diversity helps: what the circuits add up to flows through the " +
			"main every day. An overloaded main trips in the middle of the light period, or ages until it does not trip at all.",
		Clauses:  always("215.3, 230.42(A)(1), 230.79, 408.30"),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "main",
		Needs:    []codes.Fact{codes.MainAmps, codes.RequiredAmps, codes.HasCircuits, codes.FeederIsMain},
		Remedies: []codes.Remedy{codes.ReduceLoad, codes.HigherVoltage, codes.Interlock, codes.LargerPanel},
		Check:    checks.PanelMain,
	}
}
