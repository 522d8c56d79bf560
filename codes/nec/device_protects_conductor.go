package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func deviceProtectsConductor() codes.Rule {
	return codes.Rule{
		ID:    "device-protects-conductor",
		Title: "the breaker protects the conductor at its ampacity",
		Why: "A breaker larger than the conductor lets the conductor run hot inside the wall for as long as it likes. Raising a " +
			"breaker to stop it tripping is how this comes about.",
		Clauses:  always("240.4, 240.4(B), 240.4(C)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.WireAmps, codes.BreakerAmps, codes.Individual, codes.FeedsCorded, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerConductor},
		Check:    checkDeviceProtectsConductor,
	}
}

// checkDeviceProtectsConductor compares the breaker with the usable ampacity, or
// with the next standard rating above it where that is allowed: up to 800 A and
// not on a circuit of several receptacles. A device set by a nameplate or a
// motor is the nameplate's and the motor rule's (240.4(G)).
func checkDeviceProtectsConductor(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	several := !f.Yes(codes.Individual) && !f.No(codes.FeedsCorded)
	return protects(f, several)
}

// protects judges a device against a conductor; several says that the circuit
// feeds several receptacles, where nothing is rounded up.
func protects(f *codes.Facts, several bool) codes.Verdict {
	d := f.Book().Devices
	wire := codes.Of[units.Current](f, codes.WireAmps)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	limit, why := deviceLimit(d, wire, several), "its ampacity"
	switch _, ok := d.Next(wire); {
	case several:
		why = "its ampacity; on a circuit of several receptacles nothing is rounded up"
	case limit > wire:
		why = fmt.Sprintf("the next standard rating above its ampacity of %s", wire)
	case ok && units.Exceeds(wire, d.RoundUpTo):
		why = fmt.Sprintf("its ampacity; above %s nothing is rounded up", d.RoundUpTo)
	}
	v := codes.Within(breaker, limit, "A")
	has, most := v.Figures()
	smaller := most
	if down, ok := d.Down(limit); ok {
		smaller = down.String()
	}
	return v.Saying(fmt.Sprintf("have a licensed electrician fit a breaker of %s or smaller, or %s", smaller, checks.ConductorFor(f)),
		"its breaker is rated %s, its conductor may be protected at %s at most (%s)", has, most, why)
}
