package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func insulationTemperature() codes.Rule {
	return codes.Rule{
		ID:    "insulation-temperature",
		Title: "the conductor's insulation stands the temperature around it",
		Why: "Insulation that is warmer than its rating hardens and cracks. Where the air alone brings it near its rating, no " +
			"current is left that the conductor could carry, and the table of corrections ends.",
		Clauses:  clauses("Table 5A", recalled),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.WireInsulation, codes.AmbientTemp},
		Remedies: []codes.Remedy{codes.OtherInsulation, codes.ShorterRun},
		Check:    checks.InsulationTemperature,
	}
}
