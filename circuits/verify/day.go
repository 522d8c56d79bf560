package verify

import (
	"math"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/clock"
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
