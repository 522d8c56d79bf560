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

// Every value taken where the file is silent is listed, and acts as it is listed.
func TestDefaultsAreListedAndUsed(t *testing.T) {
	bare := inventory.Room{Name: "flower", Inside: true, Lights: units.Is(window("06:00-18:00")), AirChanges: units.Is(1.0),
		Length: units.Is(20 * units.Foot), Width: units.Is(20 * units.Foot), Height: units.Is(10 * units.Foot),
		Watering: units.Is(units.WaterRate(100)), People: units.Is(1.0), Canopy: units.Is(200 * units.SquareFoot)}
	walled(&bare)
	got := balance(t, site(bare, item(inventory.Fixtures, "bar", 10, 600*units.Watt, func(i *inventory.Item) { i.Photons = units.Is(units.Photons(1600)) })))
	values := map[string]string{}
	for _, a := range got.Assumptions {
		values[a.Subject] = a.Value
	}
	assert.Equal(t, map[string]string{
		"rooms.flower.climate.lights_on":       "78 F",
		"rooms.flower.climate.lights_off":      "70 F",
		"rooms.flower.climate.humidity_on":     "0.55",
		"rooms.flower.climate.humidity_off":    "0.55",
		"rooms.flower.inside":                  "75 F and 50 % humidity around the room",
		"rooms.flower.people.hours":            "while the lights are on",
		"rooms.flower.runoff":                  "0.15",
		"rooms.flower.uptake":                  "0.97",
		"rooms.flower.transpiration.lit_share": "0.8",
		"rooms.flower.utilisation":             "0.9",
		"site.altitude":                        "0 ft",
	}, values)
	lit, dark := got.Summer.Hours[12], got.Summer.Hours[0]
	assert.InDelta(t, -180, lit.Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
	assert.InDelta(t, 300, dark.Part(heat.Envelope).Total().BTUPerHour(), 1e-6)
	// 75 °F at 50 % holds 0.009236 lb/lb, 78 °F at 55 % 0.011259: 4840 × 66.67 CFM.
	assert.InDelta(t, 4840*200/3*(0.009236-0.011259), lit.Part(heat.Infiltration).Latent.BTUPerHour(), 1)
	assert.InDelta(t, 100*0.85*0.97, float64(known(t, got.Water).FromPlants), 1e-9)
	assert.False(t, got.HeldOn.Given)
	assert.InDelta(t, 1474.1, float64(got.HeldOn.Deficit), 0.5, "0.213795 psi")
	// 78 °F and 55 % at sea level: wet bulb 66.5 °F, 0.01126 lb/lb.
	assert.InDelta(t, 66.5, known(t, got.HeldOn.WetBulb).Fahrenheit(), 0.1)
	assert.InDelta(t, 78.8, known(t, got.HeldOn.Ratio).Grains(), 0.05)
	assert.InDelta(t, 60.54, known(t, got.HeldOn.Dew).Fahrenheit(), 0.005)
}

func TestDarkSetPointIsNeverAssumedAboveTheLitOne(t *testing.T) {
	got := balance(t, site(room(func(r *inventory.Room) {
		r.Climate = inventory.Climate{LightsOn: fahrenheit(66)}
	}), bars()))
	assert.InDelta(t, 66, got.HeldOff.Temperature.Fahrenheit(), 1e-9)
}

func TestSteamOfUnknownRateFollowsItsWatts(t *testing.T) {
	got := balance(t, site(room(), item(inventory.Equipment, "steam", 1, 1450*units.Watt, kind(inventory.Humidifier), func(i *inventory.Item) { i.Steam = true })))
	// 1.45 kW over 0.725 kWh/L: 2 L/h × 2.4407 MJ/kg = 1,356 W as vapour.
	assert.InDelta(t, 1356, float64(got.Summer.Hours[12].Gain.Latent), 0.5)
	assert.Contains(t, subjects(got), "equipment.steam.adds")
}

func TestFuelHeaterByTheClockLosesAFifthUpItsFlue(t *testing.T) {
	got := balance(t, site(room(), item(inventory.Equipment, "gas", 1, 50*units.Watt, kind(inventory.Heater), func(i *inventory.Item) {
		i.Burns, i.Hours = units.Is(units.FromBTUPerHour(10000)), units.Is(window("05:00-06:00"))
	})))
	g := got.Summer.Hours[5].Part(heat.Heaters)
	assert.InDelta(t, 8000+50*units.BTUPerHourPerWatt, g.Sensible.BTUPerHour(), 1e-6)
	assert.Equal(t, units.Heat(0), g.Latent, "its water leaves with the flue")
}

func TestDehumidifierOfWhichNothingIsKnown(t *testing.T) {
	got := balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 0, kind(inventory.Dehumidifier), func(i *inventory.Item) {
		i.Power = units.Unknown[units.Power]("")
	})))
	require.Len(t, got.Missing, 1)
	assert.Equal(t, heat.CannotTell, got.Equipment.Dehumidifying[0].Holds)
	assert.Equal(t, "equipment.dry.removes is not given", got.Equipment.Dehumidifying[0].Installed.Why())
}

// Only the winter design is known: the day that is whole is the one looked at.
func TestTheDayThatIsWholeIsLookedAt(t *testing.T) {
	inv := site(room(outside, walled), swing())
	inv.Site.Outdoor.Winter = fahrenheit(5)
	got := balance(t, inv)
	assert.Equal(t, heat.Winter, got.Coldest.Day)
	assert.Equal(t, heat.Winter, got.Peak.Day)
	assert.True(t, got.AtLeast, "what comes in on a summer day is missing")
}

// A set point that the equations do not cover changes the split, never the total.
func TestSetPointBeyondTheEquationsIsNoted(t *testing.T) {
	got := balance(t, site(room(watered(60), func(r *inventory.Room) { r.Climate.LightsOn = units.Is(units.Temperature(55)) }), bars()))
	assert.InDelta(t, 7800, float64(got.Peak.Total()), 1e-6)
	assert.Contains(t, got.Notes[0], "temperature 55 °C is outside 0 °C to 50 °C")
}

func TestHeaterRunsAsNotedWithoutHours(t *testing.T) {
	got := balance(t, site(room(), item(inventory.Equipment, "warm", 1, 1500*units.Watt, kind(inventory.Heater), func(i *inventory.Item) {
		i.Hours = units.Unknown[clock.Windows]("")
	})))
	assert.Contains(t, got.Notes, "equipment.warm runs only when the room asks for heat; it is no gain in the balance")
}

// What the code counts for an outlet sizes a circuit; eight of them are not 1,440 W of
// heat.
func TestOutletsHeatByWhatIsPluggedIn(t *testing.T) {
	outlet := item(inventory.Equipment, "wall", 8, 0, kind(inventory.Outlet), func(i *inventory.Item) { i.Power = units.Unknown[units.Power]("") })
	inv := site(room(), outlet)
	set := loads.Build(inv, loads.CodeValues{Outlet: 180})
	got, _ := heat.Balance(inv, set).Room("flower")
	assert.Equal(t, 0*units.Watt, got.Watts)
	assert.Contains(t, got.Notes[0], "equipment.wall: what is plugged in is not given")
	assert.False(t, got.AtLeast)
	outlet.Power = units.Is(50 * units.Watt)
	assert.Equal(t, 400*units.Watt, balance(t, site(room(), outlet)).Watts)
}
