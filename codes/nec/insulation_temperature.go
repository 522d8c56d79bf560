package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
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
		Check:    checkInsulationTemperature,
	}
}

// checkInsulationTemperature asks the ambient table whether it still has a
// factor for the insulation's rating.
func checkInsulationTemperature(f *codes.Facts) codes.Verdict {
	w := f.Book().Wires
	name := codes.Of[string](f, codes.WireInsulation)
	air := codes.Of[units.Temperature](f, codes.AmbientTemp)
	i, inBook := w.InsulationNamed(name)
	if !inBook && f.Has(codes.WireInsulation) {
		return codes.Unsettled("the insulation "+name+" is not in the book, so its temperature rating is not known", "", codes.WireInsulation)
	}
	_, _, stands := w.AmbientFactor(i.Rating, air)
	v := codes.Whether(stands)
	v.Actual, v.Limit = units.Any{Value: float64(air), Unit: "C"}, units.Any{Value: float64(i.Rating), Unit: "C"}
	return v.Saying("run the conductors where the air is cooler, or use an insulation with a higher temperature rating",
		"%s around %s, which is rated %s: the correction table has no factor left", air, i.Name, i.Rating)
}
