package practice

import "branchwork/codes"

func ownCircuit() codes.Rule {
	return codes.Rule{
		ID:    "own-circuit",
		Title: "heating, cooling and large equipment has a circuit of its own",
		Why: "Equipment with a compressor, a heater or a large motor takes much of a circuit and trips it when something else " +
			"starts. What trips with it then is what the plants need.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Advice,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.UsuallyAlone, codes.AskedAlone, codes.Individual},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.MoveLoads},
		Check:    checkOwnCircuit,
	}
}

// checkOwnCircuit asks of equipment that is usually given a circuit; where a
// nameplate or the file demands one the code's rule asks.
func checkOwnCircuit(f *codes.Facts) codes.Verdict {
	if f.No(codes.UsuallyAlone) || f.Yes(codes.AskedAlone) {
		return codes.NotConcerned()
	}
	return codes.Whether(f.Yes(codes.Individual)).Saying("give each its own circuit, or move everything else to another one",
		"%s, and it shares this one", codes.Of[string](f, codes.AloneWhy))
}
