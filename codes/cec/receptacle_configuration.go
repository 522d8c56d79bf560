package cec

import (
	"branchwork/codes"
	"branchwork/codes/checks"
)

func receptacleConfiguration() codes.Rule {
	return codes.Rule{
		ID:    "receptacle-configuration",
		Title: "the receptacle's configuration is that of the circuit's voltage, phases and neutral",
		Why: "The shape of a receptacle promises a voltage. One that promises 120 V on a 240 V circuit destroys what is plugged " +
			"into it, and one with a neutral slot on a circuit without a neutral gives no 120 V at all.",
		Clauses:  clauses("26-700", seen, "Diagrams 1 and 2"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.FeedsCorded, codes.Volts, codes.PhaseCount, codes.ToNeutral},
		Remedies: []codes.Remedy{codes.OtherReceptacle, codes.HardWire},
		Check:    checks.ReceptacleConfiguration,
	}
}
