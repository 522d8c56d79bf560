// Package verify re-derives a finished plan by another road than the one that
// made it, and runs on every plan in production.
//
// It shares no code with packing, panel or assign: units are counted anew, the
// worst moment of a circuit is found by walking the day minute by minute, legs
// by summing waveforms instead of phasors, spaces and legs by counting down the
// panel. A complaint is never the user's fault: it means that the program
// contradicts itself, and the command ends with status 3.
package verify

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Plan returns the contradictions between a plan and what it was made from,
// none where there are none.
func Plan(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan circuits.Plan) []string {
	v := &verifier{inv: inv, set: set, p: p, plan: plan}
	v.hours = hoursOf(set)
	v.everyUnitOnce()
	v.everyNameOnce()
	v.spaces()
	for _, c := range plan.Circuits {
		v.circuit(c)
		v.draws(c)
		if !c.Existing {
			v.planned(c)
		}
	}
	v.panels()
	v.balance()
	v.bounds()
	v.proofs()
	v.working()
	return v.says
}

type verifier struct {
	inv  *inventory.Inventory
	set  loads.Set
	p    *codes.Profile
	plan circuits.Plan
	says []string

	hours   timetable
	cosines map[float64]*wave          // by angle
	above   map[string]map[string]bool // by panel: itself and those that feed it
}

func (v *verifier) complain(format string, args ...any) {
	v.says = append(v.says, fmt.Sprintf(format, args...))
}

// everyUnitOnce counts each item's units on circuits and among those without.
func (v *verifier) everyUnitOnce() {
	placed := map[string]int{}
	for _, c := range v.plan.Circuits {
		for _, l := range c.Loads {
			if l.Count <= 0 {
				v.complain("circuit %s: %d units of %s", c.Name, l.Count, l.Item)
			}
			placed[l.Item] += l.Count
		}
	}
	for _, u := range v.plan.Unfed {
		placed[u.Item] += u.Count
	}
	for _, item := range v.inv.Items {
		if placed[item.Name] != item.Count {
			v.complain("%s: %d units in the file, %d in the plan", item.Path(), item.Count, placed[item.Name])
		}
		delete(placed, item.Name)
	}
	for name, n := range placed {
		v.complain("%s: %d units in the plan, none in the file", name, n)
	}
}

// everyNameOnce looks up the units that the file lists one by one: no name is on two
// circuits, and none is on one that the file does not have.
func (v *verifier) everyNameOnce() {
	on := map[string]string{} // by name
	for _, c := range v.plan.Circuits {
		for _, l := range c.Loads {
			for _, name := range l.Names() {
				if at, twice := on[name]; twice {
					v.complain("%s is on circuits %s and %s", name, at, c.Name)
				}
				on[name] = c.Name
			}
		}
	}
	for _, item := range v.inv.Items {
		for _, name := range item.Listed {
			delete(on, name)
		}
	}
	for name, at := range on {
		v.complain("%s is on circuit %s and not in the file", name, at)
	}
}

// same tells whether two figures are the same but for rounding noise; what is no
// number is the same as nothing.
func same[T ~float64](a, b T) bool {
	return !units.Exceeds(a, b+T(1e-6)) && !units.Exceeds(b, a+T(1e-6))
}

// working works every recorded step out again from its formula and the inputs
// printed beside it: an explanation that does not lead to its figure is a
// contradiction.
func (v *verifier) working() {
	var again steps.Reworker
	check := func(where string, list []steps.Step) {
		for _, s := range list {
			if got, ok, err := again.Agrees(s); err != nil {
				v.complain("%s: step %q cannot be worked out: %v", where, s.Name, err)
			} else if !ok {
				v.complain("%s: step %q gives %v, the plan says %v", where, s.Name, got, s.Result)
			}
		}
	}
	for _, c := range v.plan.Circuits {
		check("circuit "+c.Name, c.Steps)
	}
	for _, x := range v.plan.Panels {
		check("panel "+x.Name, x.Steps)
		if x.Feeder != nil {
			check("feeder of "+x.Name, x.Feeder.Steps)
		}
	}
}

// bounds checks that nothing is claimed to be better than it can be.
func (v *verifier) bounds() {
	o := v.plan.Optimality
	for name, b := range map[string]circuits.Bounded{"spaces": o.Spaces, "circuits": o.Circuits, "imbalance": o.Imbalance, "imbalance with lights on": o.LightsOn} {
		if b.Bound > b.Used {
			v.complain("%s: bound %d above the %d used", name, b.Bound, b.Used)
		}
		if b.Proved && b.Bound != b.Used {
			v.complain("%s: called proved with %d used and a bound of %d", name, b.Used, b.Bound)
		}
	}
	spaces := 0
	for _, c := range v.plan.Circuits {
		spaces += c.Supply.Poles
	}
	if int64(spaces) != o.Spaces.Used || int64(len(v.plan.Circuits)) != o.Circuits.Used {
		v.complain("optimality counts %d spaces and %d circuits, the plan has %d and %d", o.Spaces.Used, o.Circuits.Used, spaces, len(v.plan.Circuits))
	}
}
