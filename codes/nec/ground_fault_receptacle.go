package nec

import "branchwork/codes"

func groundFaultReceptacle() codes.Rule {
	return codes.Rule{
		ID:    "ground-fault-receptacle",
		Title: "receptacles in damp places, and those of a dwelling's grow room, are protected against ground faults",
		Why: "Pumps, fans and tools stand on wet floors. A ground-fault device opens before the current through a person becomes " +
			"dangerous. Whether a room counts as damp, or as one of the places that the code lists, is the inspector's to say.",
		Clauses: clauses(clause{since: "2017", at: "210.8(A), (B)", how: recall}, clause{since: "2020", at: "210.8(A), (B)"}),

		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "gfci",
		Needs:    []codes.Fact{codes.Protected, codes.GroundFault},
		Remedies: []codes.Remedy{codes.AddProtection, codes.AskOnSite},
		Check:    checkGroundFaultReceptacle,
	}
}

// checkGroundFaultReceptacle asks of outlets for which the receptacle rule, not
// the one on horticultural lighting, calls for protection.
func checkGroundFaultReceptacle(f *codes.Facts) codes.Verdict {
	need := codes.Of[codes.Protection](f, codes.Protected)
	if f.Has(codes.Protected) && (!need.Needed || horticulturalClause(need)) {
		return codes.NotConcerned()
	}
	return codes.Whether(f.Yes(codes.GroundFault)).Saying("have a licensed electrician fit a "+need.Class+", or ask the inspector how the place is classified",
		"it has no ground-fault protection; it needs a %s where it counts as %s", need.Class, need.Why)
}
