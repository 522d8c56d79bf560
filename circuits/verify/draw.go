package verify

import (
	"math"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/units"
)

// draws works out what one unit draws from the item itself, where that takes one
// line: power over voltage and power factor, a label at the very voltage, a
// motor's table value or a nameplate. It also walks the day to see whether the
// load counts as continuous.
func (v *verifier) draws(c circuits.Circuit) {
	for _, cl := range c.Loads {
		l, ok := v.set.Named(cl.Item)
		if !ok {
			continue
		}
		if want, ok := v.unit(l, c); ok && !same(units.Current(want), cl.Draw.Amps) {
			v.complain("circuit %s: one %s draws %.6f A by its item, the plan says %.6f A", c.Name, cl.Item, want, float64(cl.Draw.Amps))
		}
		if _, marked := cl.Draw.MinCircuit.Get(); !marked && !cl.Draw.Motor && !l.Continuous.Known() && !l.Heater {
			if on := v.continuous(l, cl.Draw.Amps); on != cl.Continuous {
				v.complain("circuit %s: %s continuous by its hours: %v, the plan says %v", c.Name, cl.Item, on, cl.Continuous)
			}
		} else if !marked && l.Heater && v.p.Heating.AlwaysSized && !cl.Continuous {
			v.complain("circuit %s: %s is space heating and not continuous in the plan", c.Name, cl.Item)
		}
	}
}

func (v *verifier) unit(l loads.Load, c circuits.Circuit) (float64, bool) {
	volts := float64(c.Supply.Volts)
	if c.Supply.Phases == 3 {
		volts *= math.Sqrt(3)
	}
	item := l.Item
	if hp, ok := item.Motor.Get(); ok {
		i, _, ok := v.p.FullLoadCurrent(hp, c.Supply.Volts, c.Supply.Phases)
		return float64(i), ok && !item.Current.Known() && len(item.Currents) == 0
	}
	most, known := 0.0, false
	if s, ok := item.Apparent.Get(); ok {
		most, known = float64(s)/volts, true
	} else if p := math.Max(float64(item.Power.Or(0)), float64(item.Boost.Or(0))); p > 0 {
		most, known = p/(volts*float64(l.PF)), true
	}
	labels := item.Currents
	if len(labels) > 0 || item.Current.Known() {
		exact := false
		for _, k := range labels {
			if k.Voltage == c.Supply.Volts {
				most, exact = math.Max(most, float64(k.Current)), true
			}
		}
		if i, ok := item.Current.Get(); ok && len(l.Voltage.List) == 1 && l.Voltage.List[0] == c.Supply.Volts {
			most, exact = math.Max(most, float64(i)), true
		}
		return most, exact
	}
	if n, ok := item.Nameplate.Get(); ok && !known {
		mca, ok := n.MinCircuit.Get()
		return float64(mca), ok
	}
	return most, known
}

// continuous tells by walking the day: on without a break for the code's time, or
// for more than the code allows within any of its spans.
func (v *verifier) continuous(l loads.Load, amps units.Current) bool {
	if !l.HoursKnown || l.Hours.IsNever() {
		return true
	}
	hours := v.hours.named(l.Name)
	if len(v.p.Continuous.Spans) == 0 {
		return hours.run >= v.p.Continuous.Run
	}
	s, ok := v.p.Continuous.Span(amps)
	return !ok || hours.within(s.Within) > s.Most
}
