package document

import (
	"strings"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
)

// DayCost is what the day costs by the file's tariff.
type DayCost struct {
	Currency string       `json:"currency"`
	Month    float64      `json:"per_month" jsonschema_description:"mean of the year's twelve months"`
	Energy   float64      `json:"energy_per_month"`
	Demand   float64      `json:"demand_per_month"`
	Added    float64      `json:"added_per_month" jsonschema_description:"to reach the least bill"`
	Seasonal bool         `json:"seasonal" jsonschema_description:"a summer and a winter month differ"`
	Summer   DayBill      `json:"summer_month"`
	Winter   DayBill      `json:"winter_month"`
	Gaps     []DayGap     `json:"gaps" jsonschema_description:"times for which the tariff states no price"`
	Overlaps []DayOverlap `json:"overlaps" jsonschema_description:"two prices of one time; the dearer was taken"`
	AtLeast  bool         `json:"at_least" jsonschema_description:"energy without a price, or a load of unknown watts"`
}

// DayBill is one month's bill.
type DayBill struct {
	Lines       []DayBillLine `json:"lines" jsonschema_description:"energy by price"`
	EnergyKWh   float64       `json:"energy_kwh"`
	UnpricedKWh float64       `json:"unpriced_kwh" jsonschema_description:"of it, in hours without a price"`
	EnergyCost  float64       `json:"energy_cost"`
	DemandWatts float64       `json:"demand_watts" jsonschema_description:"the month's largest 15-minute mean"`
	BilledWatts float64       `json:"billed_watts" jsonschema_description:"demand, or what the ratchet raises it to"`
	DemandCost  float64       `json:"demand_cost"`
	Added       float64       `json:"added"`
	Total       float64       `json:"total"`
}

// DayBillLine is the energy taken at one price.
type DayBillLine struct {
	Price float64 `json:"price_per_kwh"`
	When  string  `json:"when"`
	KWh   float64 `json:"kwh"`
	Cost  float64 `json:"cost"`
}

// DayGap is a time without a price.
type DayGap struct {
	When string  `json:"when"`
	KWh  float64 `json:"kwh" jsonschema_description:"in a mean month of the season"`
}

// DayOverlap is a time with two prices.
type DayOverlap struct {
	When  string  `json:"when"`
	Taken float64 `json:"taken_per_kwh"`
	Left  float64 `json:"left_per_kwh"`
}

func dayCost(c day.Cost, t inventory.Tariff) *DayCost {
	d := &DayCost{Currency: c.Currency, Month: float64(c.Month), Energy: float64(c.Energy), Demand: float64(c.Demand), Added: float64(c.Added),
		Seasonal: c.Seasonal, Summer: dayBill(c.Summer, t), Winter: dayBill(c.Winter, t), Gaps: []DayGap{}, Overlaps: []DayOverlap{}, AtLeast: c.AtLeast}
	for _, g := range c.Gaps {
		d.Gaps = append(d.Gaps, DayGap{g.When.String(), float64(g.Energy)})
	}
	for _, o := range c.Overlaps {
		d.Overlaps = append(d.Overlaps, DayOverlap{o.When.String(), float64(o.Prices[0]), float64(o.Prices[1])})
	}
	return d
}

func dayBill(b day.Bill, t inventory.Tariff) DayBill {
	d := DayBill{Lines: []DayBillLine{}, EnergyKWh: float64(b.Energy), UnpricedKWh: float64(b.Unpriced), EnergyCost: float64(b.EnergyCost),
		DemandWatts: float64(b.Demand), BilledWatts: float64(b.Billed), DemandCost: float64(b.DemandCost), Added: float64(b.Added), Total: float64(b.Total)}
	for _, l := range b.Lines {
		d.Lines = append(d.Lines, DayBillLine{float64(l.Price.Price), priceWhen(l.Price, t), float64(l.Energy), float64(l.Cost)})
	}
	return d
}

// priceWhen says when a price holds. One without hours holds where no other does.
func priceWhen(p inventory.EnergyPrice, t inventory.Tariff) string {
	w := day.When{Days: p.Days.Or(""), Season: day.Season(p.Season.Or("")), Hours: p.Hours.Or(clock.Always())}
	s := w.String()
	if !p.Hours.Known() && len(t.Energy) > 1 {
		s = strings.Replace(s, "all hours", "all other hours", 1)
	}
	return s
}
