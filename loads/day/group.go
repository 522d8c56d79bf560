package day

import (
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// total is the sum of some curves.
type total struct {
	mean   [quarters]units.Power
	va     [quarters]units.Apparent
	most   [kinds][quarters]units.Power
	mostVA [kinds][quarters]units.Apparent
}

func (t *total) add(c *curve) {
	for q := range quarters {
		t.mean[q] += c.mean[q]
		t.va[q] += c.va(c.mean[q])
		for k := range kinds {
			t.most[k][q] += c.most[k][q]
			t.mostVA[k][q] += c.va(c.most[k][q])
		}
	}
}

// group sums some loads.
func group(name string, list []*curve) Group {
	var t total
	g := Group{Name: name}
	for _, c := range list {
		if !c.draw.known {
			g.AtLeast = true
			continue
		}
		t.add(c)
		g.of = append(g.of, c)
	}
	t.fill(&g)
	return g
}

// energy returns a load's energy of a day.
func (c *curve) energy() units.Energy {
	var all units.Energy
	for _, p := range c.mean {
		all += EnergyOf(p, quarter)
	}
	return all
}

// energyStep is the energy of one load in a day.
func energyStep(c *curve) steps.Step {
	all := c.energy()
	hours := 0.0
	if c.draw.full > 0 {
		hours = float64(all) * 1000 / float64(c.draw.full)
	}
	each := units.Times(c.draw.full, 1/float64(c.draw.load.Count))
	return steps.Result("energy of "+c.draw.load.Name+" in a day", "n · P · t / 1000", all, "kWh", steps.Cite{},
		steps.In("n", float64(c.draw.load.Count), ""), steps.In("P", each, "W"), steps.In("t", hours, "h at full draw"))
}

func (t *total) fill(g *Group) {
	const perHour = int(clock.Hour / quarter)
	for h := range g.Hours {
		hour := Hour{At: h}
		for q := h * perHour; q < (h+1)*perHour; q++ {
			hour.Power += units.Times(t.mean[q], 1.0/float64(perHour))
			hour.Apparent += units.Times(t.va[q], 1.0/float64(perHour))
			for k := range kinds {
				hour.Coincident = max(hour.Coincident, t.most[k][q])
			}
		}
		g.Hours[h] = hour
		g.Energy += EnergyOf(hour.Power, clock.Hour)
	}
	g.Month = PerMonth(g.Energy)
	g.Peak.Power, g.Peak.At, _ = highest(t.mean)
	g.PeakVA.Apparent, g.PeakVA.At, _ = highest(t.va)
	g.Peak.Day, g.PeakVA.Day = heat.Mean, heat.Mean
	g.Demand = t.demand(mean, summer, winter)
	var k int
	g.DemandVA.Apparent, g.DemandVA.At, k = highest(t.mostVA[:]...)
	g.DemandVA.Day = dayName(k)
	g.LoadFactor = LoadFactor(g.Energy, g.Peak.Power, clock.Day.Hours())
}

// demand returns the largest quarter-hour of some days with the cycling loads coincident.
func (t *total) demand(days ...int) Peak {
	var list [][quarters]units.Power
	for _, k := range days {
		list = append(list, t.most[k])
	}
	p, at, i := highest(list...)
	return Peak{p, at, dayName(days[i])}
}

// highest returns the largest quarter-hour of some days; of equals, the first.
func highest[T ~float64](days ...[quarters]T) (best T, at clock.Minute, day int) {
	for i, list := range days {
		for q, x := range list {
			if units.Exceeds(x, best) {
				best, at, day = x, clock.Minute(q)*quarter, i
			}
		}
	}
	return best, at, day
}

// Steps works out the group's figures step by step.
func (g Group) Steps() []steps.Step {
	var w steps.Work
	of := g.of
	for _, c := range of {
		w.Add(energyStep(c))
	}
	w.Add(steps.Result("energy of a day", "Σ W", g.Energy, "kWh", steps.Cite{}, inputs(of, "kWh", (*curve).energy)...))
	w.Add(steps.Result("energy of a month", "W · 365 / 12", g.Month, "kWh", steps.CommonPractice, steps.In("W", g.Energy, "kWh")))
	w.Add(steps.Result("largest 15-minute mean as it runs, from "+g.Peak.At.String(), "Σ P", g.Peak.Power, "W", demandCite(),
		inputs(of, "W", func(c *curve) units.Power { return c.mean[g.Peak.At/quarter] })...))
	if lf, ok := g.LoadFactor.Get(); ok {
		w.Add(steps.Result("load factor", "W / (P · 24)", lf, "", seen("load-factor", ""),
			steps.In("W", g.Energy, "kWh"), steps.In("P", float64(g.Peak.Power)/1000, "kW")))
	}
	w.Add(steps.Result("largest 15-minute mean with the cycling loads all on, "+string(g.Demand.Day)+" from "+g.Demand.At.String(),
		"Σ P", g.Demand.Power, "W", steps.CommonPractice,
		inputs(of, "W", func(c *curve) units.Power { return c.most[kindOf(g.Demand.Day)][g.Demand.At/quarter] })...))
	w.Add(steps.Result("largest apparent power with the cycling loads all on, "+string(g.DemandVA.Day)+" from "+g.DemandVA.At.String(),
		"Σ S", g.DemandVA.Apparent, "VA", steps.CommonPractice,
		inputs(of, "VA", func(c *curve) units.Apparent { return c.va(c.most[kindOf(g.DemandVA.Day)][g.DemandVA.At/quarter]) })...))
	return w.Steps()
}

// inputs lists what each load adds to a sum, those that add nothing left out.
func inputs[T ~float64](of []*curve, unit string, value func(*curve) T) []steps.Input {
	var out []steps.Input
	for _, c := range of {
		if x := value(c); x != 0 {
			out = append(out, steps.In(c.draw.load.Name, x, unit))
		}
	}
	return out
}
