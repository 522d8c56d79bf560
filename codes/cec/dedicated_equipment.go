package cec

import "branchwork/codes"

func dedicatedEquipment() codes.Rule {
	return codes.Rule{
		ID:    "dedicated-equipment",
		Title: "equipment that must have a circuit of its own has one",
		Why: "A nameplate with a minimum circuit and a maximum device describes a circuit for that equipment alone, and some " +
			"instructions demand one. Anything else on it changes what the device protects.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.AskedAlone, codes.Individual},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.MoveLoads},
		Check:    checkDedicatedEquipment,
	}
}

func checkDedicatedEquipment(f *codes.Facts) codes.Verdict {
	if f.No(codes.AskedAlone) {
		return codes.NotConcerned()
	}
	each := "it"
	if codes.Of[int](f, codes.UnitCount) > 1 {
		each = "each of the units"
	}
	return codes.Whether(f.Yes(codes.Individual)).Saying("give "+each+" a circuit of its own, or move everything else off this one",
		"%s, and it shares this one", codes.Of[string](f, codes.AloneWhy))
}
