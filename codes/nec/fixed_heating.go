package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func fixedHeating() codes.Rule {
	return codes.Rule{
		ID:    "fixed-heating",
		Title: "the breaker covers 125 % of fixed space heating, whatever its hours and its listing",
		Why: "A heater runs at its full rating for as long as the room is cold, and nobody can say how long that is. Its circuit " +
			"is sized as for continuous load even where a thermostat cycles it.",
		Clauses:  clauses(clause{since: "2017", at: "424.3(B), 210.20(A)"}, clause{since: "2020", at: "424.4(B), 210.20(A)"}),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.HeaterAmps},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkFixedHeating,
	}
}

// checkFixedHeating compares 125 % of the heaters connected with the breaker.
// Other load on the circuit is the continuous-load rule's, and moving it cures
// nothing here.
func checkFixedHeating(f *codes.Facts) codes.Verdict {
	heat, known := codes.Get[units.Current](f, codes.HeaterAmps)
	if known && heat == 0 {
		return codes.NotConcerned()
	}
	need := f.Book().Continuous.Required(heat, 0, false)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	v := codes.Within(need, breaker, "A")
	needs, has := v.Figures()
	return v.Saying(codes.Relief(codes.Of[[]codes.Piece](f, codes.HeaterList), need-breaker),
		"its heaters need %s (125 %% of %s), its breaker is rated %s", needs, heat, has)
}
