package checks

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

// ReceptacleConfiguration compares voltage, phases and neutral. A receptacle for
// two legs and a neutral is let pass on a circuit between those legs: whether the
// neutral is there cannot be seen from the plan.
func ReceptacleConfiguration(f *codes.Facts) codes.Verdict {
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
		remedy = "fit a " + fit.Name
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
