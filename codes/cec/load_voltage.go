package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func loadVoltage() codes.Rule {
	return codes.Rule{
		ID:    "load-voltage",
		Title: "every load accepts the voltage and the phases of its circuit",
		Why: "Equipment on a voltage that it is not made for fails, overheats or draws a current that nobody planned. 208, 240 and " +
			"347 V stand in one building, and a plug does not always tell them apart.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.Accepts, codes.Volts, codes.PhaseCount},
		Remedies: []codes.Remedy{codes.OtherSupply, codes.OtherEquipment},
		Check:    checks.LoadVoltage,
	}
}
