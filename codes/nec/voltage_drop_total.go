package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func voltageDropTotal() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-total",
		Title: "feeders and circuit together drop the voltage within the limit for both",
		Why: "What a feeder loses is missing on every circuit behind it. Each may be within its own limit and the equipment at " +
			"the end still starved. The code recommends a limit for both together; it does not demand one.",
		Clauses:  always("215.2 note"),
		Severity: codes.Advice,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare, codes.FeederDrop, codes.FedThrough},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkVoltageDropTotal,
	}
}

// checkVoltageDropTotal asks of circuits behind a feeder.
func checkVoltageDropTotal(f *codes.Facts) codes.Verdict {
	if f.No(codes.FedThrough) {
		return codes.NotConcerned()
	}
	branch, before := codes.Of[units.Ratio](f, codes.DropShare), codes.Of[units.Ratio](f, codes.FeederDrop)
	limit := f.Book().Drop.Total
	v := codes.Within(100*float64(branch+before), 100*float64(limit), "%")
	has, most := v.Figures()
	return v.Saying("enlarge the feeder or the circuit until "+units.Round(v.Actual.Value-v.Limit.Value, 2)+" % less is lost",
		"feeders drop %s %% and the circuit %s %%, together %s; %s is the limit", units.Round(100*float64(before), 2), units.Round(100*float64(branch), 2), has, most)
}
