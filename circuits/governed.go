package circuits

import (
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Governor is what sets the conductors and the device of a circuit.
type Governor int

const (
	ByLoad      Governor = iota // what it carries
	ByNameplate                 // the circuit marked on the one piece of equipment that it feeds
	ByMotor                     // the one motor that it feeds, wired in place
)

// Governed tells what sets the conductors and the device of a circuit.
func (c *Circuit) Governed() Governor {
	if !c.Individual || len(c.Loads) != 1 {
		return ByLoad
	}
	switch d := c.Loads[0].Draw; {
	case d.MinCircuit.Known():
		return ByNameplate
	case d.Motor && c.Wired:
		return ByMotor
	}
	return ByLoad
}

// recordDevice writes down the largest device that a motor may stand behind.
func (c *Circuit) recordDevice(p *codes.Profile, w *steps.Work) {
	if c.Governed() != ByMotor || !p.Motors.HoldsDevice() || c.Loads[0].Draw.MaxDevice.Known() {
		return
	}
	flc := c.Loads[0].Draw.Amps
	most := units.Times(flc, float64(p.Motors.Breaker))
	w.Add(steps.Result("largest short-circuit and ground-fault device, inverse-time breaker", "k · I", most, "A", p.Motors.BreakerCite,
		steps.In("k", p.Motors.Breaker, ""), steps.In("I", flc, "A")))
	if next, ok := p.Devices.Next(most); ok {
		w.Add(steps.Choice("the same as a standard rating", next.String(), "the next one up is allowed; the motor's overload device protects motor and conductor from overload",
			p.Devices.RatingsCite, steps.In("I", most, "A")))
	}
}

// leastCite is where the least rating of a circuit's device stands. Of a motor or
// of marked equipment no code gives one: it is kept from tripping under its load.
func (c *Circuit) leastCite(p *codes.Profile) steps.Cite {
	switch governed := c.Governed(); {
	case governed == ByNameplate, governed == ByMotor && p.Motors.Held():
		return steps.CommonPractice
	case c.FullRated:
		return p.Continuous.FullRatedCite
	}
	return p.Continuous.DeviceCite
}

// counted says how a load counts on its circuit.
func (l Load) counted() string {
	switch {
	case l.Draw.MinCircuit.Known():
		return "by its nameplate"
	case l.Draw.Motor && l.Continuous:
		return "motor"
	case l.Continuous:
		return "continuous"
	}
	return "not continuous"
}
