package day_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// grown is a room of 10 kW lit by day, watered, with cooling and a dehumidifier whose duty
// is not stated.
func grown() *testSite {
	s := newSite()
	s.inv.Site.Outdoor = inventory.Outdoor{Summer: units.Is(units.FromFahrenheit(95)), SummerWetBulb: units.Is(units.FromFahrenheit(75)),
		Winter: units.Is(units.FromFahrenheit(0))}
	s.room("flower", window("06:00-18:00"), 10_000, ramp(30), func(r *inventory.Room) {
		r.Inside = false
		r.Length, r.Width, r.Height = units.Is(units.Length(30)), units.Is(units.Length(20)), units.Is(units.Length(10))
		r.Walls = inventory.Surface{Area: units.Is(units.Area(1000)), U: units.Is(units.Transmittance(0.08))}
		r.AirChanges = units.Is(0.1)
		r.Watering = units.Is(units.WaterRate(60))
	})
	s.item(inventory.Equipment, inventory.AirConditioner, "flower", 5000).Cooling = units.Is(units.FromTons(5))
	s.inv.Items[1].Outdoors = true
	s.item(inventory.Equipment, inventory.Dehumidifier, "flower", 1500).Removes = units.Is(units.WaterRate(100))
	s.item(inventory.Equipment, inventory.Heater, "flower", 4000)
	return s
}

const (
	cooler = 1 // places in grown's items
	dryer  = 2
	heater = 3
)

func load(d day.Day, c string) [24]float64 {
	var out [24]float64
	for _, g := range d.Categories {
		if g.Name == c {
			for h := range out {
				out[h] = float64(g.Hours[h].Power)
			}
		}
	}
	return out
}

// ownDraw returns what an item that gives no heat to the room draws: what the climate
// equipment draws more where its power is doubled.
func ownDraw(s *testSite, item int) [24]float64 {
	all := load(s.day(), "climate")
	other := newSite()
	*other.inv = *s.inv
	other.inv.Items = append([]inventory.Item{}, s.inv.Items...)
	other.inv.Items[item].Power = units.Is(units.Times(s.inv.Items[item].Power.Or(0), 2))
	twice := load(other.day(), "climate")
	var out [24]float64
	for h := range out {
		out[h] = twice[h] - all[h]
	}
	return out
}

func TestCoolingRunsAsTheRoomAsks(t *testing.T) {
	s := grown()
	draws := ownDraw(s, cooler)
	room, ok := heat.Balance(s.inv, s.set()).Room("flower")
	require.True(t, ok)
	capacity, ok := room.Equipment.Cooling[0].Installed.Get()
	require.True(t, ok)
	dry, ok := room.Equipment.Cooling[1].Installed.Get()
	require.True(t, ok)
	partial := 0
	for h, hour := range room.Mean.Hours {
		share := min(1, max(0, units.Per(hour.Total(), capacity), units.Per(hour.Sensible, dry)))
		assert.InDelta(t, 5000*share, draws[h], 1e-6, "%02d:00", h)
		if share > 0 && share < 1 {
			partial++
		}
	}
	assert.Greater(t, partial, 10, "the room asks for part of it")
	d := s.day()
	assert.InDelta(t, 5000+10_000+1500, float64(d.Site.Demand.Power), 1e-6, "cooling, drying and lights at once; no heat is asked for in the light")
}

// Drying draws what the heat balance says that dehumidifiers draw.
func TestDryingRunsAsTheRoomAsks(t *testing.T) {
	s := grown()
	room, _ := heat.Balance(s.inv, s.set()).Room("flower")
	s.inv.Items[cooler].Duty, s.inv.Items[heater].Duty = units.Is(units.Ratio(0)), units.Is(units.Ratio(0))
	again, _ := heat.Balance(s.inv, s.set()).Room("flower")
	got := load(s.day(), "climate")
	for h := range got {
		want := float64(again.Mean.Hours[h].Part(heat.Dehumidifiers).Total())
		assert.InDelta(t, want, got[h], 1e-6, "%02d:00", h)
		assert.Less(t, want, 1500.0)
		assert.Greater(t, want, 0.0)
		assert.InDelta(t, want, float64(room.Mean.Hours[h].Part(heat.Dehumidifiers).Total()), 1e-6)
	}
}

// A dehumidifier of stated duty beside one that follows keeps to it.
func TestStatedDutyStandsBesideWhatFollows(t *testing.T) {
	s := grown()
	s.inv.Items[cooler].Duty, s.inv.Items[heater].Duty = units.Is(units.Ratio(0)), units.Is(units.Ratio(0))
	i := s.item(inventory.Equipment, inventory.Dehumidifier, "flower", 600)
	i.Removes, i.Duty = units.Is(units.WaterRate(20)), units.Is(units.Ratio(0.5))
	room, _ := heat.Balance(s.inv, s.set()).Room("flower")
	got := load(s.day(), "climate")
	for h := range got {
		assert.InDelta(t, float64(room.Mean.Hours[h].Part(heat.Dehumidifiers).Total()), got[h], 1e-6)
		assert.GreaterOrEqual(t, got[h], 300.0)
	}
}

