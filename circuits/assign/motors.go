package assign

import (
	"slices"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// motor is the largest motor on a panel: a circuit and an item on it.
type motor struct {
	circuit, item string
}

// factor is the allowance of a motor load: of several motors the largest counts
// with it, one unit of it, and the others as they are.
func (m motor) factor(c *circuits.Circuit, cl *circuits.Load, allowance float64) float64 {
	if c.Name != m.circuit || cl.Item != m.item {
		return 1
	}
	return 1 + (allowance-1)/float64(cl.Count)
}

// largestMotors finds, for each leg of a panel, the motor of the most full-load
// current on that leg, below the panel too: a leg's conductor carries its own
// motors, and one of them starts. Each motor is listed once; without any there
// is one that is none.
func (pl *planner) largestMotors(x inventory.Panel, counts func(*loads.Load, *circuits.Circuit) bool) []motor {
	direct, through := pl.plan.FedFrom(x.Name), pl.below(x.Name)
	var out []motor
	for leg := range x.System.Legs {
		var most units.Current
		var big motor
		for i := range pl.plan.Circuits {
			c := &pl.plan.Circuits[i]
			if !through[c.Panel] || direct[c.Panel] && !slices.Contains(c.Legs, leg) {
				continue
			}
			for i := range c.Loads {
				cl, m := &c.Loads[i], motor{c.Name, c.Loads[i].Item}
				if !cl.Draw.Motor || cl.Draw.MinCircuit.Known() || cl.Draw.Amps < most || cl.Draw.Amps == most && !m.before(big) {
					continue
				}
				if counts(pl.load(cl.Item), c) {
					most, big = cl.Draw.Amps, m
				}
			}
		}
		if !slices.Contains(out, big) {
			out = append(out, big)
		}
	}
	return out
}

// before orders motors of equal current, so that the order of the plan's
// circuits decides nothing.
func (m motor) before(o motor) bool {
	return m.circuit < o.circuit || m.circuit == o.circuit && m.item < o.item
}
