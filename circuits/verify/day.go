package verify

import (
	"math"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// circuit walks the day minute by minute and compares the heaviest moment with
// what the plan says. At each minute what was on a minute before counts too, as
// a changeover does.
func (v *verifier) circuit(c circuits.Circuit) {
	list := make([]loads.Load, len(c.Loads))
	for i, l := range c.Loads {
		list[i], _ = v.set.Named(l.Item)
		if list[i].Interlock != "" {
			return // interlocked loads are judged as groups; see the panel's own road
		}
	}
	factor := v.p.Continuous.Factor()
	if c.FullRated {
		factor = 1
	}
	heaviest := 0.0
	for m := clock.Minute(0); m < clock.Day; m++ {
		before := (m + clock.Day - 1) % clock.Day
		now, overlap := 0.0, 0.0
		for i, l := range c.Loads {
			was, is := isOn(list[i], before), isOn(list[i], m)
			amps := float64(l.Count) * float64(l.Draw.Amps)
			full := amps
			if mca, ok := l.Draw.MinCircuit.Get(); ok {
				amps = float64(l.Count) * float64(mca)
				full = amps
			} else if l.Continuous {
				full = amps * factor
			}
			if is {
				now += full
			}
			switch {
			case was && is:
				overlap += full
			case was || is:
				overlap += amps
			}
		}
		heaviest = math.Max(heaviest, now)
		if v.switches(list, before, m) {
			heaviest = math.Max(heaviest, overlap)
		}
	}
	if m, ok := c.Measured.Get(); ok {
		// What a meter showed and no load explains is there all day.
		if predicted, ok := c.Predicted.Get(); ok && m > predicted {
			heaviest += float64(m-predicted) * factor
		}
	}
	if !same(units.Current(heaviest), c.Required) {
		v.complain("circuit %s: the day asks for %.6f A, the plan says %.6f A", c.Name, heaviest, float64(c.Required))
	}
}

func isOn(l loads.Load, m clock.Minute) bool {
	return !l.HoursKnown || l.Hours.IsNever() || l.Hours.Contains(m)
}

// switches reports whether something goes off and something else comes on.
func (v *verifier) switches(list []loads.Load, before, m clock.Minute) bool {
	off, on := false, false
	for _, l := range list {
		was, is := isOn(l, before), isOn(l, m)
		off = off || was && !is
		on = on || is && !was
	}
	return off && on
}

// samples of one cycle; the sum of sines of one frequency has an exact
// root-mean-square value on any number of equal steps above two.
const samples = 360

// panels adds up the waveforms of all branch currents on each leg with the
// allowance for continuous load, everything on, and compares the fullest leg
// with the plan's figure. Panels with a transformer or interlocked loads below
// them are left to their own checks.
func (v *verifier) panels() {
	for _, x := range v.plan.Panels {
		if x.MeasuredPeak.Known() || !v.plain(x.Name) {
			continue
		}
		sums := make([][samples]float64, x.System.Legs)
		v.addWaves(x.Name, sums)
		most := 0.0
		for _, w := range sums {
			square := 0.0
			for _, i := range w {
				square += i * i
			}
			most = math.Max(most, math.Sqrt(square/samples))
		}
		most += float64(x.OtherLoad.Or(0))
		if !same(units.Current(most), x.Required) {
			v.complain("panel %s: waveforms ask for %.6f A on the fullest leg, the plan says %.6f A", x.Name, most, float64(x.Required))
		}
	}
}

// plain reports whether a panel and all below it have one system and no
// interlocks.
func (v *verifier) plain(name string) bool {
	for _, c := range v.plan.Circuits {
		for _, l := range c.Loads {
			if load, _ := v.set.Named(l.Item); c.Panel == name && load.Interlock != "" {
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
func (v *verifier) addWaves(name string, sums [][samples]float64) {
	sys := v.system(name)
	for _, c := range v.plan.Circuits {
		if c.Panel != name || len(c.Legs) == 0 {
			continue
		}
		for _, l := range c.Loads {
			k := 1.0
			if mca, ok := l.Draw.MinCircuit.Get(); ok {
				k = float64(mca) / float64(l.Draw.Amps)
			} else if l.Continuous {
				k = v.p.Continuous.Factor()
			}
			peak := math.Sqrt2 * k * float64(l.Count) * float64(l.Draw.Amps)
			lag := math.Acos(float64(l.Draw.PF))
			for n := range samples {
				wt := 2 * math.Pi * float64(n) / samples
				switch {
				case c.Supply.Phases == 3:
					for _, leg := range c.Legs {
						sums[leg][n] += peak * math.Cos(wt+legAngle(sys, leg, true)-lag)
					}
				case c.Supply.Neutral:
					sums[c.Legs[0]][n] += peak * math.Cos(wt+legAngle(sys, c.Legs[0], false)-lag)
				default:
					i := peak * math.Cos(wt+between(sys, c.Legs[0], c.Legs[1])-lag)
					sums[c.Legs[0]][n] += i
					sums[c.Legs[1]][n] -= i
				}
			}
		}
	}
	for _, x := range v.plan.Panels {
		if f := x.Feeder; f != nil && f.From == name && f.Transformer == nil {
			v.addWaves(x.Name, sums)
		}
	}
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
