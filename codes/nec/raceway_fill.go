package nec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func racewayFill() codes.Rule {
	return codes.Rule{
		ID:    "raceway-fill",
		Title: "the conductors in a raceway fill no more than the share of it that they may",
		Why: "Conductors pulled into a full raceway are scraped at every bend, and what is scraped shows years later. Packed " +
			"together they also keep one another warm.",
		Clauses:  always("Chapter 9 Table 1"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "raceway",
		Needs:    []codes.Fact{codes.RacewayGiven, codes.RacewayShare, codes.RacewayLimit},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.AddCircuit},
		Check:    checkRacewayFill,
	}
}

// checkRacewayFill asks of circuits whose raceway the file names. The raceway of a
// circuit on paper is chosen so that it holds.
func checkRacewayFill(f *codes.Facts) codes.Verdict {
	if f.No(codes.RacewayGiven) {
		return codes.NotConcerned()
	}
	share, limit := codes.Of[units.Ratio](f, codes.RacewayShare), codes.Of[units.Ratio](f, codes.RacewayLimit)
	v := codes.Within(100*float64(share), 100*float64(limit), "%").Resting(codes.Of[[]steps.Cite](f, codes.RacewayRests)...)
	fills, may := v.Figures()
	remedy := "divide its conductors over several raceways"
	if enough := codes.Of[string](f, codes.RacewayEnough); enough != "" {
		remedy = "have a licensed electrician draw them into " + enough + " of the same kind, or divide them over several raceways"
	}
	return v.Saying(remedy, "its conductors fill %s of %s; %s may be filled", fills, codes.Of[string](f, codes.RacewayName), may)
}
