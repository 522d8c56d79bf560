package day

import (
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Cost is what the day costs by the file's tariff, month by month.
type Cost struct {
	Currency       string
	Summer, Winter Bill // one month of each season
	Seasonal       bool // they differ

	Month                 units.Money // mean of the year's twelve months
	Energy, Demand, Added units.Money // of Month

	Gaps     []Gap
	Overlaps []Overlap
	AtLeast  bool // energy without a price, or a load of unknown watts
}

// Gap is a part of the year for which the tariff states no price.
type Gap struct {
	When   When
	Energy units.Energy // taken in it in a mean month of the season
}

// Season returns one month's bill of a season.
func (c Cost) Season(s Season) Bill {
	if s == SummerMonths {
		return c.Summer
	}
	return c.Winter
}

// meanOfYear returns the mean of twelve months.
//
//	K = (4 · K_summer + 8 · K_winter) / 12
func meanOfYear[T ~float64](summer, winter T) T {
	return units.Times(units.Times(summer, float64(SummerMonths.Months()))+units.Times(winter, float64(WinterMonths.Months())), 1.0/12)
}

// hasTariff reports whether a file states any price.
func hasTariff(t inventory.Tariff) bool {
	return len(t.Energy) > 0 || t.Demand.Known() || t.Minimum.Known()
}

// seasonDays returns the days of the heat balance that occur in a season: the demand of
// its months is the largest of them.
func seasonDays(season int) []int {
	if season == firstHalf {
		return []int{mean, summer}
	}
	return []int{mean, winter}
}

// cost prices the day.
func (s *site) cost(d *Day) units.Known[Cost] {
	t := s.inv.Tariff
	if !hasTariff(t) {
		return units.Unknown[Cost]("the file has no [tariff]")
	}
	plan := newSchedule(t)
	minutes, all := s.sum()
	var use [seasons]Use
	highest := units.Power(0)
	for i := range use {
		use[i].At, use[i].Gap = plan.used(&minutes, i)
		use[i].Demand = all.demand(seasonDays(i)...).Power
		highest = max(highest, use[i].Demand)
	}
	c := Cost{Currency: t.Currency, Overlaps: plan.overlaps, AtLeast: d.Site.AtLeast}
	var bills [seasons]Bill
	for i := range bills {
		use[i].Highest = highest
		bills[i] = BillOf(t, use[i])
		c.AtLeast = c.AtLeast || bills[i].Unpriced > 0
	}
	c.Summer, c.Winter = bills[0], bills[1]
	c.Seasonal = plan.seasonal() || units.Exceeds(max(c.Summer.Total, c.Winter.Total), min(c.Summer.Total, c.Winter.Total))
	c.Month = meanOfYear(c.Summer.Total, c.Winter.Total)
	c.Energy = meanOfYear(c.Summer.EnergyCost, c.Winter.EnergyCost)
	c.Demand = meanOfYear(c.Summer.DemandCost, c.Winter.DemandCost)
	c.Added = meanOfYear(c.Summer.Added, c.Winter.Added)
	c.Gaps = gapsOf(plan, &minutes)
	s.tellCost(c)
	d.Steps = append(d.Steps, recordCost(c, t, highest)...)
	return units.Is(c)
}

// sum returns the site's minutes of the mean day and its quarter-hours.
func (s *site) sum() (minutes [clock.Day]units.Power, all total) {
	for _, c := range s.curves {
		if !c.draw.known {
			continue
		}
		all.add(c)
		for m, p := range c.minutes {
			minutes[m] += p
		}
	}
	return minutes, all
}

func gapsOf(plan *schedule, minutes *[clock.Day]units.Power) []Gap {
	var out []Gap
	for _, w := range plan.gaps() {
		g := Gap{When: w}
		for m, p := range minutes {
			if w.Hours.Contains(clock.Minute(m)) {
				g.Energy += PerMonth(EnergyOf(p, 1))
			}
		}
		for kind := range dayKinds {
			if w.Days == daysName(kind) {
				g.Energy = units.Times(g.Energy, weight(kind))
			}
		}
		out = append(out, g)
	}
	return out
}

// tellCost lists what the cost rests on.
func (s *site) tellCost(c Cost) {
	if c.Seasonal {
		s.assume("tariff.seasons", "June to September are summer", "the months of a season are not given", steps.CommonPractice)
	}
	for _, p := range s.inv.Tariff.Energy {
		if p.Days.Known() {
			s.assume("tariff.days", "five sevenths of all days are weekdays", "holidays are not told apart", steps.CommonPractice)
		}
	}
	if s.inv.Tariff.Demand.Known() {
		s.assume("tariff.interval", "15 minutes by the clock, all hours", "the interval of the demand meter is not given; longer ones never bill more", demandCite())
	}
	if s.inv.Tariff.Ratchet.Known() {
		s.assume("tariff.ratchet_months", "the whole year", "which months raise the demand of which others is not given", seen("pnnl-ratchet", ""))
	}
	s.note("fixed monthly charges, taxes and clauses on power factor are no part of the cost")
	for _, g := range c.Gaps {
		s.note("tariff.energy: no price for %s; %s kWh a month fall there and are not priced", g.When, units.Round(float64(g.Energy), 0))
	}
	for _, o := range c.Overlaps {
		s.note("tariff.energy: %s and %s per kWh both hold %s and neither is the more specific; the dearer is taken",
			units.Round(float64(o.Prices[0]), 6), units.Round(float64(o.Prices[1]), 6), o.When)
	}
}

func recordCost(c Cost, t inventory.Tariff, highest units.Power) []steps.Step {
	var w steps.Work
	if !c.Seasonal {
		c.Summer.record("a month", t, highest, &w)
		return w.Steps()
	}
	c.Summer.record("a summer month", t, highest, &w)
	c.Winter.record("a winter month", t, highest, &w)
	w.Add(steps.Result("bill of the mean month", "(4 · K_summer + 8 · K_winter) / 12", c.Month, c.Currency, steps.CommonPractice,
		steps.In("K_summer", c.Summer.Total, c.Currency), steps.In("K_winter", c.Winter.Total, c.Currency)))
	return w.Steps()
}
