package assign

import (
	"fmt"
	"slices"
	"sort"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// supplies returns the ways a panel may serve a load, the preferred first: the
// plan's voltage where the load accepts it, otherwise all, fewest poles first
// and of those the higher voltage.
func (pl *planner) supplies(host inventory.Panel, l loads.Load) []inventory.Supply {
	var all []inventory.Supply
	for _, s := range host.System.Supplies() {
		if _, ok := l.At(s); ok {
			all = append(all, s)
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].Poles != all[j].Poles {
			return all[i].Poles < all[j].Poles
		}
		return all[i].Volts > all[j].Volts
	})
	if want, ok := pl.inv.Plan.Voltage.Get(); ok {
		for _, s := range all {
			if units.SameNominal(s.Volts, want) {
				return []inventory.Supply{s}
			}
		}
	}
	return pl.inDwelling(l, all)
}

// inDwelling drops supplies above the voltage that a dwelling allows for
// luminaires and small cord-and-plug loads, where one below it is left.
func (pl *planner) inDwelling(l loads.Load, all []inventory.Supply) []inventory.Supply {
	if pl.inv.Site.Use != inventory.Dwelling || pl.p.Branch.DwellingVolts == 0 {
		return all
	}
	var low []inventory.Supply
	for _, s := range all {
		d, _ := l.At(s)
		small := l.Corded && d.VA <= pl.p.Branch.DwellingVA
		if l.Category != loads.Lighting && !small || s.Volts <= pl.p.Branch.DwellingVolts {
			low = append(low, s)
		}
	}
	if len(low) == 0 {
		return all
	}
	return low
}

// noSupply tells why a panel cannot serve a load.
func noSupply(host inventory.Panel, l loads.Load) (reason, needs string) {
	for _, s := range host.System.Supplies() {
		if hp, ok := l.Motor.Get(); ok && l.Accepts(s) {
			return fmt.Sprintf("the code's tables as carried here have no full-load current for %s at %s", hp, s.Volts),
				"its nameplate current as `current`, or its `nameplate`, instead of `hp`"
		}
	}
	offers := ""
	for i, s := range host.System.Supplies() {
		if i > 0 {
			offers += ", "
		}
		offers += s.Volts.String()
		if s.Phases == 3 {
			offers += " three-phase"
		}
	}
	return "it accepts " + l.Voltage.String() + "; panel " + host.Name + " supplies " + offers,
		"a panel that supplies its voltage, or equipment for a voltage that is there"
}

// outlet is what the protection rules ask of a circuit's outlets.
func (pl *planner) outlet(c circuits.Circuit, corded bool) codes.Outlet {
	wet := false
	for _, cl := range c.Loads {
		l, _ := pl.set.Named(cl.Item)
		place := l.Item.Location.Or("")
		wet = wet || place == "damp" || place == "wet" || cl.Category == loads.Water
	}
	return codes.Outlet{ToGround: c.ToGround, Volts: c.Supply.Volts, Phases: c.Supply.Phases, Rating: c.Breaker.Or(0),
		Lighting: hasLighting(c), Corded: corded, Wet: wet, Dwelling: pl.inv.Site.Use == inventory.Dwelling}
}

// protection is the ground-fault protection that a circuit calls for. Where that
// hangs on a place that the file does not describe, it cannot be told.
func (pl *planner) protection(c circuits.Circuit, corded bool) codes.Protection {
	o := pl.outlet(c, corded)
	p := pl.p.Protection(o)
	if p.Needed || !slices.ContainsFunc(c.Loads, pl.placeless) {
		return p
	}
	o.Wet = true
	if wet := pl.p.Protection(o); wet.Needed {
		p.Open, p.Cite = "the location is not stated; where it is damp or wet, a "+wet.Class+" is called for", wet.Cite
	}
	return p
}

// placeless reports whether a load has a cord and stands where the file does not say.
func (pl *planner) placeless(cl circuits.Load) bool {
	l, _ := pl.set.Named(cl.Item)
	return l.Corded && !l.Item.Location.Known()
}

// receptacle names the receptacle of a new circuit: what the equipment's plug
// asks for, or the straight-blade configuration of the circuit's rating. A
// straight-blade plug of a smaller rating enters the receptacle of the circuit's
// rating too, and a single receptacle may not be rated below its circuit.
func (pl *planner) receptacle(c circuits.Circuit) string {
	usual, hasUsual := pl.p.ReceptacleFor(c.Breaker.Or(0), c.Supply.Volts, c.Supply.Phases, c.Supply.Neutral)
	for _, cl := range c.Loads {
		l, _ := pl.set.Named(cl.Item)
		if l.Plug == "" {
			continue
		}
		r, ok := pl.p.ReceptacleNamed(l.Plug)
		if !ok {
			continue
		}
		if c.Individual && hasUsual && !r.Locking && !usual.Locking && r.Amps < usual.Amps && r.Volts == usual.Volts {
			return usual.Name
		}
		return r.Name
	}
	if hasUsual {
		return usual.Name
	}
	return ""
}
