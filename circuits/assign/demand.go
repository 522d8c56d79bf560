package assign

import (
	"math"

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
type counting func(l loads.Load, c circuits.Circuit, cl circuits.Load) float64

// branches returns what hangs on a panel's legs in a case, its sub-panels
// included.
func (pl *planner) branches(name string, count counting) []panel.Branch {
	var out []panel.Branch
	for _, c := range pl.plan.Circuits {
		if c.Panel != name {
			continue
		}
		for _, cl := range c.Loads {
			l, _ := pl.set.Named(cl.Item)
			k := count(l, c, cl)
			if k == 0 || len(c.Legs) == 0 {
				continue
			}
			b := panel.Branch{Legs: c.Legs, Supply: c.Supply, Amps: units.Times(cl.Amps(), k), PF: cl.Draw.PF}
			if l.NonLinear && c.Supply.Neutral {
				b.Harmonic = thirdHarmonic
			}
			out = append(out, b)
		}
	}
	for i := range pl.plan.Panels {
		f := pl.plan.Panels[i].Feeder
		if f == nil || f.From != name || len(f.Legs) == 0 {
			continue
		}
		out = append(out, pl.throughFeeder(f, count)...)
	}
	return out
}

// throughFeeder carries a sub-panel's load to the panel that feeds it. A panel
// of the same system passes each leg on to the leg of its name, since feeder
// conductors are landed by phase wherever the breaker's poles sit; a transformer is taken as a balanced
// load of as many times its fullest secondary leg as it has legs, which is the
// most its primary can be asked for.
func (pl *planner) throughFeeder(f *circuits.Feeder, count counting) []panel.Branch {
	inner := pl.branches(f.Panel, count)
	if f.Transformer == nil {
		return inner
	}
	sub, _ := pl.panel(f.Panel)
	legs, _ := panel.Currents(sub.System, inner)
	s := units.Times(units.VA(sub.System.LineToNeutral, largest(legs)), float64(sub.System.Legs))
	amps, err := loads.ApparentCurrent(s, f.Volts, f.Transformer.Phases)
	if err != nil || s == 0 {
		return nil
	}
	up, _ := pl.panel(f.From)
	for _, supply := range up.System.Supplies() {
		if supply.Poles == f.Poles && supply.Phases == f.Transformer.Phases {
			return []panel.Branch{{Legs: f.Legs, Supply: supply, Amps: amps, PF: meanPF(inner)}}
		}
	}
	return nil
}

func meanPF(list []panel.Branch) units.Ratio {
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

// below returns a panel and all panels that it feeds, directly or not.
func (pl *planner) below(name string) map[string]bool {
	in := map[string]bool{name: true}
	for grew := true; grew; {
		grew = false
		for _, x := range pl.inv.Panels {
			if in[x.FedBy] && !in[x.Name] {
				in[x.Name], grew = true, true
			}
		}
	}
	return in
}

// within lists the loads on a panel and below it, each once.
func (pl *planner) within(name string) []loads.Load {
	in := pl.below(name)
	on := map[string]bool{}
	for _, c := range pl.plan.Circuits {
		if in[c.Panel] {
			for _, cl := range c.Loads {
				on[cl.Item] = true
			}
		}
	}
	var out []loads.Load
	for _, l := range pl.set.Loads {
		if on[l.Name] {
			out = append(out, l)
		}
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

func runs(c map[string]string, l loads.Load) bool {
	m, ok := c[l.Interlock]
	return l.Interlock == "" || !ok || m == l.Member
}

// operating returns the legs and neutral of a panel in the worst state of the
// day: the state whose fullest leg is fullest.
func (pl *planner) operating(x inventory.Panel) (legs []units.Current, neutral units.Current, state string) {
	list := pl.within(x.Name)
	legs = make([]units.Current, x.System.Legs)
	state = "nothing on"
	for _, s := range loads.States(list) {
		on := map[string]bool{}
		var lit []loads.Load
		for i, l := range list {
			if s.On[i] {
				on[l.Name] = true
				lit = append(lit, l)
			}
		}
		for _, k := range cases(lit) {
			i, n := panel.Currents(x.System, pl.branches(x.Name, func(l loads.Load, _ circuits.Circuit, _ circuits.Load) float64 {
				if on[l.Name] && runs(k, l) {
					return 1
				}
				return 0
			}))
			neutral = max(neutral, n)
			if units.Exceeds(largest(i), largest(legs)) {
				legs, state = i, s.Name
			}
		}
	}
	return legs, neutral, state
}

// required returns what a panel's fullest leg asks for with the allowance for
// continuous load, everything connected counted as on, interlocked loads once,
// and the demand in volt-amperes on the same ground.
func (pl *planner) required(x inventory.Panel) (units.Current, units.Apparent) {
	list := pl.within(x.Name)
	_, measured := x.MeasuredPeak.Get()
	var amps units.Current
	var demand units.Apparent
	for _, k := range cases(list) {
		count := func(l loads.Load, c circuits.Circuit, cl circuits.Load) float64 {
			if !runs(k, l) || measured && c.Existing && !c.Changed {
				return 0
			}
			return pl.factor(cl)
		}
		legs, _ := panel.Currents(x.System, pl.branches(x.Name, count))
		amps = max(amps, largest(legs))
		demand = max(demand, pl.sumVA(x.Name, count))
	}
	return amps, demand
}

// factor is the allowance with which a load counts towards a panel.
func (pl *planner) factor(cl circuits.Load) float64 {
	if mca, ok := cl.Draw.MinCircuit.Get(); ok && cl.Draw.Amps > 0 {
		return units.Per(mca, cl.Draw.Amps)
	}
	if cl.Continuous {
		return pl.p.Continuous.Factor()
	}
	return 1
}

// sumVA adds volt-amperes of everything on and below a panel.
func (pl *planner) sumVA(name string, count counting) units.Apparent {
	in := pl.below(name)
	var sum units.Apparent
	for _, c := range pl.plan.Circuits {
		if !in[c.Panel] {
			continue
		}
		for _, cl := range c.Loads {
			l, _ := pl.set.Named(cl.Item)
			sum += units.Times(cl.Draw.VA, float64(cl.Count)*count(l, c, cl))
		}
	}
	return sum
}

// panelFigures works out what a panel carries and, for a sub-panel, its feeder.
func (pl *planner) panelFigures(x inventory.Panel) error {
	out := &pl.plan.Panels[len(pl.plan.Panels)-1]
	w := &steps.Work{}
	all := func(loads.Load, circuits.Circuit, circuits.Load) float64 { return 1 }
	out.ConnectedVA = pl.sumVA(x.Name, all)
	in := pl.below(x.Name)
	for _, c := range pl.plan.Circuits {
		for _, cl := range c.Loads {
			if !in[c.Panel] {
				continue
			}
			if p, ok := cl.Draw.Watts.Get(); ok {
				out.ConnectedWatts += units.Times(p, float64(cl.Count))
			} else {
				out.UnknownWatts = true
			}
		}
	}
	legs, neutral, state := pl.operating(x)
	out.Legs, out.State, out.Imbalance = legs, state, panel.Balance(legs)
	if x.System.Legs > 0 {
		out.Neutral = units.Is(neutral)
	}
	out.Required, out.DemandVA = pl.required(x)
	pl.otherLoad(x, out)
	recordPanel(x, out, pl, w)
	out.Steps = w.Steps()
	if x.FedBy == "" {
		return nil
	}
	return pl.feeder(x, out)
}

// otherLoad adds demand that the file does not list: a stated one as it is, a
// measured peak by the code's route, which puts 25 % on it and then takes only
// new load on top.
func (pl *planner) otherLoad(x inventory.Panel, out *circuits.Panel) {
	perLeg := func(s units.Apparent) units.Current {
		return units.Current(float64(s) / float64(x.System.LineToNeutral) / float64(x.System.Legs))
	}
	add := func(i units.Current, factor float64) {
		for k := range out.Legs {
			out.Legs[k] += i
		}
		out.Required += units.Times(i, factor)
		out.DemandVA += units.Apparent(float64(i) * factor * float64(x.System.LineToNeutral) * float64(x.System.Legs))
	}
	if i, ok := x.OtherLoad.PerLeg.Get(); ok {
		out.OtherLoad = units.Is(i)
	} else if s, ok := x.OtherLoad.Total.Get(); ok {
		out.OtherLoad = units.Is(perLeg(s))
	}
	if i, ok := out.OtherLoad.Get(); ok {
		add(i, 1)
	}
	if m, ok := x.MeasuredPeak.Get(); ok {
		peak := m.Peak
		if s, ok := m.Total.Get(); ok && !peak.Known() {
			peak = units.Is(perLeg(s))
		}
		if i, ok := peak.Get(); ok {
			out.MeasuredPeak = peak
			out.Required += units.Times(i, 1.25)
			out.DemandVA += units.Apparent(float64(i) * 1.25 * float64(x.System.LineToNeutral) * float64(x.System.Legs))
		}
	}
}

func recordPanel(x inventory.Panel, out *circuits.Panel, pl *planner, w *steps.Work) {
	w.Add(steps.Result("connected apparent power", "Σ n · S", out.ConnectedVA, "VA", steps.Cite{}))
	w.Add(steps.Result("demand: continuous load with its allowance, interlocked loads once", "Σ k · n · S", out.DemandVA, "VA",
		pl.p.Continuous.DeviceCite, steps.In("k", pl.p.Continuous.Factor(), "")))
	for i, amps := range out.Legs {
		w.Add(steps.Result("leg "+out.LegNames[i]+", "+out.State, "|Σ I∠φ|", amps, "A", steps.Cite{Ref: "iec60050-131", How: steps.Recalled}))
	}
	if n, ok := out.Neutral.Get(); ok {
		w.Add(steps.Result("neutral, worst state, third harmonic of electronic supplies included", "√(|Σ I∠φ|² + (Σ h · I)²)", n, "A", steps.CommonPractice,
			steps.In("h", thirdHarmonic, "")))
	}
	w.Add(steps.Result("fullest leg with the allowance for continuous load", "max |Σ k · I∠φ|", out.Required, "A", pl.p.Continuous.DeviceCite,
		steps.In("k", pl.p.Continuous.Factor(), "")))
	if s := float64(out.DemandVA); s > 0 {
		balanced := s / float64(x.System.LineToNeutral) / float64(max(1, x.System.Legs))
		w.Add(steps.Result("for comparison: demand shared evenly by the legs", "S / (legs · V to neutral)", math.Abs(balanced), "A", steps.Cite{},
			steps.In("S", out.DemandVA, "VA"), steps.In("V", x.System.LineToNeutral, "V")))
	}
}
