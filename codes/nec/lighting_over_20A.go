package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func lightingOver20A() codes.Rule {
	return codes.Rule{
		ID:    "lighting-over-20A",
		Title: "luminaires on a circuit above 20 A are made for it",
		Why: "Above 20 A the code asks for heavy-duty lampholders. Fixtures without lampholders do not fit its words, and " +
			"inspectors differ, so what settles it is the largest overcurrent device in the maker's instructions.",
		Clauses:  clauses(clause{since: "2017", at: "210.21(A), 210.23(B)"}, clause{since: "2023", at: "210.21(A), 210.23(C)"}),
		Severity: codes.Warning,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.IsLuminaire, codes.Dwelling, codes.MakerBreaker, codes.BehindBox},
		Remedies: []codes.Remedy{codes.AskMaker, codes.AddCircuit, codes.AskOnSite},
		Check:    checkLightingOver20A,
	}
}

// checkLightingOver20A asks outside dwellings, where such circuits are permitted
// at all, and not behind a controller with branches of its own.
func checkLightingOver20A(f *codes.Facts) codes.Verdict {
	breaker, known := codes.Get[units.Current](f, codes.BreakerAmps)
	upTo := f.Book().Branch.LightingUpTo
	if f.No(codes.IsLuminaire) || f.Yes(codes.Dwelling) || f.Yes(codes.BehindBox) || known && !units.Exceeds(breaker, upTo) {
		return codes.NotConcerned()
	}
	v := codes.Within(breaker, codes.Of[units.Current](f, codes.MakerBreaker), "A")
	has, most := v.Figures()
	return v.Saying("divide them over circuits of "+upTo.String(), "its breaker is rated %s; its maker allows %s, and luminaires without such a marking stand on %s at most", has, most, upTo)
}
