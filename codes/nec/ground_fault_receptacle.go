package nec

import "branchwork/codes"

func groundFaultReceptacle() codes.Rule {
	return codes.Rule{
		ID:    "ground-fault-receptacle",
		Title: "receptacles in damp places, and those of a dwelling's grow room, are protected against ground faults",
		Why: "Pumps, fans and tools stand on wet floors. A ground-fault device opens before the current through a person becomes " +
			"dangerous. Whether a room counts as damp, or as one of the places that the code lists, is the inspector's to say.",
		Clauses: clauses(clause{since: "2017", at: "210.8(A), (B)", how: recall}, clause{since: "2020", at: "210.8(A), (B)"}),

		Severity: codes.Violation,
		Untold:   codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "gfci",
		Needs:    []codes.Fact{codes.Protected, codes.GroundFault},
		Remedies: []codes.Remedy{codes.AddProtection, codes.AskOnSite},
		Check:    checkGroundFaultReceptacle,
	}
}

// checkGroundFaultReceptacle asks of outlets for which the receptacle rule, not
// the one on horticultural lighting, calls for protection. Where the file
// does not state a place that the code lists, whether the room counts as one is
// told on site.
func checkGroundFaultReceptacle(f *codes.Facts) codes.Verdict {
	need := codes.Of[codes.Protection](f, codes.Protected)
	if need.Open != "" && !f.Yes(codes.GroundFault) {
		return codes.Unsettled("", "", codes.Places)
	}
	if f.Has(codes.Protected) && (!need.Needed || horticulturalClause(need)) {
		return codes.NotConcerned()
	}
	if f.No(codes.GroundFault) && !listedPlace(f) {
		return codes.Unsettled("it has no ground-fault protection; it needs a "+need.Class+" where it counts as "+need.Why,
			"have a licensed electrician fit a "+need.Class+", or ask the inspector how the place is classified", codes.WetPlace)
	}
	return codes.Whether(f.Yes(codes.GroundFault)).Saying("have a licensed electrician fit a "+need.Class,
		"it has no ground-fault protection and stands in a place that the file states as %s: it needs a %s", codes.Of[string](f, codes.WetPlace), need.Class)
}

// listedPlace reports whether the file states a place that 210.8(B) lists: wet, and
// from 2020 damp, indoors. The list for dwellings is from memory and decides nothing.
func listedPlace(f *codes.Facts) bool {
	place := codes.Of[string](f, codes.WetPlace)
	return !f.Yes(codes.Dwelling) && (place == "wet" || place == "damp" && f.Book().Edition >= "2020")
}
