package practice

import "branchwork/codes"

func lifeSupport() codes.Rule {
	return codes.Rule{
		ID:    "life-support",
		Title: "fans and controls do not hang on a lighting breaker",
		Why: "When a light trips its breaker, the air should keep moving and the controls should keep watching. On the same " +
			"breaker they stop with it, and nobody is told.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.FeedsLighting, codes.FeedsLife},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit},
		Check:    checkLifeSupport,
	}
}

func checkLifeSupport(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsLighting) {
		return codes.NotConcerned()
	}
	return codes.Whether(f.No(codes.FeedsLife)).Saying("move fans and controls to a circuit without luminaires",
		"it feeds luminaires and, behind the same breaker, fans or controls")
}
