package assign

import (
	"math"

	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Packing counts in whole milliamperes, weighted with the profile's whole
// numbers so that "125 % of continuous plus 100 % of the rest" is exact: a
// load's current is rounded up, a circuit's capacity down. noise keeps the last
// bit of a floating-point quotient from costing a milliampere.
const noise = 1e-6

// weight is what one unit takes of a circuit's capacity.
func (pl *planner) weight(l loads.Load, s inventory.Supply) int64 {
	d, _ := l.At(s)
	amps, factor := d.Amps, pl.p.Continuous.Other
	if mca, ok := d.MinCircuit.Get(); ok {
		amps = mca
	} else if on, _, _ := pl.continuous(l, d); on {
		factor = pl.p.Continuous.Load
	}
	return weighted(amps, factor)
}

// weighted is a current in whole weighted milliamperes, rounded up.
func weighted(amps units.Current, factor int64) int64 {
	return int64(math.Ceil(float64(amps)/float64(units.Milliampere)-noise)) * factor
}

// capacity is what a circuit of a rating can hold, less the share that the plan
// leaves free.
func (pl *planner) capacity(rating units.Current) int64 {
	share := 1 - float64(pl.inv.Plan.Spare.Or(0))
	return int64(math.Floor(float64(rating)*share/float64(units.Milliampere)+noise)) * pl.p.Continuous.Rating
}

// makerShare is how many units of a load its maker allows on a breaker of a
// rating; ok is false where the file gives no limit for it.
func makerShare(l loads.Load, rating units.Current) (int, bool) {
	n, ok := 0, false
	for _, m := range l.Item.MaxPerBreaker {
		if m.Rating == 0 && !ok || m.Rating == rating {
			n, ok = m.Count, true
		}
	}
	return n, ok
}
