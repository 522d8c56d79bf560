package practice

import "branchwork/codes"

func unfedLoad() codes.Rule {
	return codes.Rule{
		ID:    "unfed-load",
		Title: "every unit has a circuit",
		Why: "A unit that no circuit feeds will be plugged in somewhere all the same, on a cord or a strip, where nobody has " +
			"added it up.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Violation,
		Subject:  codes.OfItem,
		Key:      "count",
		Needs:    []codes.Fact{codes.Unplaced, codes.UnitCount},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.OtherEquipment, codes.ReduceLoad},
		Check:    checkUnfedLoad,
	}
}

func checkUnfedLoad(f *codes.Facts) codes.Verdict {
	n, of := codes.Of[int](f, codes.Unplaced), codes.Of[int](f, codes.UnitCount)
	return codes.Within(float64(n), 0, "units").Saying(codes.Of[string](f, codes.UnplacedNeeds),
		"%d of %d have no circuit: %s", n, of, codes.Of[string](f, codes.UnplacedReason))
}
