package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func lightingOver20A(b codes.TableSet) codes.Rule {
	return codes.Rule{
		ID:    "lighting-over-20A",
		Title: "luminaires on cords, and those marked for more, stand on no more than the limit for luminaires",
		Why: "The limit for circuits with luminaires names neither cords nor grow lights, and heavy-duty arrangements are excepted " +
			"from it. Whether a luminaire on cord and plug is meant is not clear, so the inspector is asked before it is built.",
		Clauses:  clauses("30-104", seen),
		Severity: codes.Warning,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.IsLuminaire, codes.Corded, codes.Dwelling, codes.BehindBox},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.AskMaker, codes.AddCircuit},
		Check:    func(f *codes.Facts) codes.Verdict { return checkLightingOver20A(f, luminaireLimits(b)) },
	}
}

// checkLightingOver20A asks of luminaires on cord and plug, and of those that
// their maker allows on the breaker and luminaire-device therefore leaves.
func checkLightingOver20A(f *codes.Facts, caps luminaireCaps) codes.Verdict {
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	most, told := codes.Get[units.Current](f, codes.MakerBreaker)
	excepted := told && f.No(codes.Dwelling) && !units.Exceeds(breaker, most)
	if f.No(codes.IsLuminaire) || f.Yes(codes.BehindBox) || f.No(codes.Corded) && f.Has(codes.BreakerAmps) && f.Has(codes.Dwelling) && !excepted {
		return codes.NotConcerned()
	}
	v := codes.Within(breaker, caps.in(f), "A")
	has, limit := v.Figures()
	return v.Saying("divide them over circuits of "+limit+", or ask the inspector", "luminaires on a breaker of %s; the limit for circuits with luminaires is %s here", has, limit)
}
