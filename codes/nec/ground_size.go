package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func groundSize() codes.Rule {
	return codes.Rule{
		ID:    "ground-size",
		Title: "the grounding conductor is large enough for the breaker, and in proportion to enlarged conductors",
		Why: "When a live part touches metal, the grounding conductor must carry enough current to open the breaker at once. " +
			"Conductors enlarged for a long run ask for a larger one, or the fault current is too small at the far end.",
		Clauses:  always("250.122(A), 250.122(B)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "ground",
		Needs:    []codes.Fact{codes.GroundSize, codes.GroundMaterial, codes.BreakerAmps, codes.GroundNeeded},
		Remedies: []codes.Remedy{codes.LargerGround},
		Check:    checkGroundSize,
	}
}

// checkGroundSize compares areas: of the grounding conductor and of the size that
// the device's table or the enlarged conductors ask for. It need not be larger
// than the circuit conductors.
func checkGroundSize(f *codes.Facts) codes.Verdict {
	w := f.Book().Wires
	have := codes.Of[string](f, codes.GroundSize)
	need, _, known := w.GroundFor(codes.Of[units.Current](f, codes.BreakerAmps), codes.Of[string](f, codes.GroundMaterial))
	if !known && f.Has(codes.BreakerAmps) && f.Has(codes.GroundMaterial) {
		return codes.Unsettled("the table of grounding conductors has none of its material for its breaker", "", codes.GroundMaterial)
	}
	needs, _ := w.Area(need)
	if larger := codes.Of[string](f, codes.GroundNeeded); larger != "" {
		if a, ok := w.Area(larger); ok && a > needs {
			need, needs = larger, a
		}
	}
	if wire, ok := codes.Get[string](f, codes.WireSize); ok {
		if a, known := w.Area(wire); known && a < needs {
			need, needs = wire, a
		}
	}
	area, ok := w.Area(have)
	if !ok && f.Has(codes.GroundSize) {
		return codes.Unsettled("the size "+have+" of its grounding conductor is not in the book", "", codes.GroundSize)
	}
	v := codes.Least(area, needs, w.Properties.Units[0])
	return v.Saying(fmt.Sprintf("run a grounding conductor of %s", need), "its grounding conductor is %s, it needs %s", have, need)
}
