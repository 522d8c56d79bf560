package day_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

const tiny = 1e-9

func watts(g day.Group, hour int) float64 { return float64(g.Hours[hour].Power) }

// A room of 1,000 W lit for twelve hours with fans of 100 W all day.
// By hand: 12 + 2.4 = 14.4 kWh a day; · 365 / 12 = 438 kWh a month; peak 1,100 W; load
// factor 14.4 / (1.1 · 24) = 0.5455. At 0.10 per kWh and 10 per kW: 43.80 + 11.00 = 54.80.
func TestDayAtAFlatTariff(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-18:00"), 1000)
	s.fans("flower", 100)
	s.inv.Tariff = inventory.Tariff{Currency: "USD", Energy: []inventory.EnergyPrice{{Price: 0.10}}, Demand: units.Is(units.Money(10))}
	d := s.day()
	assert.InDelta(t, 100, watts(d.Site, 5), tiny)
	assert.InDelta(t, 1100, watts(d.Site, 6), tiny)
	assert.InDelta(t, 1100, watts(d.Site, 17), tiny)
	assert.InDelta(t, 100, watts(d.Site, 18), tiny)
	assert.InDelta(t, 14.4, float64(d.Site.Energy), tiny)
	assert.InDelta(t, 438, float64(d.Site.Month), tiny)
	lf, ok := d.Site.LoadFactor.Get()
	require.True(t, ok)
	assert.InDelta(t, 14.4/26.4, float64(lf), tiny)
	assert.Equal(t, "06:00", d.Site.Peak.At.String())
	assert.InDelta(t, 1100, float64(d.Site.Peak.Power), tiny)
	assert.Equal(t, d.Site.Peak, d.Site.Demand, "nothing cycles")

	lights, ok := d.Category(loads.Lighting)
	require.True(t, ok)
	assert.InDelta(t, 12, float64(lights.Energy), tiny)
	c, ok := d.Cost.Get()
	require.True(t, ok)
	assert.InDelta(t, 43.80, float64(c.Energy), tiny)
	assert.InDelta(t, 11.00, float64(c.Demand), tiny)
	assert.InDelta(t, 54.80, float64(c.Month), tiny)
	assert.Equal(t, "USD", c.Currency)
	assert.False(t, c.Seasonal)
	assert.False(t, c.AtLeast)
	assert.Equal(t, c.Summer, c.Winter)
}

// 1 kW from 20:00 to 04:00. Dear power from 22:00 to 02:00 on weekdays.
// By hand: 8 kWh a day, 4 of them dear on five days of seven. In a month of 365/12 days:
// dear 4 · 5/7 · 365/12 = 86.9048 kWh, the rest 243.3333 − 86.9048 = 156.4286 kWh;
// 86.9048 · 0.30 + 156.4286 · 0.10 = 41.7143.
func TestTimeOfUseAcrossMidnight(t *testing.T) {
	s := newSite()
	s.room("flower", window("20:00-04:00"), 1000)
	s.inv.Tariff = inventory.Tariff{Energy: []inventory.EnergyPrice{
		{Price: 0.10},
		{Price: 0.30, Hours: units.Is(window("22:00-02:00")), Days: units.Is("weekdays")},
	}}
	c, ok := s.day().Cost.Get()
	require.True(t, ok)
	require.Len(t, c.Summer.Lines, 2)
	assert.InDelta(t, 156.428571, float64(c.Summer.Lines[0].Energy), 1e-6)
	assert.InDelta(t, 86.904762, float64(c.Summer.Lines[1].Energy), 1e-6)
	assert.InDelta(t, 41.714286, float64(c.Month), 1e-6)
	assert.False(t, c.Seasonal, "the price knows days, no season")
}

