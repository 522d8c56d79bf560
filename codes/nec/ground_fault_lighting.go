package nec

import (
	"strings"

	"branchwork/codes"
)

func groundFaultLighting() codes.Rule {
	return codes.Rule{
		ID:    "ground-fault-lighting",
		Title: "horticultural lighting on cords is protected against ground faults",
		Why: "Grow lights hang on cords over water and wet hands, and their connectors are opened and closed by people who work " +
			"there. A ground-fault device opens before the current through a person becomes dangerous.",
		Clauses: clauses(clause{since: "2020", at: "410.184"}, clause{since: "2026", at: "410.184(A), (B)", in26: true}),

		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "gfci",
		Needs:    []codes.Fact{codes.Protected, codes.GroundFault},
		Remedies: []codes.Remedy{codes.AddProtection, codes.HardWire},
		Check:    checkGroundFaultLighting,
	}
}

// checkGroundFaultLighting asks of outlets for which the edition's article on
// horticultural lighting calls for protection. Luminaires wired permanently,
// without a separable connection, are outside it.
func checkGroundFaultLighting(f *codes.Facts) codes.Verdict {
	need := codes.Of[codes.Protection](f, codes.Protected)
	if f.Has(codes.Protected) && !(need.Needed && horticulturalClause(need)) {
		return codes.NotConcerned()
	}
	return codes.Whether(f.Yes(codes.GroundFault)).Saying("have a licensed electrician fit a "+need.Class+", or wire the luminaires permanently",
		"it has no ground-fault protection; it needs a %s: %s", need.Class, need.Why)
}

func horticulturalClause(p codes.Protection) bool { return strings.HasPrefix(p.Cite.At, "410.184") }
