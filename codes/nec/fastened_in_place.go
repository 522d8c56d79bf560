package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func fastenedInPlace() codes.Rule {
	return codes.Rule{
		ID:    "fastened-in-place",
		Title: "equipment fastened in place takes at most half of a circuit that also feeds lighting or plug-in loads",
		Why: "What is wired in runs whenever it likes, and what is plugged in comes on top. Half the circuit is kept for lamps " +
			"and plugs, so that nobody overloads it by plugging in what the receptacle invites.",
		Clauses:  clauses(clause{since: "2017", at: "210.23(A)(2)"}, clause{since: "2023", at: "210.23(B)(2)"}),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs: []codes.Fact{codes.BreakerAmps, codes.Individual, codes.FeedsLighting, codes.FeedsCorded, codes.FeedsFastened,
			codes.FastenedAmps},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit},
		Bounds:   true,
		Check:    checkFastenedInPlace,
	}
}

// checkFastenedInPlace asks of 15 and 20 A circuits. Luminaires do not count as
// equipment here, and all that is connected counts, whatever the hours.
func checkFastenedInPlace(f *codes.Facts) codes.Verdict {
	b := f.Book().Branch
	breaker, known := codes.Get[units.Current](f, codes.BreakerAmps)
	alone := f.No(codes.FeedsLighting) && f.No(codes.FeedsCorded)
	if f.Yes(codes.Individual) || f.No(codes.FeedsFastened) || alone || known && units.Exceeds(breaker, b.LightingUpTo) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.FastenedAmps), units.Times(breaker, float64(b.Fastened)), "A")
	has, most := v.Figures()
	return v.Saying(fmt.Sprintf("move equipment of %s, or the lamps and plugs, to another circuit", units.Current(v.Actual.Value-v.Limit.Value)),
		"equipment fastened in place draws %s beside other loads; %s %% of its breaker of %s is %s", has, units.Round(100*float64(b.Fastened), 0), breaker, most)
}
