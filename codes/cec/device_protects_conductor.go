package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func deviceProtectsConductor() codes.Rule {
	return codes.Rule{
		ID:    "device-protects-conductor",
		Title: "the breaker is no larger than the conductor's ampacity",
		Why: "A breaker larger than the conductor lets the conductor run hot inside the wall for as long as it likes. Raising a " +
			"breaker to stop it tripping is how this comes about.",
		Clauses:  clauses("14-104(1)", seen, ampacities),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.WireAmps, codes.BreakerAmps, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    checkDeviceProtectsConductor,
	}
}

// checkDeviceProtectsConductor: nothing is rounded up. Table 13 would allow the
// rating above an ampacity in between; practitioners disagree whether it helps
// ordinary circuits. A device set by a nameplate is the nameplate's.
func checkDeviceProtectsConductor(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	return protects(f)
}

// protects judges a device against a conductor.
func protects(f *codes.Facts) codes.Verdict {
	wire := codes.Of[units.Current](f, codes.WireAmps)
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), wire, "A")
	has, most := v.Figures()
	smaller := most
	if down, ok := f.Book().Devices.Down(wire); ok {
		smaller = down.String()
	}
	return v.Saying(fmt.Sprintf("have a licensed electrician fit a breaker of %s or smaller, or %s", smaller, checks.ConductorFor(f)),
		"its breaker is rated %s, its conductor carries %s", has, most)
}
