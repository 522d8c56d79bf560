package assign

import (
	"sort"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Compare returns, for each item that shares circuits, what its units would take
// at every voltage that they accept, also at those that only another panel system
// would supply: spaces, circuits, conductor sizes and the copper in them, by
// themselves and with the same rules. It changes nothing.
func Compare(inv *inventory.Inventory, set loads.Set, p *codes.Profile) ([]circuits.VoltageChoice, error) {
	pl := newPlanner(inv, set, p)
	var out []circuits.VoltageChoice
	for _, l := range set.Loads {
		if l.Alone || l.Count == 0 {
			continue
		}
		v := circuits.VoltageChoice{Item: l.Name}
		for _, k := range pl.everySupply(l) {
			o, ok, err := pl.option(l, k)
			if err != nil {
				return nil, err
			}
			if ok {
				v.Options = append(v.Options, o)
			}
		}
		if len(v.Options) > 1 {
			out = append(out, v)
		}
	}
	return out, nil
}

// offer is a supply of a system, and whether the load's own panel has it.
type offer struct {
	host   inventory.Panel
	supply inventory.Supply
	own    bool
}

// everySupply lists the single-phase supplies of all systems that a load accepts,
// each voltage once, those of its own panel first.
func (pl *planner) everySupply(l loads.Load) []offer {
	var out []offer
	seen := map[units.Voltage]bool{}
	add := func(host inventory.Panel, own bool) {
		for _, s := range host.System.Supplies() {
			if _, ok := l.At(s); ok && s.Phases == 1 && !seen[s.Volts] {
				seen[s.Volts] = true
				out = append(out, offer{host, s, own})
			}
		}
	}
	var base inventory.Panel
	for i, name := range l.Panels {
		if x, ok := pl.panel(name); ok {
			if i == 0 {
				base = x
			}
			add(x, true)
		}
	}
	for _, sys := range inventory.Systems() {
		if !covered(pl.p, sys) {
			continue
		}
		x := base
		x.System = sys
		add(x, false)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].supply.Volts < out[j].supply.Volts })
	return out
}

// covered reports whether a profile knows a receptacle for the system's voltage
// to neutral, which is how it tells that the system is in use where it applies.
func covered(p *codes.Profile, sys inventory.System) bool {
	for _, r := range p.Receptacles {
		for _, v := range r.On {
			if v == sys.LineToNeutral {
				return true
			}
		}
	}
	return false
}

// option packs a load's units by themselves on one supply.
func (pl *planner) option(l loads.Load, k offer) (circuits.VoltageOption, bool, error) {
	o := circuits.VoltageOption{Volts: k.supply.Volts, Phases: k.supply.Phases, System: k.host.System.Name, Own: k.own}
	d, _ := l.At(k.supply)
	o.Each = d.Amps
	pl.left[l.Name] = l.Count
	c := cell{key: pl.keyOf([]inventory.Panel{k.host}, l), host: k.host, loads: []loads.Load{l}}
	t, err := pl.solve(c, [][]inventory.Supply{{k.supply}})
	if err != nil || t.result.Missing.Used > 0 {
		return o, false, err
	}
	o.Spaces, o.Circuits, o.Proved = int(t.result.Width.Used), int(t.result.Opened.Used), t.result.Width.Proved
	first := 1
	for _, b := range t.result.Bins {
		x := circuits.Circuit{Panel: k.host.Name, Supply: k.supply, ToGround: k.host.System.ToGround(k.supply), Breaker: units.Is(t.bins[b.Kind].rating)}
		cl := pl.carries(l, b.Holds[0], k.supply)
		if l.Item.Table == inventory.Fixtures {
			cl.First, cl.Every = first, 1
			first += cl.Count
		}
		x.Loads = []circuits.Load{cl}
		pl.describe(&x)
		pl.settle(&x)
		if err := pl.wire(&x); err != nil {
			return o, false, err
		}
		o.Add(x, pl.copper(x))
	}
	return o, true, nil
}

// poundsPerAreaFoot is the mass of copper per circular mil and foot:
// 0.7854 mil²/cmil · 1e-6 in²/mil² · 12 in/ft · 0.321 lb/in³. Density of copper
// 8.89 g/cm³ (ASTM B3, from memory).
const poundsPerAreaFoot = 0.7853981634e-6 * 12 * 0.3212

// copper is the mass of a circuit's conductors from the panel to the last outlet,
// ground included; unknown where the run is.
func (pl *planner) copper(c circuits.Circuit) units.Known[float64] {
	run, ok := c.LastOutlet.Get()
	area, okA := pl.p.Wires.Area(c.Conductor.Size)
	ground, okG := pl.p.Wires.Area(c.Ground.Size)
	if !ok || !okA || !okG || c.Conductor.Material != "copper" {
		return units.Unknown[float64]("the run or the conductor is not known")
	}
	return units.Is(float64(run) * poundsPerAreaFoot * (area*float64(carrying(c.Supply)*max(1, c.Conductor.Sets)) + ground))
}
