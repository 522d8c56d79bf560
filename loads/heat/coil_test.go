package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// A coil takes water only while it runs. One of 10 tons, 7.5 of them dry, has its fan's
// 1,460 W and 18,205 BTU/h of the room to cool dry: a quarter of the hour.
func TestOversizedCoilIsNoProofAgainstWater(t *testing.T) {
	fan := 1460 * units.BTUPerHourPerWatt
	e := balance(t, wateredRoom(split(1, 10, 7.5))).Equipment
	wet := e.Cooling[2]
	assert.InDelta(t, 30000, known(t, wet.Installed).BTUPerHour(), 1e-6)
	assert.Equal(t, heat.CannotTell, wet.Holds, "9,253 of water against 30,000, but not while it stands still")
	assert.Equal(t, heat.No, wet.HoldsWithoutOne)
	run := (27458.35 - 9253 + fan) / 90000
	c := known(t, wet.Cycling)
	assert.InDelta(t, run, float64(c.Run), 1e-4)
	assert.InDelta(t, run*30000, c.Installed.BTUPerHour(), 1)
	// By day 96 L/day less what the coil takes in a quarter of the hour, dehumidifiers
	// none: the need is not nothing.
	lit := e.Dehumidifying[1]
	assert.Zero(t, lit.Needed)
	assert.Equal(t, heat.CannotTell, lit.Holds)
	w := known(t, lit.Cycling)
	assert.InDelta(t, 96*(1-run*30000/9253), float64(w.Needed), 0.02)
	assert.Zero(t, w.Installed)

	// Two dehumidifiers of 48 L/day do without it: a yes, and no word of cycling. Without
	// one of them the coil has its heat too, 4,627 BTU/h of water and 600 W.
	e = balance(t, wateredRoom(split(1, 10, 7.5), item(inventory.Equipment, "dry", 2, 600*units.Watt, removes(48.01)))).Equipment
	assert.Equal(t, heat.Yes, e.Cooling[2].Holds)
	assert.False(t, e.Cooling[2].Cycling.Known())
	assert.Equal(t, heat.Yes, e.Cooling[2].HoldsWithoutOne)
	assert.Equal(t, heat.Yes, e.Dehumidifying[1].Holds)
	assert.Equal(t, heat.Yes, e.Dehumidifying[1].HoldsWithoutOne)

	// Where there is no coil nothing cycles.
	assert.False(t, balance(t, wateredRoom()).Equipment.Cooling[2].Cycling.Known())

	// A coil that is just large enough runs all the time.
	e = balance(t, wateredRoom(split(1, 3.5, 1.5))).Equipment
	assert.Equal(t, heat.Yes, e.Cooling[2].Holds)
	assert.False(t, e.Cooling[2].Cycling.Known())
}

func TestUnknownWaterKeepsItsRowsOpen(t *testing.T) {
	e := balance(t, site(room(walled), bars(), split(1, 3, 2.5))).Equipment
	require.Len(t, e.Cooling, 3)
	require.Len(t, e.Dehumidifying, 2)
	assert.Equal(t, "watering is not given", e.Cooling[2].NeededWhy)
	assert.Equal(t, heat.CannotTell, e.Cooling[2].Holds)
	for _, c := range e.Dehumidifying {
		assert.Equal(t, "watering is not given", c.NeededWhy)
		assert.Equal(t, heat.CannotTell, c.Holds)
		assert.Equal(t, heat.CannotTell, c.HoldsWithoutOne)
	}
}

