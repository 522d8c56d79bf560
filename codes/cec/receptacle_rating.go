package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func receptacleRating() codes.Rule {
	return codes.Rule{
		ID:    "receptacle-rating",
		Title: "a receptacle has the rating of its circuit",
		Why: "A receptacle takes any plug that fits it, so its rating decides what may be drawn there. A 15 A receptacle behind a " +
			"20 A breaker, ordinary south of the border, is not connected so here; a 20 A circuit takes CSA 5-20R, the T-slot, which " +
			"accepts plugs of 15 A as well.",
		Clauses:  clauses("26-700", seen),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.BreakerAmps, codes.FeedsCorded},
		Remedies: []codes.Remedy{codes.OtherReceptacle, codes.SmallerBreaker, codes.HardWire},
		Check:    checkReceptacleRating,
	}
}

// checkReceptacleRating asks of one receptacle and of several alike. An exception
// for motors that practitioners mention is not made.
func checkReceptacleRating(f *codes.Facts) codes.Verdict {
	if f.No(codes.FeedsCorded) {
		return codes.NotConcerned()
	}
	r := codes.Of[codes.Receptacle](f, codes.ReceptacleKind)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	v := codes.Whether(r.Amps == breaker)
	v.Actual, v.Limit = units.Any{Value: float64(r.Amps), Unit: "A"}, units.Any{Value: float64(breaker), Unit: "A"}
	remedy := "divide the loads over circuits of " + r.Amps.String()
	for _, other := range f.Book().Receptacles {
		if other.Amps == breaker && other.Volts == r.Volts && other.Poles == r.Poles && other.Neutral == r.Neutral && other.Locking == r.Locking {
			remedy = "fit " + other.Name + ", or " + remedy
			break
		}
	}
	return v.Saying(remedy, "its receptacle %s is rated %s, its breaker %s", r.Name, r.Amps, breaker)
}
