package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func neutralCounted() codes.Rule {
	return codes.Rule{
		ID:       "neutral-counted",
		Title:    "the conductor holds with its neutral counted among those that carry current",
		Why:      neutralWhy,
		Clauses:  neutralClauses(),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "conductor",
		Needs: []codes.Fact{codes.NeutralCounted, codes.WireUncounted, codes.WireCorrected, codes.WireTableAmps, codes.LoadAmps,
			codes.BreakerAmps, codes.Individual, codes.FeedsCorded, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.SmallerBreaker, codes.MoveLoads},
		Check: func(f *codes.Facts) codes.Verdict {
			return neutralHolds(f, !f.Yes(codes.Individual) && !f.No(codes.FeedsCorded))
		},
	}
}

const neutralWhy = "A neutral that carries current warms the raceway like any other conductor. Between a leg and neutral it carries all of " +
	"it; on three legs with electronic supplies harmonics add up in it. Left out of the count, the conductors are taken for cooler than they are."

func neutralClauses() map[string][]steps.Cite {
	return clauses(clause{since: "2017", at: "310.15(B)(5)", how: recall}, clause{since: "2020", at: "310.15(E)"})
}

// neutralHolds asks where the neutral counts: a conductor that carries its load,
// and that its device protects, only were the neutral left out, breaks the rule.
// One that does not even then is the ampacity rules' finding. several says that
// the circuit feeds several receptacles, where nothing is rounded up.
func neutralHolds(f *codes.Facts, several bool) codes.Verdict {
	if f.No(codes.NeutralCounted) {
		return codes.NotConcerned()
	}
	load, breaker := codes.Of[units.Current](f, codes.LoadAmps), codes.Of[units.Current](f, codes.BreakerAmps)
	with, without := codes.Of[units.Current](f, codes.WireCorrected), codes.Of[units.Current](f, codes.WireUncounted)
	ends := codes.Of[units.Current](f, codes.WireTableAmps)
	protected := func(corrected units.Current) bool {
		return f.Yes(codes.ByEquipment) || !units.Exceeds(breaker, deviceLimit(f.Book().Devices, min(ends, corrected), several))
	}
	if f.Has(codes.WireUncounted) && f.Has(codes.WireTableAmps) && (units.Exceeds(load, without) || !protected(without)) {
		return codes.NotConcerned()
	}
	v := codes.Within(load, with, "A")
	what := "its load is " + load.String()
	if v.State == codes.Holds && !protected(with) {
		v.State, v.Actual.Value = codes.Broken, float64(breaker)
		what = "its breaker is rated " + breaker.String()
	}
	_, has := v.Figures()
	return v.Saying(fmt.Sprintf("run a larger conductor, or fewer conductors in its raceway: as it is it carries %s there", has),
		"its neutral counts (%s), and with it the conductor carries %s in its raceway, without it %s; %s",
		codes.Of[string](f, codes.NeutralWhy), has, without, what)
}

// deviceLimit is the largest device that protects a conductor of an ampacity.
func deviceLimit(d codes.Devices, ampacity units.Current, several bool) units.Current {
	if next, ok := d.Next(ampacity); ok && !several && !units.Exceeds(next, d.RoundUpTo) {
		return next
	}
	return ampacity
}
