package nec

import "branchwork/codes"

func feederProtection() codes.Rule {
	return codes.Rule{
		ID:    "feeder-protection",
		Title: "the feeder's breaker protects its conductors at their ampacity",
		Why: "Feeders are long, enter walls and are seldom looked at. A breaker above their ampacity lets them run hot for years " +
			"before anybody notices.",
		Clauses:  always("240.4, 240.4(B), 240.4(C)"),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.WireAmps, codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    func(f *codes.Facts) codes.Verdict { return protects(f, false) },
	}
}
