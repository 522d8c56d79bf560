package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func groundSize() codes.Rule {
	return codes.Rule{
		ID:    "ground-size",
		Title: "the bonding conductor is large enough for the breaker",
		Why: "When a live part touches metal, the bonding conductor must carry enough current to open the breaker at once. Too " +
			"small a one burns off first, and the metal stays live.",
		Clauses:  clauses("10-616", seen, "Table 16"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "ground",
		Needs:    []codes.Fact{codes.GroundSize, codes.GroundMaterial, codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.LargerGround},
		Check:    checkGroundSize,
	}
}

// checkGroundSize compares areas: of the bonding conductor, and of the table's
// size for the device, no larger than the circuit conductors. The table's sizes
// are from memory. The column for conductors enlarged for voltage drop is not
// asked, because nobody knows of wires in a wall why they are as large as they are.
func checkGroundSize(f *codes.Facts) codes.Verdict {
	w := f.Book().Wires
	have := codes.Of[string](f, codes.GroundSize)
	need, _, known := w.GroundFor(codes.Of[units.Current](f, codes.BreakerAmps), codes.Of[string](f, codes.GroundMaterial))
	if !known && f.Has(codes.BreakerAmps) && f.Has(codes.GroundMaterial) {
		return codes.Unsettled("the table of bonding conductors has none of its material for its breaker", "", codes.GroundMaterial)
	}
	needs, _ := w.Area(need)
	if wire, ok := codes.Get[string](f, codes.WireSize); ok {
		if a, known := w.Area(wire); known && a < needs {
			need, needs = wire, a
		}
	}
	area, ok := w.Area(have)
	if !ok && f.Has(codes.GroundSize) {
		return codes.Unsettled("the size "+have+" of its bonding conductor is not in the book", "", codes.GroundSize)
	}
	v := codes.Least(area, needs, w.Properties.Units[0])
	return v.Saying(fmt.Sprintf("run a bonding conductor of %s", need), "its bonding conductor is %s, it needs %s", have, need)
}
