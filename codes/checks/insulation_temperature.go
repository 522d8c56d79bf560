package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// InsulationTemperature asks the ambient table whether it still has a
// factor for the insulation's rating.
func InsulationTemperature(f *codes.Facts) codes.Verdict {
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
