package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func smallConductor() codes.Rule {
	return codes.Rule{
		ID:    "small-conductor",
		Title: "the breaker is within the limit of small conductors",
		Why: "Small wire heats faster than its ampacity suggests when a fault or an overload lasts, so the code caps its device: " +
			"15 A for 14 AWG copper, 20 A for 12, 30 A for 10, whatever the table of ampacities says.",
		Clauses:  clauses("14-104(2)", recalled),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.WireSize, codes.WireMaterial, codes.BreakerAmps, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    checks.SmallConductor,
	}
}