// 2 kW all day at 0.20 in summer from 14:00 to 20:00 and 0.10 else.
// By hand: a month takes 1,460 kWh. Summer: 365 · 0.20 + 1,095 · 0.10 = 182.50; winter
// 146.00; mean of the year (4 · 182.50 + 8 · 146) / 12 = 158.1667.
func TestSeasonsAreFourMonthsAndEight(t *testing.T) {
	s := newSite()
	s.fans("", 2000)
	s.inv.Tariff = inventory.Tariff{Energy: []inventory.EnergyPrice{
		{Price: 0.20, Hours: units.Is(window("14:00-20:00")), Season: units.Is("summer")}, {Price: 0.10}}}
	d := s.day()
	c, ok := d.Cost.Get()
	require.True(t, ok)
	assert.True(t, c.Seasonal)
	assert.InDelta(t, 182.50, float64(c.Summer.Total), 1e-9)
	assert.InDelta(t, 146.00, float64(c.Winter.Total), 1e-9)
	assert.InDelta(t, 158.166667, float64(c.Month), 1e-6)
	assert.Equal(t, c.Summer, c.Season(day.SummerMonths))
	assert.Equal(t, c.Winter, c.Season(day.WinterMonths))
}

// 1 kW from 06:00 to 18:00 with ramps of 30 minutes. By hand: each ramp gives half its
// time, 11 + 0.5 = 11.5 kWh; the first quarter-hour has a mean of a quarter, the second of
// three quarters, so that the hour of dawn has 0.75 kW.
func TestRampsTakeHalfTheirTime(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-18:00"), 1000, ramp(30))
	s.room("night", window("18:00-06:00"), 1000, ramp(30))
	d := s.day()
	g, ok := d.Room("flower")
	require.True(t, ok)
	assert.InDelta(t, 11.5, float64(g.Energy), tiny)
	assert.InDelta(t, 750, watts(g, 6), 1e-6)
	assert.InDelta(t, 1000, watts(g, 7), 1e-6)
	assert.InDelta(t, 750, watts(g, 17), 1e-6)
	assert.Equal(t, "06:30", g.Peak.At.String(), "the first quarter-hour at full level")
	g, _ = d.Room("night")
	assert.InDelta(t, 11.5, float64(g.Energy), tiny, "a run across midnight has two ramps, not four")
	assert.InDelta(t, 1000, watts(g, 23), 1e-6)
}

// A run of 30 minutes with ramps of 30 rises to half and sets again: 0.125 kWh.
func TestRunTooShortForItsRampsTurnsInTheMiddle(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-06:30"), 1000, ramp(30))
	assert.InDelta(t, 0.125, float64(s.day().Site.Energy), tiny)
}

// A pump of 1,000 W at a duty of 0.25 all day and a fan of 100 W. By hand: 6 + 2.4 kWh;
// running 350 W, but 1,100 W when the pump is on.
func TestDutyIsEnergyAndCyclingIsDemand(t *testing.T) {
	s := newSite()
	s.equipment(inventory.Pump, "", 1000, clock.Always()).Duty = units.Is(units.Ratio(0.25))
	s.fans("", 100)
	s.inv.Tariff.Demand = units.Is(units.Money(20))
	d := s.day()
	assert.InDelta(t, 8.4, float64(d.Site.Energy), tiny)
	assert.InDelta(t, 350, float64(d.Site.Peak.Power), tiny)
	assert.InDelta(t, 1100, float64(d.Site.Demand.Power), tiny)
	assert.InDelta(t, 1100, float64(d.Site.Hours[3].Coincident), tiny)
	c, _ := d.Cost.Get()
	assert.InDelta(t, 22, float64(c.Demand), tiny, "the demand charge is on the coincident figure")
}

