package inventory

import "branchwork/loads/units"

// StatedLoad is a panel's other load per leg, zero where none is stated.
func (x Panel) StatedLoad() units.Current {
	if i, ok := x.OtherLoad.PerLeg.Get(); ok {
		return i
	}
	return x.perLeg(x.OtherLoad.Total.Or(0))
}

// StatedPeak is a panel's measured peak per leg, zero where none is stated.
func (x Panel) StatedPeak() units.Current {
	m, ok := x.MeasuredPeak.Get()
	if !ok {
		return 0
	}
	if i, ok := m.Peak.Get(); ok {
		return i
	}
	return x.perLeg(m.Total.Or(0))
}

// perLeg divides volt-amperes evenly over the legs.
func (x Panel) perLeg(s units.Apparent) units.Current {
	return units.Current(float64(s) / float64(x.System.LineToNeutral) / float64(x.System.Legs))
}
