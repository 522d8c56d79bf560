package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func loadVoltage() codes.Rule {
	return codes.Rule{
		ID:    "load-voltage",
		Title: "every load accepts the voltage and the phases of its circuit",
		Why: "Equipment on a voltage that it is not made for fails, overheats or draws a current that nobody planned. 208 V is " +
			"not 240 V, and a plug does not tell them apart.",
		Clauses:  always("110.3(B), 110.4"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.Accepts, codes.Volts, codes.PhaseCount},
		Remedies: []codes.Remedy{codes.OtherSupply, codes.OtherEquipment},
		Check:    checks.LoadVoltage,
	}
}
