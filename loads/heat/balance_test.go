package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// 20 bars of 625 W draw 12,500 W: 20 × 2,133 = 42,652 BTU/h, 3.55 tons.
func TestLightsAloneAreTheirWatts(t *testing.T) {
	got := balance(t, site(room(), item(inventory.Fixtures, "bar", 20, 625*units.Watt)))
	assert.InDelta(t, 42652, got.Peak.Total().BTUPerHour(), 0.5)
	assert.InDelta(t, 3.554, got.Tons, 0.0005)
	assert.Equal(t, 6, got.Peak.At, "of equal hours the first")
	assert.Equal(t, 12500*units.Watt, got.Watts)
	assert.Equal(t, units.Heat(0), known(t, got.LightsOff).Total())
	assert.False(t, got.AtLeast)
	assert.Empty(t, got.Missing)
}

func TestWhatGoesElsewhereIsLeftOutAndListed(t *testing.T) {
	share := func(x units.Ratio) units.Known[units.Ratio] { return units.Is(x) }
	got := balance(t, site(room(),
		item(inventory.Fixtures, "remote", 10, 600*units.Watt, func(i *inventory.Item) { i.RemoteDriver = share(0.06) }),
		item(inventory.Fans, "exhaust", 1, 200*units.Watt, func(i *inventory.Item) { i.Duct = share(1) }),
		item(inventory.Equipment, "condenser", 1, 3000*units.Watt, kind(inventory.Other), func(i *inventory.Item) { i.Outdoors = true }),
		item(inventory.Equipment, "split", 1, 2000*units.Watt, cools(units.FromTons(2))),
	))
	fan := 2 * 146.0 // W, of the split's indoor unit
	assert.InDelta(t, 5640, float64(got.Peak.Part(heat.Lights).Sensible), 1e-6)
	assert.Equal(t, heat.Gain{}, got.Peak.Part(heat.Fans))
	assert.InDelta(t, fan, float64(got.Peak.Part(heat.CoolingFans).Sensible), 1e-6)
	assert.InDelta(t, 5640+fan, float64(got.Watts), 1e-6)
	require.Len(t, got.LeftOut, 4)
	sum := units.Power(0)
	for _, l := range got.LeftOut {
		sum += l.Watts
		assert.NotEmpty(t, l.Why)
	}
	assert.InDelta(t, 360+200+3000+2000-fan, float64(sum), 1e-6)
	assert.Equal(t, "condenser", got.LeftOut[0].Name, "in natural order")
}

// The dimmed level acts on heat; boost, which sizes the circuit, does not.
func TestLevelActsOnHeatAndBoostDoesNot(t *testing.T) {
	got := balance(t, site(room(), item(inventory.Fixtures, "bar", 10, 600*units.Watt, func(i *inventory.Item) {
		i.Level, i.Boost = units.Is(units.Ratio(0.75)), units.Is(700*units.Watt)
	})))
	assert.Equal(t, 4500*units.Watt, got.Watts)
}

func TestAnUnknownLoadMakesTotalsALeastValue(t *testing.T) {
	got := balance(t, site(room(), bars(), item(inventory.Equipment, "mystery", 1, 0, kind(inventory.Other), func(i *inventory.Item) {
		i.Power = units.Unknown[units.Power]("not given")
		i.Nameplate = units.Is(inventory.Nameplate{MinCircuit: units.Is(12 * units.Ampere)})
	})))
	assert.True(t, got.AtLeast)
	require.Len(t, got.Missing, 1)
	assert.Contains(t, got.Missing[0], "equipment.mystery: its watts are not known")
	assert.InDelta(t, 7800, float64(got.Peak.Total()), 1e-6, "the rest is still told")
	unknown := item(inventory.Equipment, "mystery", 1, 0, kind(inventory.Other), func(i *inventory.Item) { i.Power = units.Unknown[units.Power]("") })
	got = balance(t, site(room(), bars(), unknown, item(inventory.Equipment, "split", 2, 9000*units.Watt, cools(units.FromTons(10)))))
	for _, c := range got.Equipment.Cooling {
		assert.Equal(t, heat.CannotTell, c.Holds, "a least value proves no equipment large enough")
	}
	got = balance(t, site(room(), bars(), unknown, item(inventory.Equipment, "split", 1, 900*units.Watt, cools(units.FromTons(1)))))
	assert.Equal(t, heat.No, got.Equipment.Cooling[0].Holds, "but it proves one too small")
}

