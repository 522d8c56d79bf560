package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func voltageDropBranch() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-branch",
		Title: "the voltage drop to the farthest outlet of a circuit is 3 % at most",
		Why: "At the end of a long run equipment gets less voltage. Electronic supplies then draw more current, motors run hotter, " +
			"and a circuit planned to its limit goes over it. Here it is a rule, not a recommendation.",
		Clauses:  clauses("8-102", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkVoltageDrop,
	}
}

// checkVoltageDrop compares the drop, on operating current, with the code's limit
// for a feeder or a branch circuit, whatever limit the plan keeps to.
func checkVoltageDrop(f *codes.Facts) codes.Verdict {
	drop, limit := codes.Of[units.Ratio](f, codes.DropShare), f.Book().Drop.Branch
	v := codes.Within(100*float64(drop), 100*float64(limit), "%")
	has, most := v.Figures()
	return v.Saying(checks.LessDrop(drop, limit), "its voltage drops by %s, %s is the limit", has, most)
}
