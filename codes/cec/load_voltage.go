package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
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
		Check:    checkLoadVoltage,
	}
}

func checkLoadVoltage(f *codes.Facts) codes.Verdict {
	volts := codes.Of[units.Voltage](f, codes.Volts)
	v := codes.Whether(f.Yes(codes.Accepts))
	v.Actual = units.Any{Value: float64(volts), Unit: "V"}
	supply := volts.String()
	if codes.Of[int](f, codes.PhaseCount) == 3 {
		supply += " three-phase"
	}
	accepted := codes.Of[string](f, codes.Accepted)
	return v.Saying("move it to a circuit of "+accepted+", or use equipment made for "+supply,
		"the circuit supplies %s, it accepts %s", supply, accepted)
}
