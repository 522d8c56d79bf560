package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func nameplateConductor() codes.Rule {
	return codes.Rule{
		ID:    "nameplate-conductor",
		Title: "the conductor carries the minimum circuit ampacity on the nameplate",
		Why: "The nameplate's minimum circuit ampacity is what the equipment needs of its wire with everything in it running; it " +
			"holds the allowance already. A smaller wire overheats on the hottest days, when compressors run longest.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.WireAmps},
		Remedies: []codes.Remedy{codes.LargerConductor},
		Bounds:   true,
		Check:    checkNameplateConductor,
	}
}

// checkNameplateConductor asks of equipment that is marked. No further allowance
// is put on the marked ampacity.
func checkNameplateConductor(f *codes.Facts) codes.Verdict {
	mca, marked := codes.Get[units.Current](f, codes.MinCircuit)
	if !marked {
		return codes.NotConcerned()
	}
	v := codes.Within(mca, codes.Of[units.Current](f, codes.WireAmps), "A")
	needs, has := v.Figures()
	return v.Saying("run a conductor of at least "+needs, "its nameplate asks for %s, the conductor carries %s", needs, has)
}
