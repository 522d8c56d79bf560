package nec

import (
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

func receptacleRating() codes.Rule {
	return codes.Rule{
		ID:    "receptacle-rating",
		Title: "the receptacle's rating suits the circuit's",
		Why: "A receptacle takes any plug that fits it, so its rating decides what may be drawn there. A small one behind a large " +
			"breaker can burn without the breaker noticing.",
		Clauses:  always("210.21(B)(1), Table 210.21(B)(3)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.BreakerAmps, codes.Individual, codes.FeedsCorded},
		Remedies: []codes.Remedy{codes.OtherReceptacle, codes.SmallerBreaker, codes.HardWire},
		Check:    checkReceptacleRating,
	}
}

// checkReceptacleRating: the one receptacle of an individual circuit is rated no
// less than the circuit; several are of the ratings in the table.
func checkReceptacleRating(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsCorded) {
		return codes.NotConcerned()
	}
	r := codes.Of[codes.Receptacle](f, codes.ReceptacleKind)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	if f.Yes(codes.Individual) {
		v := codes.Least(r.Amps, breaker, "A")
		has, least := v.Figures()
		return v.Saying("fit a receptacle of "+least+", or a breaker of "+has,
			"its one receptacle %s is rated %s, less than its breaker's %s", r.Name, has, least)
	}
	allowed := receptaclesOn(breaker)
	var names []string
	fits := false
	for _, a := range allowed {
		fits = fits || a == r.Amps
		names = append(names, a.String())
	}
	v := codes.Whether(fits)
	v.Actual = units.Any{Value: float64(r.Amps), Unit: "A"}
	if len(names) == 0 {
		return v.Saying("divide its outlets over circuits of a permitted rating", "no receptacle is permitted on a circuit of several outlets behind %s", breaker)
	}
	list := strings.Join(names, " or ")
	return v.Saying("fit receptacles of "+list+", or divide the loads over circuits for "+r.Amps.String(),
		"its receptacles %s are rated %s; behind %s they are of %s", r.Name, r.Amps, breaker, list)
}

// receptaclesOn returns the ratings of Table 210.21(B)(3) for a circuit of two or
// more receptacles.
func receptaclesOn(circuit units.Current) []units.Current {
	switch circuit {
	case 15:
		return []units.Current{15}
	case 20:
		return []units.Current{15, 20}
	case 30:
		return []units.Current{30}
	case 40:
		return []units.Current{40, 50}
	case 50:
		return []units.Current{50}
	}
	return nil
}
