package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func dwellingVoltage(b codes.TableSet) codes.Rule {
	return codes.Rule{
		ID:    "dwelling-voltage",
		Title: "a dwelling is supplied at 120/240 or 120/208 V, luminaires elsewhere at no more than 600Y/347 V",
		Why: "People who live with equipment handle it with the power on, so nothing in a dwelling stands higher than 150 V to " +
			"ground. A 240 V luminaire in a house stands at 120 V to ground and is within it; 347 V is not.",
		Clauses:  clauses("2-106, 30-102", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.Dwelling, codes.Volts, codes.ToNeutral, codes.FeedsLighting},
		Remedies: []codes.Remedy{codes.OtherSupply, codes.AskOnSite},
		Check:    func(f *codes.Facts) codes.Verdict { return checkDwellingVoltage(f, b.Get("luminaire-voltage")) },
	}
}

// checkDwellingVoltage asks of every circuit of a dwelling, and of circuits with
// luminaires elsewhere. Line to neutral the voltage to ground is compared; between
// legs the voltage of the systems that keep to it.
func checkDwellingVoltage(f *codes.Facts, limits codes.Table) codes.Verdict {
	if f.No(codes.Dwelling) && f.No(codes.FeedsLighting) {
		return codes.NotConcerned()
	}
	place, column := "elsewhere", "between legs"
	if f.Yes(codes.Dwelling) {
		place = "dwelling unit"
	}
	if f.Yes(codes.ToNeutral) {
		column = "to ground"
	}
	limit, _, _ := limits.Value(place, column)
	v := codes.Within(codes.Of[units.Voltage](f, codes.Volts), units.Voltage(limit), "V")
	has, most := v.Figures()
	return v.Saying("supply it at "+most+" or less, or ask the inspector whether the room is part of the dwelling unit",
		"it is supplied at %s %s; the limit is %s (%s)", has, column, most, place)
}
