package day

import (
	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// quarter is the interval of a demand meter and quarters how many a day has.
//
// Source: homeworks.org (seen): the highest 15-minute average of the month is billed.
// Other utilities take 30 or 60 minutes, whose means are never larger.
const (
	quarter  clock.Minute = 15
	quarters              = int(clock.Day / quarter)
)

// DaysPerMonth is the length of the mean month in days: 365/12.
const DaysPerMonth = 365.0 / 12

// EnergyOf returns the energy that power p takes in a time t.
//
//	W = P · t / 1000      kWh, P in W, t in h
//
// Source: definition, IEC 60050-131.
func EnergyOf(p units.Power, t clock.Minute) units.Energy {
	return units.Energy(float64(p) * t.Hours() / 1000)
}

// PerMonth returns the energy of a mean month of days like this one.
//
//	W_month = W_day · 365 / 12
func PerMonth(day units.Energy) units.Energy { return units.Times(day, DaysPerMonth) }

// LoadFactor returns the energy of a time over what the peak would have taken in it.
//
//	LF = W / (P · t)      W in kWh, P in kW, t in h; 0 to 1 where P is the peak of t
//
// It is unknown where the peak or the time is zero.
//
// Source: bettercostcontrol.com (seen). Published checks: testdata/published/bills.toml.
func LoadFactor(w units.Energy, peak units.Power, hours float64) units.Known[units.Ratio] {
	all := float64(peak) / 1000 * hours
	if all <= 0 {
		return units.Unknown[units.Ratio]("nothing runs")
	}
	return units.Is(units.Ratio(float64(w) / all))
}

// Billed returns the demand that a month is billed for under a ratchet.
//
//	P_billed = max(P, r · P_highest)
//
// p is the month's own demand, highest the largest of the year, r the share of it that
// is billed at least, 0 to 1. Nothing else of a ratchet's wording is told: which months
// count, for how long.
//
// Source: feds.pnnl.gov (seen), 80 % of the preceding eleven months.
func Billed(p, highest units.Power, r units.Ratio) units.Power {
	return max(p, units.Times(highest, float64(r)))
}

// EnergyCost returns the price of an energy: K = k · W, k per kWh.
func EnergyCost(price units.Money, w units.Energy) units.Money {
	return units.Times(price, float64(w))
}

// DemandCost returns the price of a demand: K = k · P, k per kW and month.
func DemandCost(price units.Money, p units.Power) units.Money {
	return units.Times(price, float64(p)/1000)
}

func seen(ref, at string) steps.Cite { return steps.Cite{Ref: ref, At: at, How: steps.Seen} }

func demandCite() steps.Cite { return seen("homeworks-demand", "") }
