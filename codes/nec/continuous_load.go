package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func continuousLoad() codes.Rule {
	return codes.Rule{
		ID:    "continuous-load",
		Title: "the breaker covers continuous load with its allowance plus all other load",
		Why: "A breaker in an ordinary enclosure warms with hours of current near its rating: it trips early, and its terminals " +
			"and wire age. Grow lighting runs 12 to 18 hours a day, so it is continuous; an assembly listed for continuous " +
			"operation at 100 % of its rating is excepted.",
		Clauses:  always("210.20(A)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.ContinuousAmps, codes.OtherAmps, codes.MarkedAmps, codes.FullRated},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkContinuousLoad,
	}
}

// checkContinuousLoad compares k · Ic + In + Im with the breaker: k is the
// profile's allowance, 1 for an assembly listed at 100 %; Im is what nameplates
// ask for, which holds the allowance already.
func checkContinuousLoad(f *codes.Facts) codes.Verdict {
	c := f.Book().Continuous
	ic, in, im := codes.Of[units.Current](f, codes.ContinuousAmps), codes.Of[units.Current](f, codes.OtherAmps), codes.Of[units.Current](f, codes.MarkedAmps)
	full := codes.Of[bool](f, codes.FullRated)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	need := c.Required(ic, in, full) + im
	v := codes.Within(need, breaker, "A")
	needs, has := v.Figures()
	return v.Saying(codes.Relief(codes.Of[[]codes.Piece](f, codes.LoadList), need-breaker),
		"needs %s (%s%s), its breaker is rated %s", needs, when(f), made(c, ic, in, im, full), has)
}

// when names the worst state of the day.
func when(f *codes.Facts) string {
	if state := codes.Of[string](f, codes.StateName); state != "" {
		return state + ": "
	}
	return ""
}

// made says what a required rating is made of.
func made(c codes.Continuous, ic, in, im units.Current, full bool) string {
	factor := c.Factor()
	if full {
		factor = 1
	}
	s := fmt.Sprintf("%s %% of %s continuous", units.Round(100*factor, 0), ic)
	if in > 0 {
		s += fmt.Sprintf(" + %s other", in)
	}
	if im > 0 {
		s += fmt.Sprintf(" + %s by nameplate", im)
	}
	return s
}