func TestOutdoorDesignIsNeverInvented(t *testing.T) {
	inv := site(room(outside, walled), bars())
	got := balance(t, inv)
	assert.True(t, got.AtLeast)
	assert.Equal(t, []string{
		"site.outdoor.summer: not given, so that the heat that comes in from outside cannot be told",
		"site.outdoor.winter: not given, so that the heat lost in winter cannot be told",
	}, got.Missing)
	assert.False(t, got.Summer.Whole)
	assert.Equal(t, heat.Gain{}, got.Peak.Part(heat.Envelope))
	assert.False(t, got.Peak.Around.Known())

	inv.Site.Outdoor.Summer = fahrenheit(95)
	got = balance(t, inv)
	assert.Equal(t, "sun on walls and roof is not counted", got.Equipment.Cooling[0].Least, "winter bears on heating only")
	assert.Len(t, got.Missing, 1)
	assert.Equal(t, heat.Summer, got.Coldest.Day, "a winter day without its walls does not compete")
	assert.Equal(t, heat.CannotTell, got.Equipment.Heating.Holds)
}

// Walls of 60 BTU/(h·°F), 95 °F against 78 °F: 60 × 17 = 1,020 BTU/h at 14:00 and
// 15:00, the hottest hours; 5 °F against 70 °F in winter: 60 × −65 = −3,900.
func TestWallsFollowTheHourAndTheSeason(t *testing.T) {
	got := balance(t, weather(site(room(outside, walled), bars(), swing())))
	assert.Equal(t, 14, got.Peak.At)
	assert.Equal(t, heat.Summer, got.Peak.Day)
	assert.InDelta(t, 1020, got.Peak.Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
	// 05:00 is the coolest hour: the whole daily range of 15 °F below 95 °F.
	assert.InDelta(t, 60*(80-70), got.Summer.Hours[5].Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
	assert.Equal(t, heat.Winter, got.Coldest.Day)
	assert.InDelta(t, -3900+300*units.BTUPerHourPerWatt, got.Coldest.Hour.Sensible.BTUPerHour(), 1e-6)
	// The mean day lies between the two.
	s, w := got.Summer.Hours[12].Part(heat.Envelope).Total(), got.Winter.Hours[12].Part(heat.Envelope).Total()
	m := got.Mean.Hours[12].Part(heat.Envelope).Total()
	assert.Less(t, float64(w), float64(m))
	assert.Less(t, float64(m), float64(s))
	assert.Contains(t, got.Notes, "sun on and through walls and roof is not counted")
}

func TestSurfacesTakeTheRoomsSizeWhereNoAreaIsGiven(t *testing.T) {
	u := units.Is(units.Transmittance(0.05))
	got := balance(t, site(room(func(r *inventory.Room) { r.Walls.U, r.Roof.U, r.Floor.U = u, u, u }), bars()))
	// Walls 80 ft × 10 ft, roof and floor 400 ft²: 1,600 ft² × 0.05 × (75 − 78) °F.
	assert.InDelta(t, -240, got.Peak.Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
	got = balance(t, site(room(func(r *inventory.Room) { r.Walls.Area = units.Is(100 * units.SquareFoot) }), bars()))
	assert.Equal(t, []string{"rooms.flower.walls: its R or U value is not given"}, got.Missing)
}

// The floor of a room outdoors lies on the ground, not in the air.
func TestFloorsFeelTheGround(t *testing.T) {
	floor := func(r *inventory.Room) { r.Floor.U = units.Is(units.Transmittance(0.1)) }
	got := balance(t, weather(site(room(outside, floor), bars())))
	a, b := got.Summer.Hours[12].Part(heat.Envelope), got.Winter.Hours[12].Part(heat.Envelope)
	assert.Equal(t, a, b)
	assert.Negative(t, float64(a.Sensible))
	got = balance(t, site(room(outside, floor), bars()))
	assert.Empty(t, got.Missing, "the ground is assumed, not the weather")
	assert.InDelta(t, 40*(55-78), got.Peak.Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
}

// 0.5 changes of 4,000 ft³ are 33.3 CFM: 1.08 × 33.3 × 17 = 612 BTU/h dry in summer.
func TestLeakingAirBringsHeatAndWater(t *testing.T) {
	half := func(r *inventory.Room) { r.AirChanges = units.Is(0.5) }
	got := balance(t, weather(site(room(outside, half), bars())))
	g := got.Peak.Part(heat.Infiltration)
	assert.InDelta(t, 612, g.Sensible.BTUPerHour(), 0.5)
	// 95/75 °F holds 0.01407 lb/lb, the room 0.01126: 4840 × 33.3 × 0.00281 = 453.
	assert.InDelta(t, 453, g.Latent.BTUPerHour(), 2)
	w := got.Winter.Hours[12].Part(heat.Infiltration)
	assert.Negative(t, float64(w.Sensible))
	assert.Negative(t, float64(w.Latent), "winter air carries water off")

	// Not given: 0.5 for a room without cooling, 0.1 for one that is cooled, listed.
	none := func(r *inventory.Room) { r.AirChanges = units.Unknown[float64]("") }
	got = balance(t, weather(site(room(outside, none), bars())))
	assert.InDelta(t, 612, got.Peak.Part(heat.Infiltration).Sensible.BTUPerHour(), 0.5)
	assert.Contains(t, subjects(got), "rooms.flower.air_changes")
	got = balance(t, weather(site(room(outside, none), bars(), item(inventory.Equipment, "split", 1, 2000, cools(units.FromTons(3))))))
	assert.InDelta(t, 122.4, got.Peak.Part(heat.Infiltration).Sensible.BTUPerHour(), 0.1)
	// By night the day's humidity is more than cold air holds: it is saturated at most.
	// 80 °F with 79 °F wet bulb holds 0.0214 lb/lb, saturated 65 °F air 0.01321.
	muggy := weather(site(room(outside, half), bars()))
	muggy.Site.Outdoor.Summer, muggy.Site.Outdoor.SummerWetBulb = fahrenheit(80), fahrenheit(79)
	night := balance(t, muggy).Summer.Hours[5].Part(heat.Infiltration)
	assert.InDelta(t, 4840*33.333*(0.01321-0.00857), night.Latent.BTUPerHour(), 5)
	// Stated, and the wet bulb missing: the water cannot be told.
	inv := weather(site(room(outside, half), bars()))
	inv.Site.Outdoor.SummerWetBulb = units.Unknown[units.Temperature]("")
	assert.Contains(t, balance(t, inv).Missing[0], "summer_wet_bulb")
}

func subjects(r heat.Room) []string {
	var out []string
	for _, a := range r.Assumptions {
		out = append(out, a.Subject)
	}
	return out
}

func TestPeopleWorkWhileItIsLit(t *testing.T) {
	two := func(r *inventory.Room) { r.People = units.Is(2.0) }
	got := balance(t, site(room(two), bars()))
	assert.InDelta(t, 440, float64(got.Summer.Hours[12].Part(heat.People).Total()), 1e-9)
	assert.Equal(t, heat.Gain{}, got.Summer.Hours[0].Part(heat.People))
	// A trimming room without lights of its own: at any hour.
	got = balance(t, site(room(two, func(r *inventory.Room) { r.Lights = units.Unknown[clock.Windows]("") }), swing()))
	assert.InDelta(t, 440, float64(got.Summer.Hours[0].Part(heat.People).Total()), 1e-9)
	assert.False(t, got.LightsOn.Known())
}

func TestBurnerBurnsInLightAndGivesWater(t *testing.T) {
	flame := item(inventory.Equipment, "flame", 2, 20*units.Watt, kind(inventory.CO2Burner), func(i *inventory.Item) {
		i.Burns, i.Fuel, i.Hours = units.Is(units.FromBTUPerHour(10000)), units.Is("propane"), units.Unknown[clock.Windows]("")
	})
	got := balance(t, site(room(), bars(), flame))
	g := got.Summer.Hours[12].Part(heat.Burners)
	assert.InDelta(t, 0.921*20000+40*units.BTUPerHourPerWatt, g.Sensible.BTUPerHour(), 1e-6)
	assert.InDelta(t, 0.079*20000, g.Latent.BTUPerHour(), 1e-6)
	assert.Equal(t, heat.Gain{}, got.Summer.Hours[0].Part(heat.Burners))
	assert.Contains(t, got.Airflow.Why(), "carbon dioxide")
}

func TestHumidifiersMoveHeatSteamBringsIt(t *testing.T) {
	mist := item(inventory.Equipment, "mist", 1, 100*units.Watt, kind(inventory.Humidifier), func(i *inventory.Item) { i.Adds = units.Is(units.WaterRate(48)) })
	got := balance(t, site(room(), mist))
	assert.InDelta(t, 100, float64(got.Peak.Total()), 1e-9, "two litres an hour add nothing but the watts")
	assert.Negative(t, float64(got.Peak.Gain.Sensible))
	steam := mist
	steam.Power, steam.Steam = units.Is(1450*units.Watt), true
	got = balance(t, site(room(), steam))
	assert.InDelta(t, 1450, float64(got.Peak.Total()), 1e-9)
	assert.Positive(t, float64(got.Peak.Gain.Sensible), "the vapour's own warmth")
	assert.Less(t, float64(got.Peak.Gain.Sensible), 0.08*1450)
}

// A heater without hours is run by the room's thermostat: a means, not a gain.
func TestThermostatHeaterIsNoGain(t *testing.T) {
	warm := item(inventory.Equipment, "warm", 1, 5000*units.Watt, kind(inventory.Heater), func(i *inventory.Item) { i.Hours = units.Unknown[clock.Windows]("") })
	got := balance(t, site(room(), bars(), warm))
	assert.Equal(t, 7800*units.Watt, got.Watts)
	warm.Hours = units.Is(window("05:00-07:00"))
	got = balance(t, site(room(), bars(), warm))
	assert.Equal(t, 12800*units.Watt, got.Watts)
	assert.Equal(t, 6, got.Peak.At)
}

// Sunrise and sunset of 60 minutes: half of the first and of the last hour.
func TestRampsTakeHalfTheirTimeOffTheLights(t *testing.T) {
	ramp := func(r *inventory.Room) { r.Ramp = units.Is(60 * clock.Minute(1)) }
	got := balance(t, site(room(ramp), bars()))
	assert.InDelta(t, 3900, float64(got.Summer.Hours[6].Electric), 1e-6)
	assert.InDelta(t, 7800, float64(got.Summer.Hours[7].Electric), 1e-6)
	assert.InDelta(t, 3900, float64(got.Summer.Hours[17].Electric), 1e-6)
	// Across midnight the run is one: no ramp at 00:00.
	night := func(r *inventory.Room) { r.Lights = units.Is(window("18:30-06:30")) }
	got = balance(t, site(room(ramp, night), bars()))
	assert.InDelta(t, 7800, float64(got.Summer.Hours[0].Electric), 1e-6)
	assert.InDelta(t, 7800*0.125, float64(got.Summer.Hours[18].Electric), 1e-6, "half an hour from 0 to a half")
	always := func(r *inventory.Room) { r.Lights = units.Is(clock.Always()) }
	got = balance(t, site(room(ramp, always), bars()))
	assert.InDelta(t, 7800, float64(got.Summer.Hours[0].Electric), 1e-6)
	assert.Contains(t, got.LightsOff.Why(), "never off")
}

func TestHoursOfTheLightsMayBeUnknown(t *testing.T) {
	got := balance(t, site(room(func(r *inventory.Room) { r.Lights = units.Unknown[clock.Windows]("") }), bars()))
	assert.Equal(t, 7800*units.Watt, got.Watts)
	assert.Equal(t, "when the lights are on is not given", got.LightsOff.Why())
}

// Two rooms lit by turns: the building's worst hour is one of them, not both.
func TestBlockPeakIsOfTheSameHour(t *testing.T) {
	a, b := room(), room(func(r *inventory.Room) { r.Name, r.Lights = "flower-2", units.Is(window("18:00-06:00")) })
	lights := bars()
	other := bars()
	other.Name, other.Room = "bar-2", "flower-2"
	inv := &inventory.Inventory{Rooms: []inventory.Room{b, a}, Items: []inventory.Item{lights, other}}
	got := heat.Balance(inv, loads.Build(inv, loads.CodeValues{}))
	assert.Equal(t, []string{"flower", "flower-2"}, []string{got.Rooms[0].Name, got.Rooms[1].Name})
	assert.InDelta(t, 7800, float64(got.Block.Total), 1e-6)
	assert.InDelta(t, 15600, float64(got.Block.SumOfPeaks), 1e-6)
	// Lit together from 12:00 to 18:00: that is the hour.
	b.Lights = units.Is(window("12:00-24:00"))
	inv.Rooms[0] = b
	got = heat.Balance(inv, loads.Build(inv, loads.CodeValues{}))
	assert.InDelta(t, 15600, float64(got.Block.Total), 1e-6)
	assert.Equal(t, 12, got.Block.At)
	_, ok := got.Room("attic")
	assert.False(t, ok)
}

func TestLoadsInNoRoomAreTold(t *testing.T) {
	lost := bars()
	lost.Room = ""
	inv := site(room(), lost)
	got := heat.Balance(inv, loads.Build(inv, loads.CodeValues{}))
	assert.Equal(t, []string{"fixtures.bar stands in no room of this file; its heat is counted nowhere"}, got.Notes)
}

// Every figure printed can be followed: each step names a source of the list.
func TestEveryStepCitesASource(t *testing.T) {
	got := balance(t, weather(site(room(outside, walled, watered(60), func(r *inventory.Room) {
		r.AirChanges, r.Exhaust, r.People, r.Canopy = units.Is(0.3), units.Is(units.Airflow(300)), units.Is(1.0), units.Is(256*units.SquareFoot)
	}), bars(), swing(), item(inventory.Equipment, "dry", 1, 900, removes(40)))))
	require.NotEmpty(t, got.Steps)
	names := map[string]bool{}
	for _, s := range got.Steps {
		_, ok := steps.Lookup(s.Cite.Ref)
		assert.True(t, ok, "%s cites %q", s.Name, s.Cite.Ref)
		assert.True(t, s.Formula != "" || s.Text != "", s.Name)
		names[s.Name] = true
	}
	for _, want := range []string{"heat of bar", "heat of swing", "heat that plants turn into vapour", "heat through the walls",
		"air leaking in, dry heat", "exhaust, water vapour", "dry heat of dry", "heat of people", "cooling, in tons", "sensible heat ratio",
		"water to remove in a day", "air pressure at altitude"} {
		assert.True(t, names[want], want)
	}
	for _, a := range got.Assumptions {
		assert.NotEmpty(t, a.Why, a.Subject)
		_, ok := steps.Lookup(a.Cite.Ref)
		assert.True(t, ok, a.Subject)
	}
}
