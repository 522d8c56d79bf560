package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func nameplateDevice() codes.Rule {
	return codes.Rule{
		ID:    "nameplate-device",
		Title: "the breaker is not larger than the maximum device on the nameplate",
		Why: "A compressor's nameplate gives the largest device that still protects it. The device is larger than the running " +
			"current so that the compressor starts, but not larger than that.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.AddCircuit},
		Check:    checkNameplateDevice,
	}
}

// checkNameplateDevice asks of equipment that is marked with a maximum device.
func checkNameplateDevice(f *codes.Facts) codes.Verdict {
	most, marked := codes.Get[units.Current](f, codes.MaxDevice)
	if !marked {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), most, "A")
	has, limit := v.Figures()
	return v.Saying("fit a breaker of "+limit+" or smaller", "its breaker is rated %s, its nameplate allows %s at most", has, limit)
}
