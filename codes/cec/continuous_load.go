package cec

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

func continuousLoad() codes.Rule {
	return codes.Rule{
		ID:    "continuous-load",
		Title: "continuous load is within its share of the circuit's rating, and all load within the whole of it",
		Why: "A breaker and its terminals warm with hours of current. Equipment that is not marked for it carries 80 % of its rating " +
			"for long, and a circuit is no stronger than the lesser of its breaker and its conductor. Load counts as continuous " +
			"unless its hours show otherwise.",
		Clauses:  clauses("8-104", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.WireAmps, codes.ContinuousAmps, codes.OtherAmps, codes.MarkedAmps, codes.FullRated},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkContinuousLoad,
	}
}

// checkContinuousLoad compares the rating that the load asks for with the
// circuit's, which is the lesser of device and conductor.
func checkContinuousLoad(f *codes.Facts) codes.Verdict {
	rating := circuitRating(f)
	asked := asksFor(f)
	v := codes.Within(asked, rating, "A")
	asks, has := v.Figures()
	c := f.Book().Continuous
	excess := units.Times(asked-rating, c.Factor()) // pieces hold the allowance, so that relief is never short
	return v.Saying(codes.Relief(codes.Of[[]codes.Piece](f, codes.LoadList), excess),
		"asks for a rating of %s (%s), its rating is %s, the lesser of breaker and conductor", asks, made(f), has)
}

// circuitRating is the ampere rating of a circuit: the lesser of its overcurrent
// device and its conductor.
func circuitRating(f *codes.Facts) units.Current {
	return min(codes.Of[units.Current](f, codes.BreakerAmps), codes.Of[units.Current](f, codes.WireAmps))
}

// asksFor is the least rating for what a circuit carries:
//
//	R >= Ic / share + Im    continuous load within its share
//	R >= Ic + In + Im       all load within the whole
//
// share is 0.8, or 1 where the assembly is marked for continuous operation at
// 100 %. Im is what nameplates ask for, which holds the allowance already.
func asksFor(f *codes.Facts) units.Current {
	ic, in, im := codes.Of[units.Current](f, codes.ContinuousAmps), codes.Of[units.Current](f, codes.OtherAmps), codes.Of[units.Current](f, codes.MarkedAmps)
	return max(f.Book().Continuous.Required(ic, 0, codes.Of[bool](f, codes.FullRated)), ic+in) + im
}

// made says what the rating asked for is made of, and in which state of the day.
func made(f *codes.Facts) string {
	share := 100 / f.Book().Continuous.Factor()
	if f.Yes(codes.FullRated) {
		share = 100
	}
	when := ""
	if state := codes.Of[string](f, codes.StateName); state != "" {
		when = state + ": "
	}
	var parts []string
	if ic := codes.Of[units.Current](f, codes.ContinuousAmps); ic > 0 {
		parts = append(parts, fmt.Sprintf("%s continuous, %s %% of it at most", ic, units.Round(share, 0)))
	}
	if in := codes.Of[units.Current](f, codes.OtherAmps); in > 0 {
		parts = append(parts, fmt.Sprintf("%s other", in))
	}
	if im := codes.Of[units.Current](f, codes.MarkedAmps); im > 0 {
		parts = append(parts, fmt.Sprintf("%s by nameplate", im))
	}
	return when + strings.Join(parts, "; ")
}
