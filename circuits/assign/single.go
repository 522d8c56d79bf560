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
	hosts := pl.hosts(l)
	if len(hosts) == 0 {
		pl.unserved(l, n)
		return
	}
	why := ""
	for range n {
		s, breaker, host, reason := pl.aloneOn(l, hosts)
		if reason != "" {
			why = reason
			break
		}
		c := circuits.Circuit{Panel: host.Name, Supply: s, ToGround: host.System.ToGround(s), Breaker: units.Is(breaker)}
		c.Loads = []circuits.Load{pl.carries(l, 1, s)}
		pl.describe(&c)
		pl.take(c)
		pl.left[l.Name]--
		pl.spaceBound += int64(s.Poles)
		pl.circuitBound++
	}
	if left := pl.left[l.Name]; left > 0 {
		pl.unfed(l, left, why, "equipment for a higher voltage or on three phases, or a feeder of its own designed by a licensed professional")
	}
}

// aloneOn finds the panel, supply and device of one unit: the first panel that
// has room, or the preferred one where none has.
func (pl *planner) aloneOn(l loads.Load, hosts []inventory.Panel) (inventory.Supply, units.Current, inventory.Panel, string) {
	why := ""
	for _, mustFit := range []bool{true, false} {
		for _, host := range hosts {
			for _, s := range pl.supplies(host, l) {
				breaker, reason := pl.aloneBreaker(l, s)
				if reason != "" {
					why = reason
					continue
				}
				d, _ := l.At(s)
				if !mustFit || pl.hasRoom(host, s.Poles, d.VA) {
					return s, breaker, host, ""
				}
			}
		}
	}
	return inventory.Supply{}, 0, inventory.Panel{}, why
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
	if d.Motor && !l.Corded && pl.p.Motors.HoldsDevice() {
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
