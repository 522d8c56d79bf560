package assign

import (
	"slices"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// dayOf lists the states of the day that last, with what each breaker of a panel
// carries in them and what its sub-panels pass on, leg by leg. Of interlocked
// loads each member is a state of its own. The names of the states come beside.
//
// Breakers of sub-panels that pass each leg on to the leg of its name carry
// nothing of their own here: where they sit does not matter to the legs.
func (pl *planner) dayOf(x inventory.Panel, own []*circuits.Circuit, feeders []*circuits.Feeder, wants []panel.Want) (panel.Day, []string) {
	list := pl.within(x.Name)
	day := panel.Day{Base: make([]int64, x.System.Legs)}
	pl.passOn(feeders, day.Base, everyLoad, func(i int, amps int64) { wants[len(own)+i].Amps = amps })
	var names []string
	for _, s := range loads.States(list) {
		if s.Changeover {
			continue
		}
		on, lit := pl.on(list, s)
		lights := slices.ContainsFunc(lit, func(l loads.Load) bool { return l.Category == loads.Lighting })
		for _, k := range cases(lit) {
			count := func(l *loads.Load, _ *circuits.Circuit, _ *circuits.Load) float64 {
				if on(l) && runs(k, l) {
					return 1
				}
				return 0
			}
			m := panel.Moment{Lit: lights, Base: make([]int64, x.System.Legs)}
			for i, c := range own {
				wants[i].At = append(wants[i].At, steps10mA(pl.carried(c, count)))
			}
			for i := range feeders {
				wants[len(own)+i].At = append(wants[len(own)+i].At, 0)
			}
			pl.passOn(feeders, m.Base, count, func(i int, amps int64) { wants[len(own)+i].At[len(names)] = amps })
			day.Moments = append(day.Moments, m)
			names = append(names, s.Name)
		}
	}
	return day, names
}

func everyLoad(*loads.Load, *circuits.Circuit, *circuits.Load) float64 { return 1 }

// carried is what a circuit carries per pole in a state, with what a meter showed
// and no load explains.
func (pl *planner) carried(c *circuits.Circuit, count counting) (sum units.Current) {
	any := false
	for i := range c.Loads {
		cl := &c.Loads[i]
		if count(pl.load(cl.Item), c, cl) > 0 {
			sum += cl.Amps()
			any = true
		}
	}
	if any {
		sum += c.Excess()
	}
	return sum
}

// passOn adds to the legs what sub-panels put on them, and tells what the breaker
// of a sub-panel behind a transformer, one branch there, carries on each pole.
func (pl *planner) passOn(feeders []*circuits.Feeder, legs []int64, count counting, set func(i int, amps int64)) {
	for i, f := range feeders {
		set(i, 0)
		passed := make([]units.Current, len(legs)) // rounded once, not load by load
		for _, b := range pl.throughFeeder(f, count) {
			if f.Transformer != nil {
				set(i, steps10mA(b.Amps))
				continue
			}
			for _, leg := range b.Legs {
				passed[leg] += b.Amps
			}
		}
		for leg, amps := range passed {
			legs[leg] += steps10mA(amps)
		}
	}
}

func balanceOf(l panel.Layout, states []string) circuits.LegBalance {
	b := circuits.LegBalance{Worst: l.Worst, Even: l.Even, Bound: l.Bound, Proved: l.Proved, Why: l.Why,
		Lit: l.Lit, LitEven: l.LitEven, LitBound: l.LitBound}
	if l.At < len(states) {
		b.State = states[l.At]
	}
	return b
}
