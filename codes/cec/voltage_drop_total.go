package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func voltageDropTotal() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-total",
		Title: "feeders and circuit together drop the voltage by 5 % at most",
		Why: "What a feeder loses is missing on every circuit behind it. Each may be within its own limit and the equipment at " +
			"the end still starved, so the code limits the whole way from the service to the outlet.",
		Clauses:  clauses("8-102", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare, codes.FeederDrop, codes.FedThrough},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checks.VoltageDropTotal,
	}
}
