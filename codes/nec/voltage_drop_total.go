package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func voltageDropTotal() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-total",
		Title: "feeders and circuit together drop the voltage within the limit for both",
		Why: "What a feeder loses is missing on every circuit behind it. Each may be within its own limit and the equipment at " +
			"the end still starved. The code recommends a limit for both together; it does not demand one.",
		Clauses:  always("215.2 Informational Note"),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare, codes.FeederDrop, codes.FedThrough},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checks.VoltageDropTotal,
	}
}
