package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func feederDevice() codes.Rule {
	return codes.Rule{
		ID:    "feeder-device",
		Title: "the feeder's breaker covers what the panel needs, continuous load within its share",
		Why: "The breaker of a feeder carries the sum of a panel for hours. The share for continuous load holds for it as it does " +
			"for a branch circuit and a service.",
		Clauses:  clauses("8-104", seen),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.RequiredAmps},
		Remedies: []codes.Remedy{codes.ReduceLoad, codes.HigherVoltage, codes.AddPanel, codes.Interlock},
		Check:    checks.FeederDevice,
	}
}
