package assign

import (
	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/units"
)

// motor is the largest motor on a panel: a circuit and an item on it.
type motor struct {
	circuit, item string
}

// factor is the allowance of a motor load: of several motors the largest counts
// with it, one unit of it, and the others as they are.
func (m motor) factor(c circuits.Circuit, cl circuits.Load, allowance float64) float64 {
	if c.Name != m.circuit || cl.Item != m.item {
		return 1
	}
	return 1 + (allowance-1)/float64(cl.Count)
}

// largestMotor finds the motor of the most full-load current on and below a
// panel; of equal ones the first in the directory.
func (pl *planner) largestMotor(name string, counts func(loads.Load, circuits.Circuit) bool) motor {
	in := pl.below(name)
	var most units.Current
	var out motor
	for _, c := range pl.plan.Circuits {
		if !in[c.Panel] {
			continue
		}
		for i := range c.Loads {
			cl := &c.Loads[i]
			if !cl.Draw.Motor || cl.Draw.MinCircuit.Known() || cl.Draw.Amps <= most {
				continue
			}
			if l, _ := pl.set.Named(cl.Item); counts(l, c) {
				most, out = cl.Draw.Amps, motor{c.Name, cl.Item}
			}
		}
	}
	return out
}
