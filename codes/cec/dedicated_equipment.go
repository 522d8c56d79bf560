package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func dedicatedEquipment() codes.Rule {
	return codes.Rule{
		ID:    "dedicated-equipment",
		Title: "equipment that must have a circuit of its own has one",
		Why: "A nameplate with a minimum circuit and a maximum device describes a circuit for that equipment alone, and some " +
			"instructions demand one. Anything else on it changes what the device protects.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.AskedAlone, codes.Individual},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.MoveLoads},
		Check:    checks.DedicatedEquipment,
	}
}
