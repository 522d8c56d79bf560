package day

import (
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Use is what a month's bill is made of.
type Use struct {
	At      []units.Energy // at each of the tariff's prices, in their order; none is none
	Gap     units.Energy   // in hours without a price
	Demand  units.Power    // the month's largest 15-minute mean
	Highest units.Power    // the year's, at least Demand
}

// Bill is one month.
type Bill struct {
	Lines      []Line // prices at which energy is taken, in the tariff's order
	Energy     units.Energy
	Unpriced   units.Energy // of Energy, in hours without a price: it is in no cost
	EnergyCost units.Money

	Demand     units.Power
	Billed     units.Power // Demand, or what the ratchet raises it to
	DemandCost units.Money

	Added units.Money // to reach the least bill
	Total units.Money
}

// Line is the energy taken at one price.
type Line struct {
	Price  inventory.EnergyPrice
	Energy units.Energy
	Cost   units.Money
}

// BillOf returns a month's bill.
//
//	K = max(K_min, Σ k_p · W_p + k_d · max(P, r · P_highest))
//
// A tariff without a demand price has no demand charge, one without a least bill none.
// Energy taken in hours without a price is shown and not priced, so that the total is then
// a least value. Fixed charges, taxes, and clauses on power factor are no part of it.
//
// Source: rate pages of utilities (seen; references of testdata/published/bills.toml, where
// it is checked); the ratchet's wording differs from one to the next.
func BillOf(t inventory.Tariff, u Use) Bill {
	b := Bill{Demand: u.Demand, Unpriced: u.Gap, Energy: u.Gap}
	for i, p := range t.Energy {
		if i < len(u.At) && u.At[i] > 0 {
			w := u.At[i]
			l := Line{p, w, EnergyCost(p.Price, w)}
			b.Lines = append(b.Lines, l)
			b.Energy += w
			b.EnergyCost += l.Cost
		}
	}
	b.Billed = Billed(u.Demand, u.Highest, t.Ratchet.Or(0))
	if price, ok := t.Demand.Get(); ok {
		b.DemandCost = DemandCost(price, b.Billed)
	}
	b.Total = b.EnergyCost + b.DemandCost
	if least := t.Minimum.Or(0); least > b.Total {
		b.Added = least - b.Total
		b.Total = least
	}
	return b
}

// record adds a bill's working.
func (b Bill) record(of string, t inventory.Tariff, highest units.Power, w *steps.Work) {
	currency := t.Currency
	for _, l := range b.Lines {
		name := "energy of " + of
		if when := whenOf(l.Price); when != "" {
			name += ", " + when
		}
		w.Add(steps.Result(name, "k · W", l.Cost, currency, steps.CommonPractice,
			steps.In("k", l.Price.Price, currency+" per kWh"), steps.In("W", l.Energy, "kWh")))
	}
	if price, ok := t.Demand.Get(); ok {
		if r, ok := t.Ratchet.Get(); ok {
			w.Add(steps.Result("demand billed, "+of, "max(P, r · P_highest)", float64(b.Billed)/1000, "kW", seen("pnnl-ratchet", ""),
				steps.In("P", float64(b.Demand)/1000, "kW"), steps.In("r", r, ""), steps.In("P_highest", float64(highest)/1000, "kW")))
		}
		w.Add(steps.Result("demand charge, "+of, "k · P", b.DemandCost, currency, demandCite(),
			steps.In("k", price, currency+" per kW"), steps.In("P", float64(b.Billed)/1000, "kW")))
	}
	if b.Added > 0 {
		w.Add(steps.Result("added to reach the least bill, "+of, "K_min − K", b.Added, currency, steps.CommonPractice,
			steps.In("K_min", t.Minimum.Or(0), currency), steps.In("K", b.EnergyCost+b.DemandCost, currency)))
	}
	w.Add(steps.Result("bill of "+of, "energy + demand + added", b.Total, currency, steps.CommonPractice,
		steps.In("energy", b.EnergyCost, currency), steps.In("demand", b.DemandCost, currency), steps.In("added", b.Added, currency)))
}

// whenOf returns when a price holds, in words; empty where it holds always.
func whenOf(p inventory.EnergyPrice) string {
	hours, ok := p.Hours.Get()
	s := ""
	if ok {
		s = hours.String()
	}
	if d, ok := p.Days.Get(); ok {
		s = join(s, "on "+d)
	}
	if x, ok := p.Season.Get(); ok {
		s = join(s, "in "+x)
	}
	return s
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + " " + b
}
