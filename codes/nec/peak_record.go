package nec

import "branchwork/codes"

func peakRecord() codes.Rule {
	return codes.Rule{
		ID:    "peak-record",
		Title: "the measured peak covers a year",
		Why: "A peak measured in a mild month says nothing of the hottest one. The code takes a year of demand data; without it, " +
			"30 days of the highest 15-minute average on the fullest leg, taken while occupied and corrected for the season.",
		Clauses:  clauses(clause{since: "2017", at: "220.87(1)"}, clause{since: "2026", at: "120.87(1)", in26: true}),
		Severity: codes.Warning,
		Subject:  codes.OfPanel,
		Key:      "measured_peak",
		Needs:    []codes.Fact{codes.PeakMonths},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checkPeakRecord,
	}
}

// wholeYear is the months of demand data that the code takes as they are.
const wholeYear = 12

func checkPeakRecord(f *codes.Facts) codes.Verdict {
	if !f.Has(codes.PeakAmps) {
		return codes.NotConcerned()
	}
	months := codes.Of[int](f, codes.PeakMonths)
	return codes.Least(float64(months), wholeYear, "months").Saying(
		"ask the utility for twelve months of demand, or have 30 days recorded and corrected for the season; neither counts where solar panels or peak shaving stand behind the meter",
		"the measured peak covers %d of %d months", months, wholeYear)
}
