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
	o.Imbalance = pl.imbalance()
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
		return "no units were left to share circuits"
	}
	if open == 0 {
		return fmt.Sprintf("each of the %d groups of loads that may share circuits meets its lower bound", len(pl.packed))
	}
	return fmt.Sprintf("%d of %d groups of loads end above their lower bound: the work limit ended first", open, len(pl.packed))
}

// imbalance adds up, over the panels, how far the fullest leg stands above an
// even share, in volt-amperes, beside the least that the layout could reach.
func (pl *planner) imbalance() circuits.Bounded {
	out := circuits.Bounded{Proved: true, Why: "the fullest leg of each panel meets its lower bound"}
	for _, x := range pl.inv.Panels {
		f, ok := pl.panelBounds[x.Name]
		if !ok || f.legs < 2 {
			continue
		}
		volts := float64(x.System.LineToNeutral)
		mean := float64(f.total) / float64(f.legs)
		va := func(steps int64) int64 { return int64((float64(steps)-mean)/100*volts + 0.5) }
		out.Used += max(0, va(f.worst))
		out.Bound += max(0, va(f.bound))
		if !f.proved {
			out.Proved, out.Why = false, f.why
		}
	}
	return out
}

// spare counts the spaces that panels leave.
func (pl *planner) spare() {
	for i := range pl.plan.Panels {
		x := &pl.plan.Panels[i]
		if have, ok := x.Spaces.Get(); ok {
			x.Spare = max(0, have-x.SpacesUsed)
		}
	}
}