// A dehumidifier that may find no water is no heater: 60 BTU/(h·°F) to 5 °F outside,
// held at 70 °F, and 300 W of fans.
func TestHeatingCountsOnNoDehumidifierWithoutWater(t *testing.T) {
	dry := item(inventory.Equipment, "dry", 1, 2000*units.Watt, removes(96))
	warm := item(inventory.Equipment, "warm", 1, 3000*units.Watt, kind(inventory.Heater), func(i *inventory.Item) { i.Hours = units.Unknown[clock.Windows]("") })
	bare := 3900 - 300*units.BTUPerHourPerWatt
	got := balance(t, weather(site(room(outside, walled), bars(), swing(), dry, warm)))
	h := got.Equipment.Heating
	assert.InDelta(t, bare, h.Needed.BTUPerHour(), 1e-6)
	assert.Equal(t, heat.CannotTell, h.Holds, "what would evaporate takes heat too")
	assert.Equal(t, "dehumidifiers off", h.State)
	assert.Empty(t, got.Equipment.HeatingAlso)

	// With water: before planting there is none to take, and with the dehumidifiers off
	// 1 L/h × 1,053.8 BTU/lb takes heat out as well.
	got = balance(t, weather(site(room(outside, walled, watered(60/0.97)), bars(), swing(), dry, warm)))
	assert.Equal(t, heat.SmallPlants, got.Coldest.Canopy)
	h = got.Equipment.Heating
	assert.InDelta(t, bare, h.Needed.BTUPerHour(), 1e-6)
	assert.Equal(t, "dehumidifiers running", h.State)
	assert.Equal(t, heat.Yes, h.Holds)
	require.Len(t, got.Equipment.HeatingAlso, 1)
	off := got.Equipment.HeatingAlso[0]
	assert.Equal(t, "dehumidifiers off", off.State)
	assert.InDelta(t, bare+1053.8/units.KilogramPerPound, off.Needed.BTUPerHour(), 1)
	assert.InDelta(t, off.Needed.BTUPerHour(), got.Reheat.Before.BTUPerHour(), 1e-6)
	assert.InDelta(t, bare-500*units.BTUPerHourPerWatt, known(t, got.Reheat.After).BTUPerHour(), 1, "a quarter of its hour")
	assert.Contains(t, got.HeatAndDryWhy, "1,170 BTU/h with the heat that the room's dehumidifiers give back")
}

// 400 CFM at 5 °F: the case with the fan on, and the one with it off, each by name.
func TestHeatingWithAndWithoutTheExhaust(t *testing.T) {
	fan := func(r *inventory.Room) { r.Exhaust, r.AirChanges = units.Is(400*units.CFM), units.Unknown[float64]("") }
	got := balance(t, weather(site(room(outside, walled, fan, watered(0)), bars(), swing())))
	on, off := 1.08*400*65+3900-300*units.BTUPerHourPerWatt, 3900-300*units.BTUPerHourPerWatt
	assert.InDelta(t, on, got.Equipment.Heating.Needed.BTUPerHour(), 1e-6)
	assert.Equal(t, "exhaust running", got.Equipment.Heating.State)
	require.Len(t, got.Equipment.HeatingAlso, 1)
	assert.InDelta(t, off, got.Equipment.HeatingAlso[0].Needed.BTUPerHour(), 1e-6)
	assert.Equal(t, "exhaust off", got.Equipment.HeatingAlso[0].State)
	assert.InDelta(t, -off, got.Coldest.Hour.Sensible.BTUPerHour(), 1e-6)
	assert.InDelta(t, -on, known(t, got.ColdestVented).Hour.Sensible.BTUPerHour(), 1e-6)
}

func TestSunIsMissedOutOfDoors(t *testing.T) {
	got := balance(t, weather(site(room(outside, walled, watered(0)), bars(), split(1, 10, 7.5))))
	assert.True(t, got.AtLeast)
	assert.True(t, got.Sunless)
	assert.Equal(t, heat.CannotTell, got.Equipment.Cooling[0].Holds)
	assert.Equal(t, "sun on walls and roof is not counted", got.Equipment.Cooling[0].Least)
	assert.Equal(t, heat.Yes, got.Equipment.Cooling[2].Holds, "it brings no water")
	assert.False(t, balance(t, site(room(walled), bars())).AtLeast, "none falls inside a building")
	inv := weather(site(room(outside, walled), bars()))
	all := heat.Balance(inv, loads.Build(inv, loads.CodeValues{}))
	assert.True(t, all.Block.Sunless)
}

