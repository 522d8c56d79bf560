package checks

import "branchwork/codes"

// DedicatedEquipment asks of equipment that must have a circuit of its own.
func DedicatedEquipment(f *codes.Facts) codes.Verdict {
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
