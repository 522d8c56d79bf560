package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func smallConductor() codes.Rule {
	return codes.Rule{
		ID:    "small-conductor",
		Title: "the breaker is within the limit of small conductors",
		Why: "Small wire heats faster than its ampacity suggests when a fault or an overload lasts, so the code caps its device: " +
			"15 A for 14 AWG copper, 20 A for 12, 30 A for 10, whatever the table of ampacities says.",
		Clauses:  clauses("14-104(2)", recalled),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.WireSize, codes.WireMaterial, codes.BreakerAmps, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    checkSmallConductor,
	}
}

// checkSmallConductor asks of sizes that have a limit, and not where a nameplate
// sets the device.
func checkSmallConductor(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	size, material := codes.Of[string](f, codes.WireSize), codes.Of[string](f, codes.WireMaterial)
	limit, _, ok := f.Book().Wires.SmallLimit(material, size)
	if !ok && f.Has(codes.WireSize) && f.Has(codes.WireMaterial) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), limit, "A")
	has, most := v.Figures()
	return v.Saying(fmt.Sprintf("fit a breaker of %s, or a larger conductor for %s", most, has),
		"its breaker is rated %s, %s %s allows %s at most", has, size, material, most)
}
