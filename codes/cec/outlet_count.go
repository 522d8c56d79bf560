package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func outletCount(b codes.TableSet) codes.Rule {
	return codes.Rule{
		ID:    "outlet-count",
		Title: "a circuit has no more outlets of unknown load than its rating allows",
		Why: "What will be plugged into a receptacle is not known when it is wired, so each counts as 1 A at least and their " +
			"number is limited. Where the load is known, its current decides and not the number of outlets.",
		Clauses:  clauses("8-304", seen),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.FullRated, codes.UnitVA, codes.UnitCount, codes.PhaseCount},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit},
		Bounds:   true,
		Check:    checkOutletCount(b.Get("outlet-count")),
	}
}

// checkOutletCount asks of outlets that count with the load that the code takes
// for one, on circuits of 15 and 20 A; of others the load is known. Outlets of
// several items on one circuit are added up by their current in continuous-load:
// 1 A each, which is where the numbers of the table come from.
func checkOutletCount(limits codes.Table) func(*codes.Facts) codes.Verdict {
	return func(f *codes.Facts) codes.Verdict {
		p := f.Book()
		va, known := codes.Get[units.Apparent](f, codes.UnitVA)
		breaker := codes.Of[units.Current](f, codes.BreakerAmps)
		column := ""
		for _, e := range editions() {
			if e.year == p.Edition {
				column = e.outlets
			}
		}
		share := "80 %"
		if f.Yes(codes.FullRated) {
			share = "100 %"
		}
		limit, _, listed := limits.Value(fmt.Sprintf("%s, %s", breaker, share), column)
		if known && va != p.Branch.OutletVA || f.Has(codes.BreakerAmps) && !listed || codes.Of[int](f, codes.PhaseCount) == 3 {
			return codes.NotConcerned()
		}
		n := codes.Of[int](f, codes.UnitCount)
		return codes.Within(float64(n), limit, "outlets").Saying(fmt.Sprintf("move %d of them to another circuit, or state what each will feed", n-int(limit)),
			"%d outlets of unknown load on a breaker of %s; %s are the limit", n, breaker, units.Round(limit, 0))
	}
}
