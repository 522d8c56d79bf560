package practice

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func legBalance() codes.Rule {
	return codes.Rule{
		ID:    "leg-balance",
		Title: "the legs of a panel are loaded within 15 % of one another",
		Why: "The fullest leg decides what the panel can carry, and the difference flows in the neutral. A panel out of balance " +
			"runs out of room early.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Advice,
		Subject:  codes.OfPanel,
		Needs:    []codes.Fact{codes.LegImbalance, codes.LegSpread, codes.MostEven, codes.Outgoing},
		Remedies: []codes.Remedy{codes.Balance},
		Check:    checkLegBalance,
	}
}

// Limits of balance: trade guides name 10 to 15 %. A difference of less than a
// fifth of the main, or of 20 A where the main is not known, does not matter and
// is not spoken of.
const (
	mostImbalance units.Ratio   = 0.15
	mattersFrom                 = 0.2
	mattersAlone  units.Current = 20
	fewCircuits                 = 3
)

// checkLegBalance gives advice that can be taken: not about a layout that is
// proved to be the most even there is, and not about two circuits, which are as
// even as they are.
func checkLegBalance(f *codes.Facts) codes.Verdict {
	spread, known := codes.Get[units.Current](f, codes.LegSpread)
	out, counted := codes.Get[int](f, codes.Outgoing)
	if f.Yes(codes.MostEven) || counted && out < fewCircuits {
		return codes.NotConcerned()
	}
	matters := mattersAlone
	if main, rated := codes.Get[units.Current](f, codes.MainAmps); rated {
		matters = units.Times(main, mattersFrom)
	}
	if known && !units.Exceeds(spread, matters) {
		return codes.NotConcerned()
	}
	v := codes.Within(100*float64(codes.Of[units.Ratio](f, codes.LegImbalance)), 100*float64(mostImbalance), "%")
	has, most := v.Figures()
	return v.Saying("move circuits of about "+units.Times(spread, 0.5).String()+" from the fullest leg to the emptiest",
		"its legs differ by %s of their mean (%s); %s is usual", has, codes.Of[string](f, codes.LegDetail), most)
}
