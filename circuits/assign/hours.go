package assign

import (
	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// LegsOfPanel is what a panel's legs carry at one minute of the day.
type LegsOfPanel struct {
	Panel   string
	Legs    []units.Current
	Neutral units.Current
}

// LegsAt returns what the legs of every panel of a plan carry at a minute of the day,
// in the plan's order: all that its hours have on, at the current that sizes its
// circuit, and the panel's other load. Of interlocked loads that member counts which
// makes the fullest leg fullest.
//
// The fullest minute of the day is the plan's own figure, but for a changeover, which
// lasts minutes and is no minute's state.
//
// Duty is not applied: what cycles is on at some time of the hour, and a leg carries it
// then.
func LegsAt(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan circuits.Plan, m clock.Minute) []LegsOfPanel {
	pl := newPlanner(inv, set, p)
	pl.plan = plan
	out := make([]LegsOfPanel, len(plan.Panels))
	for i, x := range plan.Panels {
		out[i] = LegsOfPanel{Panel: x.Name}
		out[i].Legs, out[i].Neutral = pl.legsAt(x, m)
	}
	return out
}

// legsAt returns the legs of one panel at a minute, and the most of its neutral.
func (pl *planner) legsAt(x circuits.Panel, m clock.Minute) (legs []units.Current, neutral units.Current) {
	var on []loads.Load
	for _, l := range pl.within(x.Name) {
		if l.OnAt(m) {
			on = append(on, l)
		}
	}
	for _, k := range cases(on) {
		i, n := panel.Currents(x.System, bare(pl.branches(x.Name, func(l *loads.Load, _ *circuits.Circuit, _ *circuits.Load) float64 {
			if l.OnAt(m) && runs(k, l) {
				return 1
			}
			return 0
		})))
		neutral = max(neutral, n)
		if legs == nil || units.Exceeds(largest(i), largest(legs)) {
			legs = i
		}
	}
	for i := range legs {
		legs[i] += x.OtherLoad.Or(0)
	}
	return legs, neutral
}