// 2 fixtures of 500 W at a level of 0.6 and power factor 0.8, ten hours: 600 W, 750 VA.
func TestLevelActsOnRunningPowerAndApparentFollows(t *testing.T) {
	s := newSite()
	s.room("flower", window("08:00-18:00"), 0)
	i := &s.inv.Items[0]
	i.Count, i.Power, i.Level, i.PowerFactor = 2, units.Is(500*units.Watt), units.Is(units.Ratio(0.6)), units.Is(units.Ratio(0.8))
	d := s.day()
	assert.InDelta(t, 6, float64(d.Site.Energy), tiny)
	assert.InDelta(t, 600, float64(d.Site.Demand.Power), tiny)
	assert.InDelta(t, 750, float64(d.Site.DemandVA.Apparent), tiny)
	assert.InDelta(t, 750, float64(d.Site.Hours[8].Apparent), tiny)
}

// A window that cuts a quarter-hour: 1 kW from 06:05 to 06:20. By hand: ten minutes of the
// first quarter-hour, five of the second.
func TestPeakIsTheMeanOfAQuarterHour(t *testing.T) {
	s := newSite()
	s.equipment(inventory.Pump, "", 1000, window("06:05-06:20"))
	d := s.day()
	assert.InDelta(t, 1000.0*10/15, float64(d.Site.Peak.Power), 1e-6)
	assert.Equal(t, "06:00", d.Site.Peak.At.String())
	assert.InDelta(t, 0.25, float64(d.Site.Energy), tiny)
}

// Two rooms of 20 kW. Lit together: 40 kW, load factor 0.5. By turns: 20 kW, load factor
// 1. The same 480 kWh a day.
func TestRoomsByTurnsDoubleTheLoadFactor(t *testing.T) {
	for second, want := range map[string]struct{ peak, factor float64 }{"06:00-18:00": {40_000, 0.5}, "18:00-06:00": {20_000, 1}} {
		s := newSite()
		s.room("a", window("06:00-18:00"), 20_000)
		s.room("b", window(second), 20_000)
		d := s.day()
		lf, _ := d.Site.LoadFactor.Get()
		assert.InDelta(t, 480, float64(d.Site.Energy), 1e-6)
		assert.InDelta(t, want.peak, float64(d.Site.Peak.Power), 1e-6)
		assert.InDelta(t, want.factor, float64(lf), tiny)
	}
}

func TestLeastBillIsReached(t *testing.T) {
	s := newSite()
	s.fans("", 100)
	s.inv.Tariff = inventory.Tariff{Energy: []inventory.EnergyPrice{{Price: 0.10}}, Minimum: units.Is(units.Money(25))}
	c, _ := s.day().Cost.Get() // 73 kWh, 7.30
	assert.InDelta(t, 7.30, float64(c.Energy), tiny)
	assert.InDelta(t, 17.70, float64(c.Added), tiny)
	assert.InDelta(t, 25, float64(c.Month), tiny)
}

// Demand 800 kW in summer and 300 in winter with a ratchet of 80 %: winter months are
// billed for 640.
func TestRatchetRaisesTheOtherMonths(t *testing.T) {
	tariff := inventory.Tariff{Demand: units.Is(units.Money(10)), Ratchet: units.Is(units.Ratio(0.8))}
	b := day.BillOf(tariff, day.Use{Demand: 300_000, Highest: 800_000})
	assert.InDelta(t, 640_000, float64(b.Billed), tiny)
	assert.InDelta(t, 6400, float64(b.DemandCost), tiny)
	b = day.BillOf(tariff, day.Use{Demand: 700_000, Highest: 800_000})
	assert.InDelta(t, 700_000, float64(b.Billed), tiny, "its own demand where that is larger")
}

