package practice

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func measuredLoad() codes.Rule {
	return codes.Rule{
		ID:    "measured-load",
		Title: "the current measured on a circuit is explained by its loads",
		Why: "A circuit that carries more than the file lists feeds something else: another room, a freezer behind a wall. " +
			"Everything judged of it is then too kind.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "measured",
		Needs:    []codes.Fact{codes.PredictedAmps},
		Remedies: []codes.Remedy{codes.CompleteFile, codes.AskOnSite},
		Check:    checkMeasuredLoad,
	}
}

// meterSpread is how far what is read may lie above what is expected before it
// means anything: how far a clamp meter and a nameplate may differ.
const meterSpread = 1.05

func checkMeasuredLoad(f *codes.Facts) codes.Verdict {
	measured, ok := codes.Get[units.Current](f, codes.MeasuredAmps)
	if !ok {
		return codes.NotConcerned()
	}
	listed := codes.Of[units.Current](f, codes.PredictedAmps)
	v := codes.Within(measured, units.Times(listed, meterSpread), "A")
	return v.Saying("find what else hangs on it ("+(measured-listed).String()+") and add it to `feeds`",
		"%s was measured, its loads explain %s in that state", measured, listed)
}
