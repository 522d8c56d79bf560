package cec

import "branchwork/codes"

func groundFaultReceptacle() codes.Rule {
	return codes.Rule{
		ID:    "ground-fault-receptacle",
		Title: "receptacles of 15 and 20 A at 120 V in damp places are protected against ground faults",
		Why: "Pumps, fans and tools stand on wet floors. A ground-fault device opens before the current through a person becomes " +
			"dangerous. Whether a room with foliar feeding or washing counts as damp is the inspector's to say.",
		Clauses:  clauses("26-704", recalled),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "gfci",
		Needs:    []codes.Fact{codes.Protected, codes.GroundFault},
		Remedies: []codes.Remedy{codes.AddProtection, codes.AskOnSite},
		Check:    checkGroundFaultReceptacle,
	}
}

// checkGroundFaultReceptacle asks of outlets for which the profile calls for
// protection.
func checkGroundFaultReceptacle(f *codes.Facts) codes.Verdict {
	need := codes.Of[codes.Protection](f, codes.Protected)
	if need.Open != "" && !f.Yes(codes.GroundFault) {
		return codes.Unsettled("", "", codes.Places)
	}
	if f.Has(codes.Protected) && !need.Needed {
		return codes.NotConcerned()
	}
	return codes.Whether(f.Yes(codes.GroundFault)).Saying("have a licensed electrician fit a "+need.Class+", or ask the inspector how the place is classified",
		"it has no ground-fault protection; it needs a %s where it counts as %s", need.Class, need.Why)
}
