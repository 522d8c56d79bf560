package cec

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
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
		Check:    checkReceptacleConfiguration,
	}
}

// checkReceptacleConfiguration compares voltage, phases and neutral. A receptacle
// for two legs and a neutral is let pass on a circuit between those legs: whether
// the neutral is there cannot be seen from the plan.
func checkReceptacleConfiguration(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsCorded) {
		return codes.NotConcerned()
	}
	r := codes.Of[codes.Receptacle](f, codes.ReceptacleKind)
	volts, phases := codes.Of[units.Voltage](f, codes.Volts), codes.Of[int](f, codes.PhaseCount)
	neutral := codes.Of[bool](f, codes.ToNeutral)
	suits := false
	var names []string
	for _, v := range r.On {
		suits = suits || v == volts
		names = append(names, v.String())
	}
	single := r.Poles == 1
	v := codes.Whether(suits && r.Phases == phases && single == neutral)
	v.Actual = units.Any{Value: float64(volts), Unit: "V"}
	remedy := "fit the receptacle of the circuit's configuration"
	if fit, ok := f.Book().ReceptacleFor(r.Amps, volts, phases, neutral); ok {
		remedy = "fit " + fit.Name
	}
	return v.Saying(remedy, "its receptacle %s is for %s; the circuit is %s", r.Name,
		supplyWords(strings.Join(names, " or "), r.Phases, single), supplyWords(volts.String(), phases, neutral))
}

func supplyWords(volts string, phases int, neutral bool) string {
	how := "between legs"
	switch {
	case phases == 3:
		how = "three-phase"
	case neutral:
		how = "from a leg to neutral"
	}
	return fmt.Sprintf("%s %s", volts, how)
}
