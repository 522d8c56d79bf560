package assign

import (
	"fmt"
	"slices"
	"strconv"

	"branchwork/circuits"
	"branchwork/circuits/conductor"
	"branchwork/circuits/panel"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// feedersFrom returns the feeders that a panel's breakers serve.
func (pl *planner) feedersFrom(name string) []*circuits.Feeder {
	var out []*circuits.Feeder
	for i := range pl.plan.Panels {
		if f := pl.plan.Panels[i].Feeder; f != nil && f.From == name {
			out = append(out, f)
		}
	}
	return out
}

// feeder plans the run that feeds a sub-panel: its poles, breaker, conductors
// and, where the systems differ, the transformer between.
func (pl *planner) feeder(x inventory.Panel, out *circuits.Panel) error {
	up, ok := pl.panel(x.FedBy)
	if !ok {
		return fmt.Errorf("no panel %q feeds it", x.FedBy)
	}
	w := &steps.Work{}
	f := &circuits.Feeder{From: up.Name, Panel: x.Name, Existing: len(x.Feeder.Spaces) > 0, Spaces: append([]int{}, x.Feeder.Spaces...),
		Length: x.Feeder.Length, Poles: x.System.Legs, Volts: x.System.Across(), Load: largest(out.Legs), Required: out.Required}
	if x.System.Name != up.System.Name || x.Transformer.Known() {
		pl.transformer(x, up, out, f, w)
	} else {
		f.Breaker = feederBreaker(pl, x, f.Required)
	}
	out.Feeder = f
	if b, ok := f.Breaker.Get(); ok && f.Existing && !x.Feeder.Breaker.Known() {
		pl.assume("panels."+x.Name+".feeder.breaker", b.String(), "not given; the feeder's conductors are worked out behind a breaker of this rating, and nothing is judged by it", steps.CommonPractice)
	}
	return pl.wireFeeder(x, f, w)
}

// feederBreaker is the feeder's device: as given, the sub-panel's main where
// that carries the load, or the next standard rating.
func feederBreaker(pl *planner, x inventory.Panel, need units.Current) units.Known[units.Current] {
	if b, ok := x.Feeder.Breaker.Get(); ok {
		return units.Is(b)
	}
	if m, ok := x.Main.Get(); ok && !units.Exceeds(need, m) {
		return units.Is(m)
	}
	if b, ok := pl.p.Devices.Next(need); ok {
		return units.Is(b)
	}
	return units.Unknown[units.Current]("no standard rating carries " + need.String())
}

// transformer sizes the transformer before a sub-panel of another system: as
// given, or the next rating made that carries the demand.
func (pl *planner) transformer(x, up inventory.Panel, out *circuits.Panel, f *circuits.Feeder, w *steps.Work) {
	t := &circuits.Transformer{Phases: 1, Primary: up.System.Across(), Secondary: x.System.Across()}
	f.Poles = min(2, up.System.Legs)
	if x.System.Legs == 3 { // then the feeding panel has three phases too: the reader asks for it
		t.Phases, f.Poles = 3, 3
	}
	f.Volts = t.Primary
	rating, given := x.Transformer.Get()
	full := units.Times(units.VA(x.System.LineToNeutral, max(out.Required, largest(out.Legs))), float64(x.System.Legs))
	if !given {
		next, cite, ok := pl.p.Transformers.Next(full, t.Phases)
		if ok {
			rating = next
			pl.assume("panels."+x.Name+".transformer", units.Round(float64(next)/1000, 1)+" kVA",
				"not given; the next rating made that carries the panel's fullest leg on every leg", cite)
		}
	}
	t.Rating, t.Given = rating, given
	f.Transformer = t
	amps, err := loads.ApparentCurrent(rating, f.Volts, t.Phases)
	if err != nil || rating == 0 {
		f.Breaker = units.Unknown[units.Current]("no transformer of the ratings made carries " + full.String())
		return
	}
	load, _ := loads.ApparentCurrent(units.Times(units.VA(x.System.LineToNeutral, largest(out.Legs)), float64(x.System.Legs)), f.Volts, t.Phases)
	need, _ := loads.ApparentCurrent(full, f.Volts, t.Phases)
	f.Load, f.Required = load, max(need, amps)
	formula := "S / V"
	if t.Phases == 3 {
		formula = "S / (√3 · V)"
	}
	w.Add(steps.Result("rated primary current of the transformer", formula, amps, "A", steps.Cite{}, steps.In("S", rating, "VA"), steps.In("V", f.Volts, "V")))
	if b, ok := x.Feeder.Breaker.Get(); ok {
		f.Breaker = units.Is(b)
		return
	}
	b, ok := pl.p.Devices.Next(units.Times(amps, float64(pl.p.Transformers.Primary)))
	if !ok {
		f.Breaker = units.Unknown[units.Current]("no standard rating")
		return
	}
	least := units.Times(amps, float64(pl.p.Transformers.Primary))
	w.Add(steps.Result("rated primary current with the allowance for its device", "k · I", least, "A", pl.p.Transformers.PrimaryCite,
		steps.In("k", pl.p.Transformers.Primary, ""), steps.In("I", amps, "A")))
	w.Add(steps.Choice("primary device", b.String(), "the next standard rating", pl.p.Transformers.PrimaryCite, steps.In("I", least, "A")))
	f.Breaker = units.Is(b)
}

// wireFeeder chooses the feeder's conductors, or works out those given.
func (pl *planner) wireFeeder(x inventory.Panel, f *circuits.Feeder, w *steps.Work) error {
	device, ok := f.Breaker.Get()
	if !ok {
		return nil
	}
	site := pl.inv.Site.Conductors
	r := conductor.Request{Feeder: true, Other: f.Load, Least: f.Required, Device: device, RoundUp: true, SmallLimits: true,
		Material: site.Material.Or(pl.p.Wires.Material), Insulation: site.Insulation.Or(pl.p.Wires.Insulation), Raceway: site.Raceway.Or(pl.p.Wires.Raceway),
		Ambient: site.Ambient.Or(pl.p.Wires.Base), Terminals: site.Terminals, Carrying: f.Poles, Volts: f.Volts, Phases: 1,
		Neutral: f.Transformer == nil, DropLimit: pl.p.Drop.Branch, Cite: pl.p.Feeders.WireCite}
	if f.Poles == 3 {
		r.Phases = 3
	}
	runs := pl.feederRuns(x, f)
	r.Run, r.Also = runs[0], runs[1:]
	f.Neutral = pl.feederNeutral(x, f)
	if f.Neutral.Counted {
		r.Carrying++
	}
	f.Carrying, f.Ambient = r.Carrying, r.Ambient
	recordNeutral(f.Neutral, f.Carrying, w)
	given, inWall := x.Feeder.Conductor.Get()
	unknown := ""
	if !pl.knownWire(given) {
		unknown = "the material of the feeder's conductors is not given"
	}
	choice, why, err := pl.chooseOr(given, inWall, unknown, r, &f.Conductor, &f.Drop, w)
	switch {
	case err != nil:
		return fmt.Errorf("feeder: %w", err)
	case why == "":
		take(choice, &f.Conductor, &f.Ground)
		f.Drop = choice.Drop
		f.Enough = pl.enough(r, choice, inWall && x.Feeder.Breaker.Known())
		pl.uncounted(f.Poles, &f.Neutral, choice, w)
	}
	run := conductor.HomeRun(choice, f.Poles, f.Neutral.Runs)
	f.Raceway = pl.raceway(inventory.Raceway{}, r.Raceway, run, why, 1, w)
	f.Steps = w.Steps()
	return nil
}

// enough is the smallest conductor that carries what a feeder in the wall carries,
// behind its breaker, and keeps the limit of voltage drop; empty where the present
// one does, where the breaker is not known, or where none is in the tables.
func (pl *planner) enough(r conductor.Request, has conductor.Choice, known bool) string {
	if drop, ok := has.Drop.Get(); !ok || !known || !units.Exceeds(drop, r.DropLimit) {
		return ""
	}
	r.Material, r.Insulation = has.Material, has.Insulation
	next, err := conductor.Select(r, pl.p, nil)
	switch {
	case err != nil || next.DropOver:
		return ""
	case next.Sets > 1:
		return strconv.Itoa(next.Sets) + " sets of " + next.Size
	}
	return next.Size
}

// feederRuns returns the feeder as a run with one load at its end, for each pair
// of conductors that the panel's circuits are connected to: leg and neutral, or
// two legs. A feeder before a transformer is balanced. What electronic supplies
// draw is of constant power, as on a circuit.
func (pl *planner) feederRuns(x inventory.Panel, f *circuits.Feeder) []conductor.Run {
	electronic := pl.electronic(x.Name, func(circuits.Circuit) bool { return true })
	length := f.Length
	if !length.Known() {
		length = units.Unknown[units.Length]("the feeder's length is not given")
	}
	run := func(between string, s units.Apparent, pf units.Ratio) conductor.Run {
		r := conductor.Run{Between: between, ToFirst: length, Spacing: units.Is(units.Length(0))}
		for _, tap := range []conductor.Tap{{VA: units.Times(s, electronic), PF: pf, ConstantPower: true}, {VA: units.Times(s, 1-electronic), PF: pf}} {
			if tap.VA > 0 || electronic == 0 && !tap.ConstantPower {
				r.Loads = append(r.Loads, tap)
			}
		}
		return r
	}
	balanced := units.VA(f.Volts, f.Load)
	if f.Poles == 3 {
		balanced = loads.ApparentPower(f.Load, f.Volts, 3)
	}
	var out []conductor.Run
	for _, pull := range pl.pulls[x.Name] {
		if f.Transformer != nil {
			out = append(out, run("", balanced, pull.PF))
			continue
		}
		// of the feeder's own voltage and phases: as large a share of the voltage
		s := units.Times(units.VA(f.Volts, pull.Amps), units.Per(f.Volts, pull.Volts))
		if f.Poles < 3 {
			s /= 2
		}
		out = append(out, run(pull.Between, s, pull.PF))
	}
	if len(out) == 0 {
		out = append(out, run("", balanced, 1))
	}
	return out
}

// electronic is the share of a panel's volt-amperes that electronic supplies draw, of
// the circuits asked for.
func (pl *planner) electronic(name string, of func(circuits.Circuit) bool) float64 {
	in := pl.below(name)
	var all, electronic units.Apparent
	for _, c := range pl.plan.Circuits {
		if !in[c.Panel] || !of(c) {
			continue
		}
		for _, cl := range c.Loads {
			s := units.Times(cl.Draw.VA, float64(cl.Count))
			all += s
			if l, _ := pl.set.Named(cl.Item); l.NonLinear {
				electronic += s
			}
		}
	}
	if all == 0 {
		return 0
	}
	return units.Per(electronic, all)
}

// feederNeutral tells whether the neutral of a feeder counts among the
// conductors that carry current. None runs before a transformer.
func (pl *planner) feederNeutral(x inventory.Panel, f *circuits.Feeder) circuits.Neutral {
	if f.Transformer != nil {
		return circuits.Neutral{}
	}
	how := opposite // what is left over, on a high-leg system too
	switch x.System.Form {
	case inventory.TwoWire:
		how = alone
	case inventory.Wye:
		how = allThree
	}
	n := circuits.Neutral{Runs: true, Cite: pl.p.Wires.NeutralCite}
	n.Counted, n.Why = counts(how, pl.electronic(x.Name, func(c circuits.Circuit) bool { return c.Supply.Neutral }) > 0.5)
	return n
}

// pulling notes what pulls the voltage down at the end of a panel's feeder in one
// state: the most for each pair of conductors and each power factor, since on large
// conductors less current may drop more. What the file states beside its loads is
// included, a measured peak as it was measured, on top of the listed loads that may
// be in it; where the code has no rule for a measured peak it is not used.
func (pl *planner) pulling(x inventory.Panel, hang []branch) {
	if x.FedBy == "" {
		return
	}
	all := append(bare(hang), bare(stated(x, min(1, float64(pl.p.Service.PeakFactor))))...)
	list := pl.pulls[x.Name]
	for _, pull := range panel.Pulls(x.System, all) {
		k := slices.IndexFunc(list, func(p panel.Pull) bool { return p.Between == pull.Between && p.PF == pull.PF })
		switch {
		case k < 0:
			list = append(list, pull)
		case pull.Amps > list[k].Amps:
			list[k] = pull
		}
	}
	pl.pulls[x.Name] = list
}
