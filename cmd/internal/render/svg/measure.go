package svg

import (
	"math"

	"branchwork/loads/units"
)

// Measure is the unit system of a report. Sizes of conductors and raceways keep
// the names that they are sold under.
type Measure struct {
	Metric bool
}

// LengthUnit is the unit of Length.
func (m Measure) LengthUnit() string {
	if m.Metric {
		return "m"
	}
	return "ft"
}

// Length returns feet in the unit system.
func (m Measure) Length(ft float64) float64 {
	if m.Metric {
		return units.Length(ft).Metres()
	}
	return ft
}

// HeatUnit is the unit of Heat.
func (m Measure) HeatUnit() string {
	if m.Metric {
		return "kW"
	}
	return "BTU/h"
}

// Heat returns BTU/h in the unit system.
func (m Measure) Heat(btuh float64) float64 {
	if m.Metric {
		return float64(units.FromBTUPerHour(btuh)) / 1000
	}
	return btuh
}

// HeatDigits is how many decimals a heat is shown with.
func (m Measure) HeatDigits() int {
	if m.Metric {
		return 2
	}
	return 0
}

// lengthText writes feet: "40 ft", "12.2 m".
func (m Measure) lengthText(ft float64) string { return m.lengthNumber(ft) + " " + m.LengthUnit() }

func (m Measure) lengthNumber(ft float64) string { return units.Round(m.Length(ft), 1) }

// Rounded prints a number with exactly so many decimals, none of them in front
// of a zero as a minus.
func Rounded(x float64, digits int) string {
	if math.Abs(x) < 0.5*math.Pow10(-digits) {
		x = 0
	}
	return units.Fixed(x, digits)
}
