package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func dwellingVoltage() codes.Rule {
	return codes.Rule{
		ID:    "dwelling-voltage",
		Title: "in a dwelling unit luminaires and small plug-in loads are supplied at 120 V at most",
		Why: "People who live with equipment handle lamps, sockets and cords with the power on. The code keeps what they handle " +
			"at 120 V between conductors, luminaires whatever their size and plug-in loads up to 1,440 VA.",
		Clauses:  always("210.6(A)"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.Dwelling, codes.Volts, codes.IsLuminaire, codes.Corded, codes.UnitVA},
		Remedies: []codes.Remedy{codes.OtherSupply, codes.AskOnSite},
		Check:    checkDwellingVoltage,
	}
}

// checkDwellingVoltage asks of luminaires, and of cord-and-plug loads of 1,440 VA
// or less. The limit of 1/4 hp for motors is not asked separately: such a motor
// draws less than 1,440 VA.
func checkDwellingVoltage(f *codes.Facts) codes.Verdict {
	b := f.Book().Branch
	va, known := codes.Get[units.Apparent](f, codes.UnitVA)
	large := known && units.Exceeds(va, b.DwellingVA)
	if f.No(codes.Dwelling) || f.No(codes.IsLuminaire) && (f.No(codes.Corded) || large) {
		return codes.NotConcerned()
	}
	what := "a luminaire"
	if f.No(codes.IsLuminaire) {
		what = fmt.Sprintf("a plug-in load of %s, not more than %s", va, b.DwellingVA)
	}
	v := codes.Within(codes.Of[units.Voltage](f, codes.Volts), b.DwellingVolts, "V")
	has, most := v.Figures()
	return v.Saying("supply it at "+most+", or ask the authority having jurisdiction whether the room is part of the dwelling unit",
		"%s on %s; in a dwelling unit the limit between conductors is %s", what, has, most)
}
