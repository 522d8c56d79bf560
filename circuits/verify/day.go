package verify

import (
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// taken is what some loads of one schedule take of a circuit together; those of
// an interlock stand by themselves.
type taken struct {
	on            *schedule
	group, member string  // of their interlock
	flows         float64 // what flows
	brief, asks   float64 // what they ask of the breaker: at a changeover, and on for as long as they are
}

// circuit walks the day minute by minute, wherever something switches, and compares
// the heaviest moment with what the plan says. At each of them what was on a minute
// before counts too, as a changeover does.
func (v *verifier) circuit(c circuits.Circuit) {
	factor := v.p.Continuous.Factor()
	if c.FullRated {
		factor = 1
	}
	var list []*schedule
	var parts []taken
	for _, l := range c.Loads {
		load, _ := v.set.Named(l.Item)
		each, n := float64(l.Draw.Amps), float64(l.Count)
		x := taken{on: v.hours.named(l.Item), group: load.Interlock, member: load.Member, flows: n * each}
		mca, marked := l.Draw.MinCircuit.Get()
		if marked {
			each = float64(mca)
		}
		x.brief, x.asks = n*each, n*each
		if l.Continuous && !marked {
			x.asks *= factor
			if load.Heater && v.p.Heating.AlwaysSized {
				x.brief = x.asks
			}
		}
		if !slices.Contains(list, x.on) {
			list = append(list, x.on)
		}
		k := slices.IndexFunc(parts, func(y taken) bool { return y.on == x.on && y.group == "" && x.group == "" })
		if k < 0 {
			parts = append(parts, x)
			continue
		}
		parts[k].flows += x.flows
		parts[k].brief += x.brief
		parts[k].asks += x.asks
	}
	heaviest := 0.0
	for m := clock.Minute(0); m < clock.Day; m++ {
		before := (m + clock.Day - 1) % clock.Day
		if m > 0 && !changes(list, before, m) {
			continue
		}
		heaviest = math.Max(heaviest, asked(parts, m, m))
		if switches(list, before, m) {
			heaviest = math.Max(heaviest, asked(parts, before, m))
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

// asked is what the loads that are on at either of two minutes ask of the breaker:
// of each interlock only the member through which the most flows, of two alike the
// first by name.
func asked(parts []taken, before, m clock.Minute) (sum float64) {
	flows := map[[2]string]float64{} // by group and member
	for _, x := range parts {
		if x.group != "" && (x.on.on[before] || x.on.on[m]) {
			flows[[2]string{x.group, x.member}] += x.flows
		}
	}
	for _, x := range parts {
		was, is := x.on.on[before], x.on.on[m]
		held := false
		for other, flow := range flows {
			own := flows[[2]string{x.group, x.member}]
			held = held || x.group == other[0] && (flow > own || flow == own && other[1] < x.member)
		}
		switch {
		case held:
		case was && is:
			sum += x.asks
		case was || is:
			sum += x.brief
		}
	}
	return sum
}
