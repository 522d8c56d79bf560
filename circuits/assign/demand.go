package assign

import (
	"slices"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// thirdHarmonic is the share of third-harmonic current taken for an electronic
// supply between a leg and neutral: the most total harmonic distortion that the
// lighting qualification list accepts, as if all of it were third harmonic.
const thirdHarmonic = 0.2

// mostCases bounds the combinations of interlocked members that are worked out
// one by one; beyond it every member counts, which is never too little.
const mostCases = 256

// counting tells how much of a load's current counts in a case: 0 where it is off.
type counting func(l *loads.Load, c *circuits.Circuit, cl *circuits.Load) float64

// branch is what hangs on a panel's legs, with the circuit or the sub-panel that
// it comes through.
type branch struct {
	panel.Branch
	through string
}

func bare(list []branch) []panel.Branch {
	out := make([]panel.Branch, len(list))
	for i, b := range list {
		out[i] = b.Branch
	}
	return out
}

// branches returns what hangs on a panel's legs in a case, its sub-panels
// included.
func (pl *planner) branches(name string, count counting) []branch {
	var out []branch
	for i := range pl.plan.Circuits {
		c := &pl.plan.Circuits[i]
		if c.Panel != name {
			continue
		}
		most := 0.0
		for i := range c.Loads {
			cl := &c.Loads[i]
			l := pl.load(cl.Item)
			k := count(l, c, cl)
			if k == 0 || len(c.Legs) == 0 {
				continue
			}
			most = max(most, k)
			b := panel.Branch{Legs: c.Legs, Supply: c.Supply, Amps: units.Times(cl.Amps(), k), PF: cl.Draw.PF}
			if l.NonLinear && c.Supply.Neutral {
				b.Harmonic = thirdHarmonic
			}
			out = append(out, branch{b, "circuit " + c.Name})
		}
		if excess := c.Excess(); excess > 0 && most > 0 {
			out = append(out, branch{panel.Branch{Legs: c.Legs, Supply: c.Supply, Amps: units.Times(excess, most), PF: 1}, "measured on circuit " + c.Name})
		}
	}
	for i := range pl.plan.Panels {
		f := pl.plan.Panels[i].Feeder
		if f == nil || f.From != name || len(f.Legs) == 0 {
			continue
		}
		for _, b := range pl.throughFeeder(f, count) {
			b.through = "panel " + f.Panel
			out = append(out, b)
		}
	}
	return out
}

// throughFeeder carries a sub-panel's load to the panel that feeds it. A panel
// of the same system passes each leg on to the leg of its name, since feeder
// conductors are landed by phase wherever the breaker's poles sit; a transformer is taken as a balanced
// load of as many times its fullest secondary leg as it has legs, which is the
// most its primary can be asked for.
func (pl *planner) throughFeeder(f *circuits.Feeder, count counting) []branch {
	inner := append(pl.branches(f.Panel, count), pl.unlisted(f.Panel)...)
	if f.Transformer == nil {
		return inner
	}
	sub, _ := pl.panel(f.Panel)
	legs, _ := panel.Currents(sub.System, bare(inner))
	s := units.Times(units.VA(sub.System.LineToNeutral, largest(legs)), float64(sub.System.Legs))
	amps, err := loads.ApparentCurrent(s, f.Volts, f.Transformer.Phases)
	if err != nil || s == 0 {
		return nil
	}
	up, _ := pl.panel(f.From)
	for _, supply := range up.System.Supplies() {
		if supply.Poles == f.Poles && supply.Phases == f.Transformer.Phases {
			return []branch{{Branch: panel.Branch{Legs: f.Legs, Supply: supply, Amps: amps, PF: meanPF(inner)}}}
		}
	}
	return nil
}

// unlisted is what a sub-panel carries that the file does not list, as the panel
// that feeds it sees it: its other load, and its measured peak with the code's
// allowance. What the file lists beside a measured peak counts as well.
func (pl *planner) unlisted(name string) []branch {
	x, _ := pl.panel(name)
	return stated(x, float64(pl.p.Service.PeakFactor))
}

// stated is a panel's other load, and its measured peak so many times, on every leg.
func stated(x inventory.Panel, peak float64) []branch {
	i := x.StatedLoad() + units.Times(x.StatedPeak(), peak)
	if i == 0 {
		return nil
	}
	var out []branch
	for leg := range x.System.Legs {
		out = append(out, branch{Branch: panel.Branch{Legs: []int{leg}, Supply: x.System.Supplies()[0], Amps: i, PF: 1}})
	}
	return out
}

func meanPF(list []branch) units.Ratio {
	var p, s float64
	for _, b := range list {
		p += float64(b.Amps) * float64(b.PF)
		s += float64(b.Amps)
	}
	if s == 0 {
		return 1
	}
	return units.Ratio(p / s)
}

func largest(legs []units.Current) units.Current {
	var most units.Current
	for _, i := range legs {
		most = max(most, i)
	}
	return most
}

// within lists the loads on a panel and below it, each once.
func (pl *planner) within(name string) []loads.Load {
	in := pl.below(name)
	var at []int
	for i := range pl.plan.Circuits {
		if c := &pl.plan.Circuits[i]; in[c.Panel] {
			for _, cl := range c.Loads {
				if k := pl.set.Where(cl.Item); k >= 0 {
					at = append(at, k)
				}
			}
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	out := make([]loads.Load, len(at))
	for i, k := range at {
		out[i] = pl.set.Loads[k]
	}
	return out
}

// cases returns the ways in which interlocked loads can be on: one member of
// each group. Each case maps a group to the member that runs.
func cases(list []loads.Load) []map[string]string {
	out := []map[string]string{{}}
	seen := map[string][]string{}
	var groups []string
	for _, l := range list {
		if l.Interlock == "" {
			continue
		}
		if seen[l.Interlock] == nil {
			groups = append(groups, l.Interlock)
		}
		known := false
		for _, m := range seen[l.Interlock] {
			known = known || m == l.Member
		}
		if !known {
			seen[l.Interlock] = append(seen[l.Interlock], l.Member)
		}
	}
	for _, g := range groups {
		if len(out)*len(seen[g]) > mostCases {
			return []map[string]string{{}}
		}
		var next []map[string]string
		for _, c := range out {
			for _, m := range seen[g] {
				k := map[string]string{g: m}
				for a, b := range c {
					k[a] = b
				}
				next = append(next, k)
			}
		}
		out = next
	}
	return out
}

func runs(c map[string]string, l *loads.Load) bool {
	m, ok := c[l.Interlock]
	return l.Interlock == "" || !ok || m == l.Member
}

// loaded is a panel in one case: what hangs on it and what its legs carry.
type loaded struct {
	state    string
	branches []branch
	legs     []units.Current
}

// operating returns a panel in the worst state of the day, the state whose
// fullest leg is fullest, and the most that its neutral carries in any.
func (pl *planner) operating(x inventory.Panel) (worst loaded, neutral units.Current) {
	list := pl.within(x.Name)
	delete(pl.pulls, x.Name)
	worst = loaded{state: "nothing on", legs: make([]units.Current, x.System.Legs)}
	for _, s := range loads.States(list) {
		on, lit := pl.on(list, s)
		for _, k := range cases(lit) {
			hang := pl.branches(x.Name, func(l *loads.Load, _ *circuits.Circuit, _ *circuits.Load) float64 {
				if on(l) && runs(k, l) {
					return 1
				}
				return 0
			})
			i, n := panel.Currents(x.System, bare(hang))
			neutral = max(neutral, n)
			pl.pulling(x, hang)
			if units.Exceeds(largest(i), largest(worst.legs)) {
				worst = loaded{s.Name, hang, i}
			}
		}
	}
	return worst, neutral
}

// on tells which loads are on in a state of some loads, and lists them.
func (pl *planner) on(list []loads.Load, s loads.State) (func(*loads.Load) bool, []loads.Load) {
	is, lit := make([]bool, len(pl.set.Loads)), make([]loads.Load, 0, len(list))
	for i, l := range list {
		if s.On[i] {
			is[pl.set.Where(l.Name)] = true
			lit = append(lit, l)
		}
	}
	return func(l *loads.Load) bool {
		i := pl.set.Where(l.Name)
		return i >= 0 && is[i]
	}, lit
}

// required returns a panel with the allowance for continuous load, everything
// connected counted as on and interlocked loads once, in the case that asks most
// of its fullest leg; and the demand in volt-amperes on the same ground, by
// circuit and sub-panel.
func (pl *planner) required(x inventory.Panel) (worst loaded, demand []part) {
	list := pl.within(x.Name)
	measured := x.MeasuredPeak.Known() && pl.p.Service.PeakFactor > 0
	worst = loaded{legs: make([]units.Current, x.System.Legs)}
	for _, k := range cases(list) {
		counts := func(l *loads.Load, c *circuits.Circuit) bool {
			return runs(k, l) && !(measured && c.Existing && !c.Changed)
		}
		for _, big := range pl.largestMotors(x, counts) {
			count := func(l *loads.Load, c *circuits.Circuit, cl *circuits.Load) float64 {
				switch {
				case !counts(l, c):
					return 0
				case cl.Draw.Motor && !cl.Draw.MinCircuit.Known():
					return big.factor(c, cl, pl.p.Motors.Allowance(pl.p.Continuous.Factor()))
				}
				return pl.factor(cl)
			}
			hang := pl.branches(x.Name, count)
			legs, _ := panel.Currents(x.System, bare(hang))
			if units.Exceeds(largest(legs), largest(worst.legs)) {
				worst = loaded{"", hang, legs}
			}
			if parts := pl.parts(x.Name, count); units.Exceeds(sum(parts), sum(demand)) {
				demand = parts
			}
		}
	}
	for _, sub := range pl.inv.Panels {
		if sub.Name == x.Name || !pl.below(x.Name)[sub.Name] {
			continue
		}
		for _, b := range pl.unlisted(sub.Name) {
			demand = append(demand, part{"not listed on panel " + sub.Name, units.VA(b.Supply.Volts, b.Amps)})
		}
	}
	return worst, demand
}

// factor is the allowance with which a load counts towards a panel.
func (pl *planner) factor(cl *circuits.Load) float64 {
	if mca, ok := cl.Draw.MinCircuit.Get(); ok && cl.Draw.Amps > 0 {
		return units.Per(mca, cl.Draw.Amps)
	}
	if cl.Continuous {
		return pl.p.Continuous.Factor()
	}
	return 1
}

// part is a share of a panel's volt-amperes.
type part struct {
	through string
	va      units.Apparent
}

func sum(list []part) units.Apparent {
	var s units.Apparent
	for _, p := range list {
		s += p.va
	}
	return s
}

// parts lists the volt-amperes of a panel by circuit and sub-panel.
func (pl *planner) parts(name string, count counting) []part {
	var out []part
	for i := range pl.plan.Circuits {
		c := &pl.plan.Circuits[i]
		if c.Panel != name {
			continue
		}
		p := part{through: "circuit " + c.Name}
		for i := range c.Loads {
			cl := &c.Loads[i]
			p.va += units.Times(cl.Draw.VA, float64(cl.Count)*count(pl.load(cl.Item), c, cl))
		}
		out = append(out, p)
	}
	for _, x := range pl.inv.Panels {
		if x.FedBy == name {
			out = append(out, part{"panel " + x.Name, sum(pl.parts(x.Name, count))})
		}
	}
	return out
}

// panelFigures works out what a panel carries and, for a sub-panel, its feeder.
func (pl *planner) panelFigures(x inventory.Panel) error {
	out := &pl.plan.Panels[len(pl.plan.Panels)-1]
	w := &steps.Work{}
	connected := pl.parts(x.Name, everyLoad)
	out.ConnectedVA = sum(connected)
	in := pl.below(x.Name)
	for i := range pl.plan.Circuits {
		c := &pl.plan.Circuits[i]
		if !in[c.Panel] {
			continue
		}
		for i := range c.Loads {
			cl := &c.Loads[i]
			if p, ok := cl.Draw.Watts.Get(); ok {
				out.ConnectedWatts += units.Times(p, float64(cl.Count))
			} else {
				out.UnknownWatts = true
			}
		}
	}
	worst, neutral := pl.operating(x)
	out.Legs, out.State, out.Imbalance = worst.legs, worst.state, panel.Balance(worst.legs)
	out.Neutral = units.Is(neutral)
	asked, demand := pl.required(x)
	out.Required, out.DemandVA = largest(asked.legs), sum(demand)
	pl.recordVA(w, connected, demand)
	pl.recordLegs(w, x, worst, "I")
	w.Add(steps.Step{Name: "neutral, the most in any state, third harmonic of electronic supplies included", Result: float64(neutral), Unit: "A",
		Cite: steps.CommonPractice, Note: "phasor sum of the line-to-neutral currents, with the third harmonic added at right angles",
		Inputs: []steps.Input{steps.In("h", thirdHarmonic, "")}})
	pl.recordLegs(w, x, asked, "k · I")
	pl.otherLoad(x, out, w)
	out.Steps = w.Steps()
	if x.FedBy == "" {
		return nil
	}
	return pl.feeder(x, out)
}
