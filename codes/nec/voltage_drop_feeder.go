package nec

import "branchwork/codes"

func voltageDropFeeder() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-feeder",
		Title: "the voltage drop of a feeder is within its limit",
		Why: "A feeder's loss reaches every circuit of the panel. The code recommends a limit for feeders as it does for circuits; " +
			"it does not demand one.",
		Clauses:  always("215.2 Informational Note"),
		Severity: codes.Advice,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.DropShare, codes.DropLimit},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun},
		Check:    checkVoltageDrop,
	}
}
