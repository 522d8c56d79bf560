package cec

import "branchwork/codes"

func measuredPeak() codes.Rule {
	return codes.Rule{
		ID:    "measured-peak",
		Title: "the measured peak and the new load are within the service",
		Why: "The highest demand of a year tells what a service carries better than any calculation. How the Canadian code counts " +
			"it beside new load is not held here, so a plan that rests on it cannot be judged.",
		Clauses:  clauses("8-106", recalled),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "measured_peak",
		Needs:    []codes.Fact{codes.MainAmps},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checkMeasuredPeak,
	}
}

const countedPeak codes.Fact = "how Rule 8-106 counts its measured demand beside new load"

// checkMeasuredPeak asks where a peak was measured, and never holds: the margin
// that the plan puts on it is the American one.
func checkMeasuredPeak(f *codes.Facts) codes.Verdict {
	if !f.Has(codes.PeakAmps) {
		return codes.NotConcerned()
	}
	return codes.Unsettled("this profile does not hold how a measured demand counts",
		"ask a licensed electrician and the utility, or list everything that the panel feeds in place of the measured peak", countedPeak)
}
