package page

import "branchwork/loads/units"

// System is the unit system that a page is written in.
type System struct {
	Metric bool
}

func (s System) lengthUnit() string {
	if s.Metric {
		return "m"
	}
	return "ft"
}

func (s System) length(ft float64) float64 {
	if s.Metric {
		return units.Length(ft).Metres()
	}
	return ft
}

func (s System) maybeLength(ft *float64) Cell {
	if ft == nil {
		return text(Unknown)
	}
	return number(s.length(*ft), 0)
}

func (s System) heatUnit() string {
	if s.Metric {
		return "kW"
	}
	return "BTU/h"
}

func (s System) heat(btuh float64) Cell {
	if s.Metric {
		return number(float64(units.FromBTUPerHour(btuh))/1000, 2)
	}
	return number(btuh, 0)
}

func (s System) maybeHeat(btuh *float64) Cell {
	if btuh == nil {
		return text(Unknown)
	}
	return s.heat(*btuh)
}

func (s System) heatText(btuh float64) string { return s.heat(btuh).Shown() + " " + s.heatUnit() }

func (s System) waterUnit() string {
	if s.Metric {
		return "L/day"
	}
	return "pint/day"
}

func (s System) water(pints *float64) Cell {
	if pints != nil && s.Metric {
		litres := *pints * units.LitrePerPint
		return number(litres, 0)
	}
	return maybe(pints, 0)
}

func (s System) airUnit() string {
	if s.Metric {
		return "m3/h"
	}
	return "CFM"
}

func (s System) air(cfm *float64) Cell {
	if cfm != nil && s.Metric {
		return number(*cfm*units.CubicMetrePerHourPerCFM, 0)
	}
	return maybe(cfm, 0)
}
