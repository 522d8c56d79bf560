package nec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func highLeg() codes.Rule {
	return codes.Rule{
		ID:    "high-leg",
		Title: "nothing is supplied from the high leg to neutral",
		Why: "On a high-leg delta system the middle leg stands about 208 V above neutral. A 120 V load connected there gets 208 V " +
			"and burns, and a breaker made for 120/240 V is not made for it. The leg is the middle one (408.3(E)), marked orange (110.15).",
		Clauses:  with(always("110.4, 240.85"), steps.CommonPractice),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "spaces",
		Needs:    []codes.Fact{codes.OnHighLeg, codes.ToNeutral},
		Remedies: []codes.Remedy{codes.OtherSpace},
		Check:    checkHighLeg,
	}
}

// checkHighLeg asks of line-to-neutral circuits; circuits between legs may use
// the high one.
func checkHighLeg(f *codes.Facts) codes.Verdict {
	if f.No(codes.ToNeutral) || f.No(codes.OnHighLeg) {
		return codes.NotConcerned()
	}
	return codes.Whether(!f.Yes(codes.OnHighLeg)).Saying("move its breaker to a space on one of the other legs",
		"its breaker stands on the high leg, about 208 V to neutral, and feeds %s loads", codes.Of[units.Voltage](f, codes.Volts))
}
