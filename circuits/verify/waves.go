package verify

import (
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// samples of one cycle; the sum of sines of one frequency has an exact
// root-mean-square value on any number of equal steps above two.
const samples = 360

// wave is one cycle of a current.
type wave [samples]float64

// panels adds up the waveforms of all branch currents on each leg and compares
// the fullest leg with the plan's figures: once with everything on and the
// allowance for continuous load, once through the day minute by minute. Panels
// with a transformer or interlocked loads below them are left to their own
// checks.
func (v *verifier) panels() {
	for _, x := range v.plan.Panels {
		v.sums(x)
		if x.MeasuredPeak.Known() || !v.plain(x.Name) {
			continue
		}
		other := float64(x.OtherLoad.Or(0))
		asked := 0.0
		for leg := range x.System.Legs {
			asked = math.Max(asked, v.fullest(x, v.allowance(x.Name, leg)))
		}
		if most := asked + other; !same(units.Current(most), x.Required) {
			v.complain("panel %s: waveforms ask for %.6f A on the fullest leg, the plan says %.6f A", x.Name, most, float64(x.Required))
		}
		most := 0.0
		for _, on := range v.moments(x.Name) {
			most = math.Max(most, v.fullest(x, func(_ circuits.Circuit, l circuits.Load) float64 {
				if on[v.hours[l.Item]] {
					return 1
				}
				return 0
			}))
		}
		says := 0.0
		for _, i := range x.Legs {
			says = math.Max(says, float64(i))
		}
		if !same(units.Current(most+other), units.Current(says)) {
			v.complain("panel %s: the day's waveforms reach %.6f A on the fullest leg, the plan says %.6f A", x.Name, most+other, says)
		}
	}
}

// sums adds up a panel's volt-amperes circuit by circuit.
func (v *verifier) sums(x circuits.Panel) {
	var connected float64
	for _, c := range v.plan.Circuits {
		if !v.under(c.Panel, x.Name) {
			continue
		}
		for _, l := range c.Loads {
			s := float64(l.Count) * float64(l.Draw.Amps) * float64(c.Supply.Volts)
			if c.Supply.Phases == 3 {
				s *= math.Sqrt(3)
			}
			connected += s
		}
	}
	if !same(units.Apparent(connected), x.ConnectedVA) {
		v.complain("panel %s: %.3f VA connected, the plan says %.3f VA", x.Name, connected, float64(x.ConnectedVA))
	}
	if have, ok := x.Spaces.Get(); ok && x.Spare != max(0, have-x.SpacesUsed-x.OtherSpaces.Or(0)) {
		v.complain("panel %s: %d spaces used and %d left of %d", x.Name, x.SpacesUsed, x.Spare, have)
	}
}

// under reports whether a panel is another or hangs below it.
func (v *verifier) under(name, top string) bool {
	if v.above == nil {
		v.above = map[string]map[string]bool{}
		fedBy := map[string]string{}
		for _, x := range v.inv.Panels {
			fedBy[x.Name] = x.FedBy
		}
		for _, x := range v.inv.Panels {
			list := map[string]bool{}
			for up := x.Name; up != "" && !list[up]; up = fedBy[up] {
				list[up] = true
			}
			v.above[x.Name] = list
		}
	}
	return v.above[name][top]
}

// allowance is what each load counts with towards a leg of a panel: nameplates
// hold theirs, of the motors on the leg one unit of the largest has it, continuous
// loads have it.
func (v *verifier) allowance(panel string, leg int) func(circuits.Circuit, circuits.Load) float64 {
	var biggest circuits.Load
	var at string
	for i := range v.plan.Circuits {
		c := &v.plan.Circuits[i]
		if !v.under(c.Panel, panel) || !slices.Contains(c.Legs, leg) {
			continue
		}
		for _, l := range c.Loads {
			if !l.Draw.Motor || l.Draw.MinCircuit.Known() {
				continue
			}
			first := c.Name < at || c.Name == at && l.Item < biggest.Item
			if l.Draw.Amps > biggest.Draw.Amps || l.Draw.Amps == biggest.Draw.Amps && first {
				biggest, at = l, c.Name
			}
		}
	}
	return func(c circuits.Circuit, l circuits.Load) float64 {
		switch mca, marked := l.Draw.MinCircuit.Get(); {
		case marked:
			return float64(mca) / float64(l.Draw.Amps)
		case l.Draw.Motor && c.Name == at && l.Item == biggest.Item:
			return (float64(l.Count) - 1 + v.p.Motors.Allowance(v.p.Continuous.Factor())) / float64(l.Count)
		case l.Draw.Motor || !l.Continuous:
			return 1
		}
		return v.p.Continuous.Factor()
	}
}

// moments lists which schedules are on at every minute at which something
// switches, and together with what was on a minute before.
func (v *verifier) moments(panel string) []map[*schedule]bool {
	list, at := v.switching(panel)
	var out []map[*schedule]bool
	for _, m := range at {
		before := (m + clock.Day - 1) % clock.Day
		now, both := map[*schedule]bool{}, map[*schedule]bool{}
		for _, s := range list {
			now[s] = s.on[m]
			both[s] = s.on[m] || s.on[before]
		}
		out = append(out, now)
		if switches(list, before, m) {
			out = append(out, both)
		}
	}
	return out
}

// switching lists the schedules on and below a panel, and the minutes of the day at
// which one of them switches, the first minute among them.
func (v *verifier) switching(panel string) (list []*schedule, at []clock.Minute) {
	seen := map[*schedule]bool{}
	for _, c := range v.plan.Circuits {
		if !v.under(c.Panel, panel) {
			continue
		}
		for _, l := range c.Loads {
			if s := v.hours[l.Item]; s != nil && !seen[s] {
				seen[s] = true
				list = append(list, s)
			}
		}
	}
	for m := range clock.Day {
		before := (m + clock.Day - 1) % clock.Day
		if m == 0 || changes(list, before, m) {
			at = append(at, m)
		}
	}
	return list, at
}

// fullest is the root-mean-square current of the fullest leg.
func (v *verifier) fullest(x circuits.Panel, counts func(circuits.Circuit, circuits.Load) float64) float64 {
	sums := make([]wave, x.System.Legs)
	v.addWaves(x.Name, sums, counts)
	most := 0.0
	for _, w := range sums {
		square := 0.0
		for _, i := range w {
			square += i * i
		}
		most = math.Max(most, math.Sqrt(square/samples))
	}
	return most
}

// plain reports whether a panel and all below it have one system and no
// interlocks.
func (v *verifier) plain(name string) bool {
	for _, c := range v.plan.Circuits {
		if c.Panel != name {
			continue
		}
		for _, l := range c.Loads {
			if load, _ := v.set.Named(l.Item); load.Interlock != "" {
				return false
			}
		}
	}
	for _, x := range v.plan.Panels {
		if f := x.Feeder; f != nil && f.From == name && (f.Transformer != nil || !v.plain(x.Name)) {
			return false
		}
	}
	return true
}

// addWaves adds the currents of a panel's circuits, and of the panels it feeds,
// to its legs: a sub-panel's legs are its feeder's by name.
func (v *verifier) addWaves(name string, sums []wave, counts func(circuits.Circuit, circuits.Load) float64) {
	sys := v.system(name)
	for _, c := range v.plan.Circuits {
		if c.Panel != name || len(c.Legs) != c.Supply.Poles {
			continue
		}
		// Currents that lag alike are one wave.
		most, amps := 0.0, map[units.Ratio]float64{}
		for _, l := range c.Loads {
			k := counts(c, l)
			most = math.Max(most, k)
			amps[l.Draw.PF] += k * float64(l.Count) * float64(l.Draw.Amps)
		}
		for pf, i := range amps {
			v.addWave(sums, sys, c, i, float64(pf))
		}
		if m, ok := c.Measured.Get(); ok && m > c.Predicted.Or(m) {
			v.addWave(sums, sys, c, most*float64(m-c.Predicted.Or(m)), 1)
		}
	}
	for _, x := range v.plan.Panels {
		if f := x.Feeder; f != nil && f.From == name && f.Transformer == nil {
			v.addWaves(x.Name, sums, counts)
			v.addUnlisted(x, sums)
		}
	}
}

// addUnlisted adds what a sub-panel carries that the file does not list.
func (v *verifier) addUnlisted(x circuits.Panel, sums []wave) {
	amps := float64(x.OtherLoad.Or(0)) + float64(x.MeasuredPeak.Or(0))*float64(v.p.Service.PeakFactor)
	for leg := range x.System.Legs {
		c := circuits.Circuit{Legs: []int{leg}, Supply: inventory.Supply{Phases: 1, Poles: 1, Neutral: true}}
		v.addWave(sums, v.system(x.Name), c, amps, 1)
	}
}

// addWave adds one current, lagging its own voltage by the angle of its power
// factor, to the legs of its circuit.
func (v *verifier) addWave(sums []wave, sys inventory.System, c circuits.Circuit, amps, pf float64) {
	peak, lag := math.Sqrt2*amps, math.Acos(pf)
	add := func(leg int, peak, angle float64) {
		for n, i := range v.cosine(angle - lag) {
			sums[leg][n] += peak * i
		}
	}
	switch {
	case c.Supply.Phases == 3:
		for _, leg := range c.Legs {
			add(leg, peak, legAngle(sys, leg, true))
		}
	case c.Supply.Neutral:
		add(c.Legs[0], peak, legAngle(sys, c.Legs[0], false))
	default:
		angle := between(sys, c.Legs[0], c.Legs[1])
		add(c.Legs[0], peak, angle)
		add(c.Legs[1], -peak, angle)
	}
}

// cosine is one cycle that leads by an angle; each is worked out once.
func (v *verifier) cosine(angle float64) *wave {
	if v.cosines == nil {
		v.cosines = map[float64]*wave{}
	}
	w := v.cosines[angle]
	if w == nil {
		w = &wave{}
		for n := range w {
			w[n] = math.Cos(2*math.Pi*float64(n)/samples + angle)
		}
		v.cosines[angle] = w
	}
	return w
}

// vector is a leg's voltage in the plane, in units of the line-to-line voltage.
func vector(sys inventory.System, leg int) (x, y float64) {
	switch sys.Form {
	case inventory.SplitPhase:
		return []float64{0.5, -0.5}[leg], 0
	case inventory.HighLeg:
		return []float64{0.5, 0, -0.5}[leg], []float64{0, -math.Sqrt(3) / 2, 0}[leg]
	case inventory.Wye:
		angle := -2 * math.Pi / 3 * float64(leg)
		return math.Cos(angle) / math.Sqrt(3), math.Sin(angle) / math.Sqrt(3)
	}
	return 1, 0
}

// legAngle is the angle of a leg's voltage to neutral or, for a balanced
// three-phase load, to the middle of the triangle.
func legAngle(sys inventory.System, leg int, middle bool) float64 {
	x, y := vector(sys, leg)
	if middle {
		for k := range sys.Legs {
			vx, vy := vector(sys, k)
			x, y = x-vx/float64(sys.Legs), y-vy/float64(sys.Legs)
		}
	}
	return math.Atan2(y, x)
}

func between(sys inventory.System, a, b int) float64 {
	ax, ay := vector(sys, a)
	bx, by := vector(sys, b)
	return math.Atan2(ay-by, ax-bx)
}
