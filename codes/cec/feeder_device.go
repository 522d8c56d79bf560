package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
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
		Check:    checkFeederDevice,
	}
}

func checkFeederDevice(f *codes.Facts) codes.Verdict {
	v := codes.Within(codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.BreakerAmps), "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("take %s off the panel, or have a licensed electrician plan a feeder for %s, conductors and device together",
		units.Current(v.Actual.Value-v.Limit.Value), needs), "the panel needs %s, the feeder's breaker is rated %s", needs, has)
}