func TestLoadsAreSummedByPanelWithWhatItFeeds(t *testing.T) {
	s := newSite()
	s.inv.Panels = []inventory.Panel{{Name: "MDP"}, {Name: "LP2", FedBy: "MDP"}, {Name: "LP10", FedBy: "LP2"}}
	for panel, p := range map[string]units.Power{"MDP": 100, "LP2": 200, "LP10": 400} {
		s.fans("", p).Panel = panel
	}
	s.fans("", 800)
	d := s.day()
	var names []string
	for _, p := range d.Panels {
		names = append(names, p.All.Name)
	}
	assert.Equal(t, []string{"LP2", "LP10", "MDP", ""}, names, "in natural order, no panel last")
	for panel, want := range map[string][2]float64{"MDP": {100, 700}, "LP2": {200, 600}, "LP10": {400, 400}, "": {800, 800}} {
		p, ok := d.Panel(panel)
		require.True(t, ok, panel)
		assert.InDelta(t, want[0], float64(p.Own.Peak.Power), tiny, panel)
		assert.InDelta(t, want[1], float64(p.All.Peak.Power), tiny, panel)
	}
}

// Of interlocked loads one runs: two heaters of 1,500 and 1,000 W that may both be on all
// day are 1,500 W, on the bill and in the energy. Two pumps that share the day by halves
// are counted as they are.
func TestInterlockedLoadsAreNotBothOn(t *testing.T) {
	s := newSite()
	for _, p := range []units.Power{1500, 1000} {
		s.equipment(inventory.Heater, "", p, clock.Always()).Interlock = "one"
	}
	d := s.day()
	assert.InDelta(t, 1500, float64(d.Site.Peak.Power), 1e-6)
	assert.InDelta(t, 1500, float64(d.Site.Demand.Power), 1e-6)
	assert.InDelta(t, 36, float64(d.Site.Energy), 1e-6)

	s = newSite()
	for range 2 {
		i := s.equipment(inventory.Pump, "", 1000, clock.Always())
		i.Interlock, i.Duty = "lead", units.Is(units.Ratio(0.5))
	}
	d = s.day()
	assert.InDelta(t, 24, float64(d.Site.Energy), 1e-6)
	assert.InDelta(t, 1000, float64(d.Site.Demand.Power), 1e-6)
}

func TestBurnerWithoutHoursRunsInTheLight(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-18:00"), 1000)
	s.item(inventory.Equipment, inventory.CO2Burner, "flower", 50)
	assert.InDelta(t, 12.6, float64(s.day().Site.Energy), tiny)
}

func TestEmptySiteHasNoFigures(t *testing.T) {
	d := newSite().day()
	assert.Zero(t, d.Site.Energy)
	assert.False(t, d.Site.LoadFactor.Known())
	assert.Equal(t, heat.Mean, d.Site.Peak.Day)
	assert.False(t, d.Cost.Known())
	assert.Equal(t, "the file has no [tariff]", d.Cost.Why())
}

// A room behind thin walls is cooled in summer and not in winter, so that the
// summer's demand is the year's highest and winter months are billed for 80 % of it.
func TestTheRatchetKnowsTheSummerInWinter(t *testing.T) {
	s := newSite()
	s.inv.Site.Outdoor = inventory.Outdoor{Summer: units.Is(units.FromFahrenheit(100)), SummerWetBulb: units.Is(units.FromFahrenheit(75)), Winter: units.Is(units.FromFahrenheit(20))}
	s.room("bloom", window("06:00-18:00"), 2000, func(r *inventory.Room) {
		r.Inside = false
		r.Walls = inventory.Surface{Area: units.Is(units.Area(1000)), U: units.Is(units.Transmittance(0.5))}
	})
	cooler := s.item(inventory.Equipment, inventory.AirConditioner, "bloom", 5000)
	cooler.Cooling = units.Is(units.FromTons(5))
	s.inv.Tariff = inventory.Tariff{Currency: "USD", Demand: units.Is(units.Money(10)), Ratchet: units.Is(units.Ratio(0.8))}
	c, ok := s.day().Cost.Get()
	require.True(t, ok)
	require.Greater(t, float64(c.Summer.Demand), 1.5*float64(c.Winter.Demand))
	assert.InDelta(t, 0.8*float64(c.Summer.Demand), float64(c.Winter.Billed), tiny)
	assert.InDelta(t, float64(c.Summer.Demand), float64(c.Summer.Billed), tiny)
}
