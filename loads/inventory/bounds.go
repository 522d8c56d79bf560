package inventory

import (
	"fmt"
	"math"

	"branchwork/loads/units"
)

// limits are the least and the most a value may be, in the base unit of its
// quantity. Beyond them a value is a slip of the pen, not a large site.
type limits struct {
	least, most float64
	open        bool   // least itself is refused
	top         string // most, as a user would write it
	bottom      string // least, likewise, where it is not zero
}

// Limits of quantities that cannot be zero, and of those that can.
func usual[T units.Quantity]() limits {
	var zero T
	switch any(zero).(type) {
	case units.Power:
		return limits{0, 10e6, true, "10 MW", ""}
	case units.Apparent:
		return limits{0, 10e6, true, "10 MVA", ""}
	case units.Horsepower:
		return limits{0, 10_000, true, "10,000 hp", ""}
	case units.Current:
		return limits{0, 100_000, true, "100,000 A", ""}
	case units.Voltage:
		return limits{0, 35_000, true, "35,000 V", ""}
	case units.Length:
		return limits{0, 100_000, true, "100,000 ft", ""}
	case units.Area:
		return limits{0, 1e8, true, "100,000,000 ft2", ""}
	case units.Temperature:
		return limits{-90, 260, false, "260 C", "-90 C"}
	case units.Airflow:
		return limits{0, 1e7, true, "10,000,000 CFM", ""}
	case units.WaterRate:
		return limits{0, 1e8, true, "100,000,000 L/day", ""}
	case units.Heat:
		return limits{0, 10e6, true, "10 MW", ""}
	case units.Photons:
		return limits{0, 1e6, true, "1,000,000 umol/s", ""}
	case units.Insulance:
		return limits{0, 1000, true, "1,000 ft2.F.h/BTU", ""}
	case units.Transmittance:
		return limits{0, 1000, true, "1,000 BTU/h.ft2.F", ""}
	}
	return limits{0, math.MaxFloat64, false, "", ""}
}

// orZero are the usual limits with zero allowed.
func orZero[T units.Quantity]() limits {
	l := usual[T]()
	l.open = false
	return l
}

// Limits of pure numbers.
func share() limits        { return limits{0, 1, false, "1", ""} }                // 0 to 1
func someShare() limits    { return limits{0, 1, true, "1", ""} }                 // above 0, to 1
func belowOne() limits     { return limits{0, 0.999999, false, "0.999999", ""} }  // 0 to just below 1
func upTo(x int) limits    { return limits{0, float64(x), false, sepInt(x), ""} } // 0 to x
func aCount() limits       { return limits{1, maxCount, false, sepInt(maxCount), ""} }
func fromOne(x int) limits { return limits{1, float64(x), false, sepInt(x), ""} }

const maxCount = 1_000_000

// MostSpaces is how many spaces a panel may have.
const MostSpaces = 10_000

func sepInt(x int) string { return units.Round(float64(x), 0) }

// within reports a value outside its limits. shown is the value as written,
// noun what it is with its article, form a right form.
func (r *reader) within(c cell, x float64, l limits, shown, form string) bool {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		r.bad(c, fmt.Sprintf("%s is not a number that can be used", shown), form)
	case x < 0 && l.least >= 0:
		r.bad(c, fmt.Sprintf("%s is negative", shown), form)
	case x == 0 && (l.open || l.least > 0):
		r.bad(c, fmt.Sprintf("%s where more than zero belongs", shown), form)
	case x < l.least:
		r.bad(c, fmt.Sprintf("%s is below %s", shown, l.bottom), form)
	case x > l.most && l.most < 1:
		r.bad(c, fmt.Sprintf("%s is not below 1", shown), form)
	case x > l.most:
		r.bad(c, fmt.Sprintf("%s is more than %s", shown, l.top), form)
	default:
		return true
	}
	return false
}
