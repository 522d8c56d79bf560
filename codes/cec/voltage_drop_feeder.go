package cec

import "branchwork/codes"

func voltageDropFeeder() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-feeder",
		Title: "the voltage drop of a feeder is 3 % at most",
		Why: "A feeder's loss reaches every circuit of the panel, and each of them may lose as much again. The code limits feeders " +
			"as it does branch circuits, and both together.",
		Clauses:  clauses("8-102", seen),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.DropShare},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun},
		Check:    checkVoltageDrop,
	}
}
