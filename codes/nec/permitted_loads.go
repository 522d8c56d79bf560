package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func permittedLoads() codes.Rule {
	return codes.Rule{
		ID:    "permitted-loads",
		Title: "a circuit of more than one outlet feeds only what its rating permits",
		Why: "What may share a circuit depends on its rating: receptacles not on 10 A, luminaires of a dwelling not above 20 A. " +
			"Lamps, sockets and cords are made for those circuits and not tested behind others.",
		Clauses:  clauses(clause{since: "2017", at: "210.23(A), (B), (C)"}, clause{since: "2023", at: "210.23(A), (C), (D)", in26: true}),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.Individual, codes.FeedsLighting, codes.FeedsCorded, codes.Dwelling},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit},
		Check:    checkPermittedLoads,
	}
}

// receptaclesFrom is the smallest rating of a circuit with receptacles: the 10 A
// circuits of 2023 may not have any.
const receptaclesFrom units.Current = 15

// checkPermittedLoads asks of circuits with more than one outlet; an individual
// circuit may feed any load for which it is rated.
func checkPermittedLoads(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.Individual) {
		return codes.NotConcerned()
	}
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	upTo := f.Book().Branch.LightingUpTo
	amps := units.Any{Value: float64(breaker), Unit: "A"}
	switch {
	case f.Yes(codes.FeedsCorded) && units.Exceeds(receptaclesFrom, breaker):
		v := codes.Verdict{State: codes.Broken, Actual: amps, Limit: units.Any{Value: float64(receptaclesFrom), Unit: "A"}}
		return v.Saying("move what is plugged in to a circuit of "+receptaclesFrom.String()+" or "+upTo.String(),
			"it has receptacles on a breaker of %s; receptacles stand on circuits of %s and more", breaker, receptaclesFrom)
	case f.Yes(codes.FeedsLighting) && f.Yes(codes.Dwelling):
		v := codes.Within(breaker, upTo, "A")
		return v.Saying("divide the luminaires over circuits of "+upTo.String(),
			"it feeds luminaires of a dwelling on a breaker of %s, %s is the limit there", breaker, upTo)
	}
	return codes.Verdict{State: codes.Holds}
}
