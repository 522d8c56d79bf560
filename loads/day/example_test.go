package day_test

import (
	"fmt"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// 48 fixtures of 650 W for twelve hours. By hand: 31.2 kW · 12 h = 374.4 kWh; a mean month
// has 374.4 · 365 / 12 = 11,388 kWh.
func ExampleEnergyOf() {
	w := day.EnergyOf(48*650*units.Watt, 12*clock.Hour)
	fmt.Println(units.Round(float64(w), 3), units.Round(float64(day.PerMonth(w)), 3))
	// Output: 374.4 11,388
}

// 65,000 kWh in 30 days at a peak of 125 kW. By hand: 65,000 / (125 · 720) = 0.7222.
func ExampleLoadFactor() {
	lf, _ := day.LoadFactor(65_000, 125*units.Kilowatt, 30*24).Get()
	fmt.Println(units.Round(float64(lf), 4))
	// Output: 0.7222
}

// A winter month of 300 kW under a ratchet of 80 % of a summer's 1,000 kW.
func ExampleBilled() {
	fmt.Println(day.Billed(300*units.Kilowatt, 1000*units.Kilowatt, 0.8))
	// Output: 800,000 W
}

// 40 kWh taken in one hour, and in ten: $3 per kW, $0.05 per kWh. By hand:
// 40 · 3 + 40 · 0.05 = 122; 4 · 3 + 2 = 14.
func ExampleBillOf() {
	t := inventory.Tariff{Energy: []inventory.EnergyPrice{{Price: 0.05}}, Demand: units.Is(units.Money(3))}
	for _, kw := range []float64{40, 4} {
		b := day.BillOf(t, day.Use{At: []units.Energy{40}, Demand: units.Times(units.Kilowatt, kw)})
		fmt.Println(b.EnergyCost, b.DemandCost, b.Total)
	}
	// Output:
	// 2 120 122
	// 2 12 14
}

// Two rooms of 20 kW, both lit by day; the second may begin when it likes. By turns they
// draw 20 kW instead of 40.
func ExampleStagger() {
	s := newSite()
	s.room("a", window("06:00-18:00"), 20_000)
	s.room("b", window("06:00-18:00"), 20_000, startsFrom("always"))
	st := day.Stagger(s.inv, s.set(), day.ForPeak, day.Hourly)
	for _, r := range st.Rooms {
		fmt.Println(r.Room, r.Before, r.After)
	}
	fmt.Println(st.Before.Site.Demand.Power, st.After.Site.Demand.Power, st.Proved)
	// Output:
	// a 06:00-18:00 06:00-18:00
	// b 06:00-18:00 18:00-06:00
	// 40,000 W 20,000 W true
}
