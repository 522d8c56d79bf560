package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
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
		Check:    checks.NameplateDevice,
	}
}
