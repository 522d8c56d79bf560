package document

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"branchwork/loads"
	"branchwork/loads/day"
	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// DaySchema names the contract of Day.
const DaySchema = "branchwork/day/1"

// Day is the answer of day: 24 hours of power, current, heat, energy and cost.
type Day struct {
	Schema    string       `json:"schema" jsonschema:"enum=branchwork/day/1"`
	Site      string       `json:"site"`
	Code      string       `json:"code"`
	CodeTitle string       `json:"code_title"`
	Season    string       `json:"season" jsonschema:"enum=mean,enum=summer,enum=winter" jsonschema_description:"the day that heat is of, and the month that the bill shown first is of"`
	AtLeast   bool         `json:"at_least" jsonschema_description:"true where the watts of a load are not known and all totals are least values"`
	HeatLeast bool         `json:"heat_at_least" jsonschema_description:"true where a part of a room's heat, as the sun on it, is in no figure"`
	Missing   []DayMissing `json:"missing" jsonschema_description:"loads of unknown watts, left out"`
	DayFigures
	Categories  []DayGroup   `json:"categories"`
	Rooms       []DayGroup   `json:"rooms" jsonschema_description:"loads of no room last, under an empty name"`
	Panels      []DayPanel   `json:"panels"`
	Cost        *DayCost     `json:"cost" jsonschema:"nullable"`
	CostWhy     string       `json:"cost_why" jsonschema_description:"why there is none"`
	Stagger     *Stagger     `json:"stagger,omitempty" jsonschema_description:"where --stagger asks for it"`
	Notes       []string     `json:"notes"`
	Assumptions []Assumption `json:"assumptions"`
	Caution     string       `json:"caution"`
}

// DayFigures are hours, energy and peaks of some loads.
type DayFigures struct {
	Hours       []DayHour `json:"hours"`
	EnergyDay   float64   `json:"energy_kwh_per_day"`
	EnergyMonth float64   `json:"energy_kwh_per_month" jsonschema_description:"of 365/12 days"`
	LoadFactor  *float64  `json:"load_factor_percent" jsonschema:"nullable" jsonschema_description:"mean over peak, as it runs"`
	Peak        DayPeak   `json:"peak" jsonschema_description:"largest 15-minute mean as it runs, mean day"`
	Demand      DayPeak   `json:"demand" jsonschema_description:"largest 15-minute mean with all cycling loads at once, worst day"`
	PeakVA      DayPeakVA `json:"peak_apparent"`
	DemandVA    DayPeakVA `json:"demand_apparent"`
}

// DayHour is the mean of one hour. Power is of the mean day.
type DayHour struct {
	Hour       int     `json:"hour"`
	Watts      float64 `json:"watts"`
	VA         float64 `json:"va"`
	Coincident float64 `json:"coincident_watts" jsonschema_description:"largest quarter-hour with all cycling loads at once, worst day"`
	HeatBTUH   float64 `json:"heat_btuh" jsonschema_description:"to remove, on the day of season; of the site and of rooms only"`
}

// DayPeak is the largest mean of a quarter-hour.
type DayPeak struct {
	Watts float64 `json:"watts"`
	At    string  `json:"at" jsonschema_description:"the quarter-hour begins"`
	Day   string  `json:"day"`
}

// DayPeakVA is the largest mean apparent power of a quarter-hour.
type DayPeakVA struct {
	VA  float64 `json:"va"`
	At  string  `json:"at"`
	Day string  `json:"day"`
}

// DayGroup is a room or a category through the day.
type DayGroup struct {
	Name string `json:"name"`
	DayFigures
	AtLeast bool `json:"at_least"`
}

// DayMissing is a load that is left out.
type DayMissing struct {
	Path  string `json:"path"`
	Room  string `json:"room,omitempty"`
	Count int    `json:"count"`
	Why   string `json:"why"`
}

// PlanDay is the day as a plan holds it.
type PlanDay struct {
	Hours       []PlanHour `json:"hours"`
	EnergyDay   float64    `json:"energy_kwh_per_day"`
	PeakWatts   float64    `json:"peak_watts" jsonschema_description:"largest 15-minute mean as it runs, mean day"`
	PeakAt      string     `json:"peak_at"`
	DemandWatts float64    `json:"demand_watts" jsonschema_description:"largest 15-minute mean with all cycling loads at once, worst day"`
	CostMonth   *float64   `json:"cost_per_month" jsonschema:"nullable"`
	Currency    string     `json:"currency,omitempty"`
	AtLeast     bool       `json:"at_least"`
}

// PlanHour is one of its hours, on the mean day.
type PlanHour struct {
	Hour     int     `json:"hour"`
	Watts    float64 `json:"watts"`
	VA       float64 `json:"va"`
	HeatBTUH float64 `json:"heat_btuh"`
}

// Seasons are the words for the day that heat and bill are of, the default first.
func Seasons() []string { return []string{"mean", "summer", "winter"} }

