package cec

import "branchwork/codes"

func feederProtection() codes.Rule {
	return codes.Rule{
		ID:    "feeder-protection",
		Title: "the feeder's breaker is no larger than the ampacity of its conductors",
		Why: "Feeders are long, enter walls and are seldom looked at. A breaker above their ampacity lets them run hot for years " +
			"before anybody notices.",
		Clauses:  clauses("14-104(1)", seen, ampacities),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.WireAmps, codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    protects,
	}
}
