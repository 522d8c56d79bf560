package nec

import "branchwork/codes"

func feederNeutralCounted() codes.Rule {
	return codes.Rule{
		ID:       "feeder-neutral-counted",
		Title:    "the feeder's conductors hold with the neutral counted among those that carry current",
		Why:      neutralWhy,
		Clauses:  neutralClauses(),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.NeutralCounted, codes.WireUncounted, codes.WireCorrected, codes.WireTableAmps, codes.LoadAmps, codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.SmallerBreaker, codes.ReduceLoad},
		Check:    func(f *codes.Facts) codes.Verdict { return neutralHolds(f, false) },
	}
}
