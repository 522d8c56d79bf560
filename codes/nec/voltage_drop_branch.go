package nec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func voltageDropBranch() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-branch",
		Title: "the voltage drop to the farthest outlet of a circuit is within its limit",
		Why: "At the end of a long run equipment gets less voltage. Electronic supplies then draw more current, motors run hotter, " +
			"and a circuit planned to its limit goes over it. The code recommends a limit; it does not demand one.",
		Clauses:  always("210.19 note"),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare, codes.DropLimit},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkVoltageDrop,
	}
}

// checkVoltageDrop compares the drop, on operating current, with the limit of the
// plan or of the code's note.
func checkVoltageDrop(f *codes.Facts) codes.Verdict {
	drop, limit := codes.Of[units.Ratio](f, codes.DropShare), codes.Of[units.Ratio](f, codes.DropLimit)
	v := codes.Within(100*float64(drop), 100*float64(limit), "%")
	has, most := v.Figures()
	return v.Saying(checks.LessDrop(drop, limit), "its voltage drops by %s, %s is the limit", has, most)
}