// A winter night asks for heat; the mean day's dark hours may not. Heating counts in the
// demand of the winter day.
func TestHeatingRunsInTheHoursThatLackHeat(t *testing.T) {
	s := grown()
	s.inv.Items = append(s.inv.Items[:cooler], s.inv.Items[heater])
	room, _ := heat.Balance(s.inv, s.set()).Room("flower")
	got := load(s.day(), "climate")
	cold := 0
	for h, hour := range room.Mean.Hours {
		want := 4000 * min(1, max(0, float64(-hour.Sensible)/4000))
		assert.InDelta(t, want, got[h], 1e-6, "%02d:00", h)
		if want > 0 {
			cold++
		}
	}
	assert.Positive(t, cold)
}

// Lights are the same watts in the day and in the heat balance, hour by hour.
func TestLightsAreWhatTheHeatBalanceCounts(t *testing.T) {
	d := grown().day()
	room, _ := d.Heat.Room("flower")
	got := load(d, "lighting")
	for h, hour := range room.Mean.Hours {
		assert.InDelta(t, float64(hour.Part(heat.Lights).Total()), got[h], 1e-6)
		assert.InDelta(t, float64(hour.Total()), float64(d.Site.Hours[h].Heat), 1e-6)
	}
}

// Without what the balance needs, equipment counts as running all its hours, and the
// reader is told.
func TestEquipmentThatNothingIsKnownOfRunsAllItsHours(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-18:00"), 1000)
	s.item(inventory.Equipment, inventory.AirConditioner, "flower", 2000)
	s.item(inventory.Equipment, inventory.Dehumidifier, "flower", 500)
	d := s.day()
	g, _ := d.Category("climate")
	assert.InDelta(t, 2.5*24, float64(g.Energy), 1e-9)
	var told []string
	for _, a := range d.Assumptions {
		if strings.HasSuffix(a.Subject, ".duty") {
			told = append(told, a.Subject+" = "+a.Value)
		}
	}
	assert.Equal(t, []string{"equipment.item-1.duty = 1", "equipment.item-2.duty = 1"}, told)
}

// A load whose watts are not known is left out, named, and makes the totals that it belongs
// to least values.
func TestUnknownWattsAreListedAndNeverZeroInSilence(t *testing.T) {
	s := newSite()
	s.room("flower", window("06:00-18:00"), 1000)
	s.room("veg", window("06:00-18:00"), 500)
	i := s.item(inventory.Equipment, inventory.Other, "flower", 0)
	i.Power, i.Count = units.Known[units.Power]{}, 3
	i.Nameplate = units.Is(inventory.Nameplate{MinCircuit: units.Is(units.Current(20))})
	s.inv.Tariff.Energy = []inventory.EnergyPrice{{Price: 0.1}}
	d := s.day()
	require.Len(t, d.Missing, 1)
	assert.Equal(t, day.Missing{Path: "equipment.item-1", Room: "flower", Count: 3, Why: "neither power nor current is given, only a nameplate"}, d.Missing[0])
	assert.True(t, d.AtLeast())
	flower, _ := d.Room("flower")
	veg, _ := d.Room("veg")
	assert.True(t, flower.AtLeast)
	assert.False(t, veg.AtLeast)
	c, _ := d.Cost.Get()
	assert.True(t, c.AtLeast)
	assert.InDelta(t, 18, float64(d.Site.Energy), 1e-9)
}

// Cooling of stated capacity and unknown watts counts as the heat balance estimates it.
func TestCoolingWithoutElectricalDataIsEstimated(t *testing.T) {
	s := grown()
	i := &s.inv.Items[cooler]
	i.Power = units.Known[units.Power]{}
	i.Nameplate = units.Is(inventory.Nameplate{MinCircuit: units.Is(units.Current(30))})
	d := s.day()
	assert.Empty(t, d.Missing)
	assert.InDelta(t, float64(heat.CoolingPower(units.FromTons(5), 10))+10_000+1500, float64(d.Site.Demand.Power), 1)
	found := false
	for _, a := range append(s.set().Assumptions, d.Assumptions...) {
		found = found || a.Subject == "equipment.item-1.power"
	}
	assert.True(t, found, "and is listed")
}

func TestNeverIsNoEnergy(t *testing.T) {
	s := newSite()
	s.equipment(inventory.Other, "", 1000, clock.Never())
	assert.Zero(t, s.day().Site.Energy)
}
