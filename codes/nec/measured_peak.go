package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func measuredPeak() codes.Rule {
	return codes.Rule{
		ID:    "measured-peak",
		Title: "125 % of the measured peak and the new load are within the service",
		Why: "The highest demand of a year tells what a service carries better than any calculation, but the next year may be " +
			"hotter or busier. A quarter is put on it before new load is added.",
		Clauses:  clauses(clause{since: "2017", at: "220.87"}, clause{since: "2026", at: "120.87", in26: true}),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "measured_peak",
		Needs:    []codes.Fact{codes.MainAmps, codes.RequiredAmps, codes.NewAmps},
		Remedies: []codes.Remedy{codes.ReduceLoad, codes.LargerPanel, codes.Interlock},
		Check:    checkMeasuredPeak,
	}
}

// checkMeasuredPeak asks where a peak was measured. The 25 % on it is a margin,
// apart from the allowance for continuous load, which the new load carries too.
func checkMeasuredPeak(f *codes.Facts) codes.Verdict {
	peak, measured := codes.Get[units.Current](f, codes.PeakAmps)
	if !measured {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.MainAmps), "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("add %s less, or have a licensed electrician and the utility plan a service for %s", units.Current(v.Actual.Value-v.Limit.Value), needs),
		"125 %% of the measured %s and new load of %s come to %s, its %s is rated %s", peak, codes.Of[units.Current](f, codes.NewAmps),
		needs, codes.Of[string](f, codes.MainIs), has)
}
