package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func feederDevice() codes.Rule {
	return codes.Rule{
		ID:    "feeder-device",
		Title: "the feeder's breaker covers what the panel needs, continuous load with its allowance",
		Why: "The breaker of a feeder carries the sum of a panel for hours. The allowance for continuous load holds for it as it " +
			"does for a branch circuit.",
		Clauses:  always("215.3"),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.RequiredAmps},
		Remedies: []codes.Remedy{codes.ReduceLoad, codes.HigherVoltage, codes.AddPanel, codes.Interlock},
		Check:    checks.FeederDevice,
	}
}
