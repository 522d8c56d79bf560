package verify

import (
	"slices"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// spaces checks that no panel space is taken twice, that the poles of a breaker
// are neighbours on one side, and that each pole sits on the leg that the bus
// has there.
func (v *verifier) spaces() {
	taken := map[string]map[int]string{}
	take := func(panel string, spaces, legs []int, poles int, who string, existing bool) {
		if taken[panel] == nil {
			taken[panel] = map[int]string{}
		}
		if len(spaces) != poles || len(legs) != poles {
			if !existing {
				v.complain("%s: %d poles on %d spaces and %d legs", who, poles, len(spaces), len(legs))
			}
			return
		}
		sys := v.system(panel)
		for i, s := range spaces {
			if other, ok := taken[panel][s]; ok {
				v.complain("space %d of %s is taken by %s and %s", s, panel, other, who)
			}
			taken[panel][s] = who
			if i > 0 && s != spaces[i-1]+2 {
				v.complain("%s: spaces %v are not neighbours on one side", who, spaces)
			}
			if want := legAt(sys, s); legs[i] != want {
				v.complain("%s: space %d is on leg %d of the bus, the plan says %d", who, s, want, legs[i])
			}
		}
	}
	for _, c := range v.plan.Circuits {
		take(c.Panel, c.Spaces, c.Legs, c.Supply.Poles, "circuit "+c.Name, c.Existing)
	}
	for _, x := range v.plan.Panels {
		if f := x.Feeder; f != nil {
			take(f.From, f.Spaces, f.Legs, f.Poles, "the feeder of "+x.Name, f.Existing)
		}
	}
	v.stayed()
	for _, x := range v.plan.Panels {
		if n := len(taken[x.Name]); n != x.SpacesUsed {
			v.complain("panel %s: %d spaces are taken, the plan says %d", x.Name, n, x.SpacesUsed)
		}
	}
}

// stayed checks that every breaker in the wall stands in the spaces, and on the
// legs, that the file gives it: what is not on a leg is not counted there.
func (v *verifier) stayed() {
	file := map[string][]int{}
	for _, c := range v.inv.Circuits {
		file[c.Name] = c.Spaces
	}
	for _, c := range v.plan.Circuits {
		if c.Existing && (!slices.Equal(c.Spaces, file[c.Name]) || len(c.Legs) != len(c.Spaces)) {
			v.complain("circuit %s: it stands in spaces %v of the file, in %v of the plan, on %d legs", c.Name, file[c.Name], c.Spaces, len(c.Legs))
		}
	}
	for _, x := range v.inv.Panels {
		for _, y := range v.plan.Panels {
			if f := y.Feeder; y.Name == x.Name && f != nil && len(x.Feeder.Spaces) > 0 && !slices.Equal(f.Spaces, x.Feeder.Spaces) {
				v.complain("the feeder of %s: it stands in spaces %v of the file, in %v of the plan", x.Name, x.Feeder.Spaces, f.Spaces)
			}
		}
	}
}

// legAt counts down the panel, row by row, a leg a row in turn.
func legAt(sys inventory.System, space int) int {
	leg := 0
	for first := 1; first+1 < space; first += 2 {
		leg = (leg + 1) % sys.Legs
	}
	return leg
}

func (v *verifier) system(panel string) inventory.System {
	for _, x := range v.inv.Panels {
		if x.Name == panel {
			return x.System
		}
	}
	return inventory.System{Legs: 1}
}

// planned checks what only new circuits promise: whole separation, and that
// everything on them could run at once.
func (v *verifier) planned(c circuits.Circuit) {
	var continuous, other, marked float64
	for _, l := range c.Loads {
		load, ok := v.set.Named(l.Item)
		if !ok {
			v.complain("circuit %s feeds %s, which is not in the file", c.Name, l.Item)
			continue
		}
		if !load.Accepts(c.Supply) {
			v.complain("circuit %s feeds %s at %s, which it does not accept", c.Name, l.Item, c.Supply.Volts)
		}
		if l.Room != c.Loads[0].Room && c.Controller == "" {
			v.complain("circuit %s serves two rooms", c.Name)
		}
		if load.Alone && c.Controller == "" && (len(c.Loads) > 1 || l.Count > 1) {
			v.complain("circuit %s: %s asks for a circuit of its own and shares", c.Name, l.Item)
		}
		n := float64(l.Count)
		if mca, ok := l.Draw.MinCircuit.Get(); ok {
			marked += n * float64(mca)
		} else if l.Continuous {
			continuous += n * float64(l.Draw.Amps)
		} else {
			other += n * float64(l.Draw.Amps)
		}
	}
	k := v.p.Continuous
	breaker, ok := c.Breaker.Get()
	if !ok || !v.p.Devices.Standard(breaker) && c.Controller == "" {
		v.complain("circuit %s: %s is not a standard rating", c.Name, breaker)
	}
	asks := float64(k.Load)*continuous + float64(k.Other)*other + float64(k.Rating)*marked
	if limit := float64(k.Rating) * float64(breaker); asks > limit*(1+1e-9) {
		v.complain("circuit %s: %g of %g used with everything on", c.Name, asks, limit)
	}
	if c.Conductor.Size == "" && c.Conductor.Ampacity.Why() == "" {
		v.complain("circuit %s has no conductor, and nothing says why", c.Name)
	}
	if i, ok := c.Conductor.Ampacity.Get(); ok && units.Exceeds(c.Load, i) {
		v.complain("circuit %s: its conductor carries %s and is asked for %s", c.Name, i, c.Load)
	}
	if i, ok := c.Conductor.ProtectedAt.Get(); ok && units.Exceeds(breaker, i) {
		v.complain("circuit %s: its conductor is protected at %s, its breaker is %s", c.Name, i, breaker)
	}
	if units.Exceeds(c.Free, units.Times(max(0, breaker-c.Required), 1/k.Factor())+1e-6) {
		v.complain("circuit %s: %s free behind %s with %s required", c.Name, c.Free, breaker, c.Required)
	}
}
