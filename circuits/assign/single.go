package assign

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// single gives every unit that takes a circuit of its own one circuit, and so
// every unit too large for the ratings that shared circuits are planned at.
func (pl *planner) single() {
	for _, l := range pl.set.Loads {
		if n := pl.left[l.Name]; n > 0 && (l.Alone || pl.tooLarge(l)) {
			pl.alone(l, n)
		}
	}
}

func (pl *planner) alone(l loads.Load, n int) {
	host, ok := pl.host(l)
	if !ok {
		pl.unfed(l, n, "no panel in the file feeds it", "name the room's panel with `panel`")
		return
	}
	options := pl.supplies(host, l)
	if len(options) == 0 {
		reason, needs := noSupply(host, l)
		pl.unfed(l, n, reason, needs)
		return
	}
	why := ""
	for _, s := range options {
		breaker, reason := pl.aloneBreaker(l, s)
		if reason != "" {
			why = reason
			continue
		}
		for range n {
			c := circuits.Circuit{Panel: host.Name, Supply: s, ToGround: host.System.ToGround(s), Breaker: units.Is(breaker)}
			c.Loads = []circuits.Load{pl.carries(l, 1, s)}
			pl.describe(&c)
			pl.plan.Circuits = append(pl.plan.Circuits, c)
			pl.left[l.Name]--
			pl.spaceBound += int64(s.Poles)
			pl.circuitBound++
		}
		return
	}
	pl.unfed(l, n, why, "equipment for a higher voltage or on three phases, or a feeder of its own designed by a licensed professional")
}

// aloneBreaker returns the rating of the device of one unit alone on a circuit,
// or why there is none.
//
// Marked equipment takes the largest standard rating up to its marked maximum,
// so that it starts. A motor wired permanently takes the motor rule's device.
// Anything else takes the smallest planned rating that its required rating
// allows.
func (pl *planner) aloneBreaker(l loads.Load, s inventory.Supply) (units.Current, string) {
	d, _ := l.At(s)
	if mca, ok := d.MinCircuit.Get(); ok {
		if most, ok := d.MaxDevice.Get(); ok {
			if r, ok := pl.p.Devices.Down(most); ok && !units.Exceeds(mca, r) {
				return r, ""
			}
			return 0, fmt.Sprintf("no standard rating lies between its nameplate's %s and %s", mca, most)
		}
		r, ok := pl.p.Devices.Next(mca)
		return r, none(ok, mca)
	}
	limit, limited := pl.maxBreaker(l, d)
	if d.Motor && !l.Corded {
		// The motor rule allows the next standard rating up.
		r, ok := pl.p.Devices.Next(units.Times(d.Amps, float64(pl.p.Motors.Breaker)))
		if !limited || !units.Exceeds(r, limit) {
			return r, none(ok, d.Amps)
		}
	}
	on, _, _ := pl.continuous(l, d)
	need := d.Amps
	if on {
		need = pl.p.Continuous.Required(d.Amps, 0, false)
	}
	for _, r := range pl.individualRatings(l, limit, limited) {
		if units.Exceeds(need, r) || limited && units.Exceeds(r, limit) {
			continue
		}
		if l.Corded && r <= pl.p.Branch.OnePlugUpTo && units.Exceeds(d.Amps, units.Times(r, float64(pl.p.Branch.OnePlug))) {
			continue
		}
		if _, ok := pl.p.ReceptacleFor(r, s.Volts, s.Phases, s.Neutral); l.Corded && l.Plug == "" && !ok {
			continue
		}
		return r, ""
	}
	if limited {
		return 0, fmt.Sprintf("it needs a circuit of %s at %s and its maker allows a device of %s at most", need, s.Volts, limit)
	}
	return 0, fmt.Sprintf("it needs a circuit of %s at %s, for which there is no rating or receptacle", need, s.Volts)
}

func none(ok bool, need units.Current) string {
	if ok {
		return ""
	}
	return "no standard rating carries " + need.String()
}

func (pl *planner) maxBreaker(l loads.Load, d loads.Draw) (units.Current, bool) {
	if most, ok := d.MaxDevice.Get(); ok {
		return most, true
	}
	return l.Item.MaxBreaker.Get()
}

// individualRatings are the ratings that a circuit of one unit may have,
// ascending: the planned rating and the standard ones above; below it only where
// the maker's limit asks for it.
func (pl *planner) individualRatings(l loads.Load, limit units.Current, limited bool) []units.Current {
	var out []units.Current
	for _, r := range pl.p.Devices.Ratings {
		if r >= pl.p.Branch.Default || limited && units.Exceeds(pl.p.Branch.Default, limit) && r >= pl.p.Branch.Least {
			out = append(out, r)
		}
	}
	return out
}

// host returns the panel that feeds a load.
func (pl *planner) host(l loads.Load) (inventory.Panel, bool) {
	for _, name := range l.Panels {
		if x, ok := pl.panel(name); ok {
			return x, true
		}
	}
	return inventory.Panel{}, false
}