func TestNoSizesWhereTheLoadIsTheSunOrTheFan(t *testing.T) {
	glass := func(r *inventory.Room) { r.Roof.U = units.Is(units.Transmittance(0.7)) }
	e := balance(t, weather(site(room(outside, glass), bars()))).Equipment
	assert.Empty(t, e.Sizes)
	assert.Contains(t, e.SizesWhy, "let light through")
	assert.NotEmpty(t, balance(t, weather(site(room(outside, walled), bars()))).Equipment.Sizes)

	fan := func(v units.Airflow) func(*inventory.Room) {
		return func(r *inventory.Room) { r.Exhaust, r.AirChanges = units.Is(v), units.Unknown[float64]("") }
	}
	got := balance(t, weather(site(room(outside, fan(3000)), bars())))
	assert.Empty(t, got.Equipment.Sizes)
	assert.Equal(t, "most of the load is the outdoor air that the exhaust draws in", got.Equipment.SizesWhy)
	assert.Contains(t, subjects(got), "rooms.flower.exhaust.hours")
	assert.NotEmpty(t, balance(t, weather(site(room(outside, fan(50)), bars()))).Equipment.Sizes)
}

// The nominal size leaves a quarter for water: 3.5 tons, 10,500 BTU/h.
func TestSizesSayWhatTheyLeaveForWater(t *testing.T) {
	assert.InDelta(t, 10500, balance(t, wateredRoom()).Equipment.SizeLatent.BTUPerHour(), 1e-6)
}

// 12 lights of 650 W at 80 %, and 300 W of fans.
func TestDimmedLightsAreNoLimit(t *testing.T) {
	dim := bars()
	dim.Level = units.Is(units.Ratio(0.8))
	got := balance(t, site(room(), dim, swing()))
	assert.InDelta(t, 6240+300, float64(got.Peak.Total()), 1e-6)
	assert.InDelta(t, 7800+300, float64(known(t, got.Undimmed)), 1e-6)
	assert.False(t, balance(t, site(room(), bars())).Undimmed.Known())
}

func TestIndoorFanOfWhatStandsOutdoorsIsNamed(t *testing.T) {
	out := split(1, 1.5, 1.1)
	out.Outdoors = true
	got := balance(t, wateredRoom(out))
	require.Len(t, got.LeftOut, 1)
	assert.Equal(t, "stands outdoors; its indoor fan, some 219 W at 400 CFM per ton, is not counted", got.LeftOut[0].Why)
}

func TestSensibleHeatRatioStaysBetweenNoneAndAll(t *testing.T) {
	for _, g := range []heat.Gain{{Sensible: -1, Latent: 3}, {Sensible: 3, Latent: -1}, {Sensible: -1, Latent: -1}, {}} {
		assert.False(t, g.Ratio().Known(), "%v", g)
	}
	assert.InDelta(t, 0.75, float64(known(t, heat.Gain{Sensible: 3, Latent: 1}.Ratio())), 1e-12)
	assert.InDelta(t, 1, float64(known(t, heat.Gain{Sensible: 3}.Ratio())), 1e-12)
}

// 95 °F with 75 °F wet bulb at sea level: 0.01410 lb/lb, 98.7 grains.
func TestOutdoorMoistureOfTheSummerDesign(t *testing.T) {
	inv := weather(site(room(), bars()))
	got := heat.Balance(inv, loads.Build(inv, loads.CodeValues{}))
	assert.InDelta(t, 98.7, known(t, got.SummerRatio).Grains(), 0.4)
	inv.Site.Outdoor.SummerWetBulb = units.Unknown[units.Temperature]("")
	assert.False(t, heat.Balance(inv, loads.Build(inv, loads.CodeValues{})).SummerRatio.Known())
}
