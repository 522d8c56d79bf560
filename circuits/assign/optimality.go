package assign

import (
	"fmt"

	"branchwork/circuits"
)

// optimality says how good the plan is: what was used, what no plan of the same
// loads could do without, and whether the two meet.
//
// Circuits that exist, circuits of one unit and feeders are fixed and count on
// both sides; the bound of the rest is the packing's.
func (pl *planner) optimality() {
	o := &pl.plan.Optimality
	var fixedSpaces, fixedCircuits int64
	for _, c := range pl.plan.Circuits {
		o.Spaces.Used += int64(c.Supply.Poles)
		o.Circuits.Used++
		if c.Existing {
			fixedSpaces += int64(c.Supply.Poles)
			fixedCircuits++
		}
	}
	o.Spaces.Bound, o.Circuits.Bound = pl.spaceBound+fixedSpaces, pl.circuitBound+fixedCircuits
	o.Spaces.Proved, o.Circuits.Proved = o.Spaces.Used == o.Spaces.Bound, o.Circuits.Used == o.Circuits.Bound
	o.Spaces.Why, o.Circuits.Why = pl.why(true), pl.why(false)
	o.Imbalance, o.LightsOn = pl.imbalance()
}

func (pl *planner) why(width bool) string {
	open := 0
	for _, c := range pl.packed {
		f := c.circuits
		if width {
			f = c.spaces
		}
		if !f.Proved {
			open++
		}
	}
	if len(pl.packed) == 0 {
		return "no loads were left to share circuits"
	}
	if open == 0 {
		return "each group of loads that may share circuits takes the fewest there can be"
	}
	return fmt.Sprintf("%d of %d groups of loads may take more than the fewest there can be: the search ended at its limit of work", open, len(pl.packed))
}

// imbalance adds up, over the panels, how far the fullest leg stands above an
// even share, in volt-amperes, beside the least that the layout could reach: in
// the worst state of the day, and over the states with lights on.
func (pl *planner) imbalance() (worst, lit circuits.Bounded) {
	worst = circuits.Bounded{Proved: true, Why: "the fullest leg of each panel carries the least it can"}
	lit = circuits.Bounded{Proved: true, Why: "with lights on, no layout as good in the worst state fills the fullest legs less"}
	for _, x := range pl.plan.Panels {
		if x.System.Legs < 2 {
			continue
		}
		b := x.Balance
		va := func(steps int64) int64 { return int64(float64(steps)/100*float64(x.System.LineToNeutral) + 0.5) }
		worst.Used += va(b.Worst - b.Even)
		worst.Bound += va(max(b.Bound-b.Even, 0))
		lit.Used += va(b.Lit - b.LitEven)
		lit.Bound += va(max(b.LitBound-b.LitEven, 0))
		if !b.Proved {
			worst.Proved, worst.Why = false, b.Why
		}
		if b.Lit != b.LitBound {
			lit.Proved, lit.Why = false, "not every division over the legs was compared, or not in every state with lights on"
		}
	}
	return worst, lit
}

// spare counts the spaces that panels leave.
func (pl *planner) spare() {
	for i := range pl.plan.Panels {
		x := &pl.plan.Panels[i]
		if have, ok := x.Spaces.Get(); ok {
			taken, _ := x.Taken()
			x.Spare = max(0, have-taken)
		}
	}
}
