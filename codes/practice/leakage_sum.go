package practice

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func leakageSum() codes.Rule {
	return codes.Rule{
		ID:    "leakage-sum",
		Title: "the leakage of all drivers on a circuit stays below the trip threshold of its ground-fault device",
		Why: "Every driver leaks a little current to ground through its filter, by design. A ground-fault device sees the sum, " +
			"and a row of sound fixtures trips it at switch-on or on a humid night. Nothing is wrong except the count.",
		Clauses:  map[string][]steps.Cite{"": {{Ref: "ul943", How: steps.Seen}, {Ref: "ul943c", How: steps.Seen}}},
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.LeakageAmps, codes.TripAmps, codes.FeedsLighting, codes.Guarded},
		Remedies: []codes.Remedy{codes.AskMaker, codes.MoveLoads, codes.HardWire},
		Bounds:   true,
		Check:    checkLeakageSum,
	}
}

// checkLeakageSum asks of lighting circuits that have a ground-fault device or
// need one. The limit is the lowest leakage at which the device may trip.
// Published leakage is that of a line-to-neutral supply, the most; between two
// legs part of it cancels, which is not taken into account.
func checkLeakageSum(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsLighting) || f.No(codes.Guarded) {
		return codes.NotConcerned()
	}
	v := codes.Within(1000*float64(codes.Of[units.Current](f, codes.LeakageAmps)), 1000*float64(codes.Of[units.Current](f, codes.TripAmps)), "mA")
	has, most := v.Figures()
	share := 1 - v.Limit.Value/max(v.Actual.Value, 1e-9)
	return v.Saying(fmt.Sprintf("move %s %% of the drivers to another circuit, or have the luminaires wired permanently where the code then asks for no such device", units.Round(100*share, 0)),
		"its drivers leak %s together; its ground-fault device may trip at %s", has, most)
}
