package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func insulationTemperature() codes.Rule {
	return codes.Rule{
		ID:    "insulation-temperature",
		Title: "the conductor's insulation stands the temperature around it",
		Why: "Insulation that is warmer than its rating hardens and cracks. Where the air alone brings it near its rating, no " +
			"current is left that the conductor could carry, and the tables end.",
		Clauses:  clauses(clause{since: "2017", at: "310.15(A)(3)", how: recall}, clause{since: "2020", at: "310.14(A)(3)", how: recall}),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.WireInsulation, codes.AmbientTemp},
		Remedies: []codes.Remedy{codes.OtherInsulation, codes.ShorterRun},
		Check:    checks.InsulationTemperature,
	}
}
