package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func lockingReceptacle() codes.Rule {
	return codes.Rule{
		ID:    "locking-receptacle",
		Title: "receptacles of 30 A and more that face down hold their plugs",
		Why: "The weight of a heavy cord pulls its plug out of a receptacle that faces down, a little every day, until the blades " +
			"are half out and hot. Drops over benches are mounted so.",
		Clauses:  clauses("26-700", seen),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.FeedsLighting, codes.FeedsCorded},
		Remedies: []codes.Remedy{codes.OtherReceptacle},
		Check:    checkLockingReceptacle,
	}
}

// latchFrom is the rating from which a receptacle that faces down needs a locking
// or latching means.
const latchFrom units.Current = 30

// checkLockingReceptacle asks where luminaires are plugged in, which hang on drops
// as a rule. The file does not say which way a receptacle faces, so it is advice.
func checkLockingReceptacle(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsLighting) || f.No(codes.FeedsCorded) {
		return codes.NotConcerned()
	}
	r := codes.Of[codes.Receptacle](f, codes.ReceptacleKind)
	v := codes.Whether(r.Locking || units.Exceeds(latchFrom, r.Amps))
	v.Actual = units.Any{Value: float64(r.Amps), Unit: "A"}
	return v.Saying("fit the locking configuration (L"+r.Name+") or a latch where it faces down", "its receptacle %s of %s neither locks nor latches", r.Name, r.Amps)
}
