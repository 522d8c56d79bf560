package practice

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func inrushCount() codes.Rule {
	return codes.Rule{
		ID:    "inrush-count",
		Title: "no more luminaires switch on behind one breaker than their maker allows",
		Why: "Electronic supplies draw many times their running current for a millisecond when they are switched on. The breaker " +
			"trips though the steady load is small, and relay contacts weld shut with the lights on. Only the maker's count " +
			"settles it; running current says nothing about it.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.InrushShare, codes.FeedsLighting},
		Remedies: []codes.Remedy{codes.AskMaker, codes.SwitchInSteps, codes.MoveLoads},
		Bounds:   true,
		Check:    checkInrushCount,
	}
}

// checkInrushCount: kinds that share a breaker share its limit, so the shares of
// their limits add up to 100 % at most.
func checkInrushCount(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsLighting) {
		return codes.NotConcerned()
	}
	share := codes.Of[units.Ratio](f, codes.InrushShare)
	v := codes.Within(100*float64(share), 100, "%")
	used, _ := v.Figures()
	return v.Saying("move as many to another circuit as the makers' limits ask for, or switch them on in steps behind separate relays",
		"it switches %s: %s of what one breaker may", codes.Of[string](f, codes.InrushDetail), used)
}
