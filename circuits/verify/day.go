package verify

import (
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// circuit walks the day minute by minute and compares the heaviest moment with
// what the plan says. At each minute what was on a minute before counts too, as
// a changeover does.
func (v *verifier) circuit(c circuits.Circuit) {
	factor := v.p.Continuous.Factor()
	if c.FullRated {
		factor = 1
	}
	// What the loads of one schedule take together, by schedule.
	var list []*schedule
	var amps, full []float64
	for _, l := range c.Loads {
		if load, _ := v.set.Named(l.Item); load.Interlock != "" {
			return // interlocked loads are judged as groups; see the panel's own road
		}
		s := v.hours.named(l.Item)
		k := slices.Index(list, s)
		if k < 0 {
			k = len(list)
			list, amps, full = append(list, s), append(amps, 0), append(full, 0)
		}
		each := float64(l.Draw.Amps)
		if mca, ok := l.Draw.MinCircuit.Get(); ok {
			each = float64(mca)
		}
		amps[k] += float64(l.Count) * each
		if l.Continuous && !l.Draw.MinCircuit.Known() {
			each *= factor
		}
		full[k] += float64(l.Count) * each
	}
	heaviest := 0.0
	for m := clock.Minute(0); m < clock.Day; m++ {
		before := (m + clock.Day - 1) % clock.Day
		now, overlap := 0.0, 0.0
		for k, s := range list {
			was, is := s.on[before], s.on[m]
			if is {
				now += full[k]
			}
			switch {
			case was && is:
				overlap += full[k]
			case was || is:
				overlap += amps[k]
			}
		}
		heaviest = math.Max(heaviest, now)
		if switches(list, before, m) {
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
