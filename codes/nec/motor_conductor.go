package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func motorConductor() codes.Rule {
	return codes.Rule{
		ID:    "motor-conductor",
		Title: "a motor's conductor carries 125 % of its full-load current",
		Why: "Motors run hot, start often and are loaded beyond their rating now and then, and the code's table stands for any " +
			"motor of that size that may be fitted later. The nameplate's current does not replace it.",
		Clauses:  always("430.22, 430.6(A)(1)"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.WireAmps, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.LargerConductor},
		Bounds:   true,
		Check:    checkMotorConductor,
	}
}

// checkMotorConductor asks of a motor alone on its circuit and not marked with a
// circuit; among other loads it counts with the same allowance in
// conductor-ampacity.
func checkMotorConductor(f *codes.Facts) codes.Verdict {
	flc, motor := codes.Get[units.Current](f, codes.MotorFLC)
	if !motor || f.Has(codes.MinCircuit) || f.No(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	share := f.Book().Motors.Conductor
	v := codes.Within(units.Times(flc, float64(share)), codes.Of[units.Current](f, codes.WireAmps), "A")
	needs, has := v.Figures()
	return v.Saying("run a conductor of at least "+needs, "it needs %s (%s %% of %s full-load current), its conductor carries %s",
		needs, units.Round(100*float64(share), 0), flc, has)
}
