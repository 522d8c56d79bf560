package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func voltageDropTotal() codes.Rule {
	return codes.Rule{
		ID:    "voltage-drop-total",
		Title: "feeders and circuit together drop the voltage by 5 % at most",
		Why: "What a feeder loses is missing on every circuit behind it. Each may be within its own limit and the equipment at " +
			"the end still starved, so the code limits the whole way from the service to the outlet.",
		Clauses:  clauses("8-102", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "length",
		Needs:    []codes.Fact{codes.DropShare, codes.FeederDrop, codes.FedThrough},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.ShorterRun, codes.HigherVoltage},
		Bounds:   true,
		Check:    checkVoltageDropTotal,
	}
}

// checkVoltageDropTotal asks of circuits behind a feeder. What a transformer
// between them loses is not counted.
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