// DayOf is what the answer of day is made of.
type DayOf struct {
	Results Results
	Season  string     // one of Seasons
	Legs    []PanelDay // by panel of the plan
	Stagger *StaggerOf // where it was asked for
}

// NewDay returns the document of a day.
func NewDay(o DayOf) Day {
	r := o.Results
	x := r.Day
	d := Day{
		Schema: DaySchema, Site: r.Inventory.Site.Name, Code: r.Profile.Name, CodeTitle: r.Profile.Title, Season: o.Season, AtLeast: x.AtLeast(), HeatLeast: x.Heat.Block.AtLeast,
		Missing: []DayMissing{}, DayFigures: dayFigures(x.Site), Categories: []DayGroup{}, Rooms: []DayGroup{}, Panels: dayPanels(o), CostWhy: x.Cost.Why(),
		Notes: list(x.Notes), Assumptions: assumptions(dayAssumed(r)), Caution: Caution,
	}
	for _, g := range x.Categories {
		d.Categories = append(d.Categories, dayGroup(g))
	}
	for _, g := range x.Rooms {
		k := dayGroup(g)
		setHeat(k.Hours, x.Heat, o.Season, func(room string) bool { return room == g.Name })
		d.Rooms = append(d.Rooms, k)
	}
	setHeat(d.Hours, x.Heat, o.Season, func(string) bool { return true })
	for _, m := range x.Missing {
		d.Missing = append(d.Missing, DayMissing(m))
	}
	if c, ok := x.Cost.Get(); ok {
		d.Cost = dayCost(c, r.Inventory.Tariff)
	}
	if o.Stagger != nil {
		d.Stagger = stagger(*o.Stagger)
	}
	return d
}

func dayFigures(g day.Group) DayFigures {
	d := DayFigures{Hours: []DayHour{}, EnergyDay: float64(g.Energy), EnergyMonth: float64(g.Month), LoadFactor: percent(g.LoadFactor),
		Peak: dayPeak(g.Peak), Demand: dayPeak(g.Demand), PeakVA: dayPeakVA(g.PeakVA), DemandVA: dayPeakVA(g.DemandVA)}
	for _, h := range g.Hours {
		d.Hours = append(d.Hours, DayHour{h.At, float64(h.Power), float64(h.Apparent), float64(h.Coincident), h.Heat.BTUPerHour()})
	}
	return d
}

func dayPeak(p day.Peak) DayPeak { return DayPeak{float64(p.Power), p.At.String(), string(p.Day)} }

func dayPeakVA(p day.PeakVA) DayPeakVA {
	return DayPeakVA{float64(p.Apparent), p.At.String(), string(p.Day)}
}

func dayGroup(g day.Group) DayGroup { return DayGroup{g.Name, dayFigures(g), g.AtLeast} }

// setHeat puts the heat of some rooms on a season's day beside the power.
func setHeat(hours []DayHour, r heat.Result, season string, in func(room string) bool) {
	for i := range hours {
		sum := units.Heat(0)
		for _, x := range r.Rooms {
			if in(x.Name) {
				sum += heatDay(x, season).Hours[i].Total()
			}
		}
		hours[i].HeatBTUH = sum.BTUPerHour()
	}
}

func heatDay(x heat.Room, season string) heat.Day {
	switch season {
	case "summer":
		return x.Summer
	case "winter":
		return x.Winter
	}
	return x.Mean
}

// dayAssumed is what the day rests on: its own assumptions, those of the heat balance
// that equipment runs by, and those about power of loads.
func dayAssumed(r Results) []loads.Assumption {
	out := slices.Clone(r.Day.Assumptions)
	add := func(a loads.Assumption) {
		if !slices.ContainsFunc(out, func(b loads.Assumption) bool { return a.Subject == b.Subject }) {
			out = append(out, a)
		}
	}
	for _, a := range r.Heat.Assumptions {
		add(a)
	}
	for _, a := range r.Plan.Assumptions {
		switch lastKey(a.Subject) {
		case "power", "efficiency", "power_factor", "hours":
			add(a)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return units.NaturalLess(out[i].Subject, out[j].Subject) })
	return out
}

func planDay(x day.Day) PlanDay {
	d := PlanDay{Hours: []PlanHour{}, EnergyDay: float64(x.Site.Energy), PeakWatts: float64(x.Site.Peak.Power), PeakAt: x.Site.Peak.At.String(),
		DemandWatts: float64(x.Site.Demand.Power), AtLeast: x.AtLeast()}
	for _, h := range x.Site.Hours {
		d.Hours = append(d.Hours, PlanHour{h.At, float64(h.Power), float64(h.Apparent), h.Heat.BTUPerHour()})
	}
	if c, ok := x.Cost.Get(); ok {
		d.CostMonth, d.Currency, d.AtLeast = number(c.Month), c.Currency, d.AtLeast || c.AtLeast
	}
	return d
}

func lastKey(path string) string { return path[strings.LastIndex(path, ".")+1:] }

func hourText(h int) string { return fmt.Sprintf("%02d:00", h) }
