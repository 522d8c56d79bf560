package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func feederConductor() codes.Rule {
	return codes.Rule{
		ID:    "feeder-conductor",
		Title: "the feeder's conductors carry the panel at their terminations and along their run",
		Why: "A feeder's terminals and run are tested as a branch circuit's are: with the share for continuous load at the ends, " +
			"with correction for warmth and bundling along the way.",
		Clauses:  clauses("4-004", seen, ampacities, "4-006", "8-104(7)"),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.WireTableAmps, codes.WireCorrected, codes.RequiredAmps, codes.LoadAmps},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ReduceLoad},
		Check:    checkFeederConductor,
	}
}

func checkFeederConductor(f *codes.Facts) codes.Verdict {
	return bothTests(f, codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.LoadAmps))
}
