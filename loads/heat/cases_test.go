package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// The room of the worked example with 60 L/day given off, 80 % of it by day at the
// program's own heat of evaporation.
func wateredRoom(items ...inventory.Item) *inventory.Inventory {
	return site(room(walled, watered(60/0.97)), append([]inventory.Item{bars(), swing()}, items...)...)
}

func TestDesignCasesAreNamedApart(t *testing.T) {
	got := balance(t, wateredRoom())
	assert.InDelta(t, 27458, got.Peak.Total().BTUPerHour(), 0.5, "the total does not depend on the water")
	assert.InDelta(t, 2.288, got.Tons, 0.0005)
	// 60 L × 0.8 / 12 h × λ(78 °F) = 4 L/h × 1,049.3 BTU/lb
	assert.InDelta(t, 9253, got.Peak.Gain.Latent.BTUPerHour(), 0.5)

	assert.Equal(t, heat.SmallPlants, got.Sensible.Canopy, "the first day of a crop: all lamp heat is dry")
	assert.InDelta(t, 27458, got.Sensible.Hour.Sensible.BTUPerHour(), 0.5)
	assert.Equal(t, units.Heat(0), got.Sensible.Gain.Latent)

	assert.InDelta(t, 9253, got.Latent.Gain.Latent.BTUPerHour(), 0.5)
	assert.InDelta(t, 27458-9253, got.Latent.Hour.Sensible.BTUPerHour(), 1, "with its concurrent dry heat")

	assert.Equal(t, 0, got.Coldest.At)
	assert.InDelta(t, -1000, got.Coldest.Hour.Sensible.BTUPerHour(), 1)
	on, off := known(t, got.LightsOn), known(t, got.LightsOff)
	assert.Equal(t, got.Peak.Total(), on.Total())
	assert.InDelta(t, 1324, off.Total().BTUPerHour(), 0.5)
}

// With a dehumidifier in the room the dry heat of a full canopy exceeds that of the
// first day: its watts and all that it condenses come back. The largest latent stays
// the water before it.
func TestDehumidifierMakesTheFullCanopyTheLargestSensible(t *testing.T) {
	got := balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 2000*units.Watt, removes(96))))
	assert.Equal(t, heat.FullCanopy, got.Sensible.Canopy)
	assert.InDelta(t, 27458+2000*units.BTUPerHourPerWatt, got.Sensible.Hour.Sensible.BTUPerHour(), 1)
	assert.InDelta(t, 0, got.Peak.Gain.Latent.BTUPerHour(), 1e-6)
	assert.InDelta(t, 9253, got.Latent.Gain.Latent.BTUPerHour(), 0.5)
}

func TestRoomThatNeedsHeatAndDryingAtOnceSaysSo(t *testing.T) {
	got := balance(t, wateredRoom())
	require.True(t, got.HeatAndDry)
	assert.Equal(t, "lights off at 00:00 on the summer design day: 1,000 BTU/h of heating and 51 pint/day of water to remove in the same hour; "+
		"no dehumidifier stands in the room, and cooling alone would chill it further", got.HeatAndDryWhy)
	assert.Contains(t, got.Notes, got.HeatAndDryWhy)

	got = balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 2000*units.Watt, removes(96))))
	assert.True(t, got.HeatAndDry)
	assert.Contains(t, got.HeatAndDryWhy, "give back covers it")

	got = balance(t, site(room(), bars(), swing()))
	assert.False(t, got.HeatAndDry)
	assert.Contains(t, got.HeatAndDryWhy, "cannot tell")
}

func TestWaterToRemoveByPeriod(t *testing.T) {
	w := known(t, balance(t, wateredRoom()).Water)
	assert.InDelta(t, 60, float64(w.PerDay), 1e-6)
	assert.InDelta(t, 48, w.AmountOn, 1e-6)
	assert.InDelta(t, 12, w.AmountOff, 1e-6)
	assert.InDelta(t, 96, float64(w.LightsOn), 1e-6, "4 L/h as a daily rate")
	assert.InDelta(t, 24, float64(w.LightsOff), 1e-6)
	assert.InDelta(t, 126.8, w.PerDay.PintsPerDay(), 0.05)
	assert.False(t, w.GovernsLightsOff)

	got := balance(t, site(room(), bars()))
	assert.Equal(t, "watering is not given", got.Water.Why())
	assert.Equal(t, 0.0, float64(got.Peak.Gain.Latent))
	assert.False(t, got.AtLeast, "the total does not depend on the water")
}

// Dry outside air that carries off more than is given off leaves nothing to remove; it
// does not count against other hours.
func TestDryAirOutsideLeavesNoWater(t *testing.T) {
	inv := weather(site(room(outside, watered(1), func(r *inventory.Room) { r.AirChanges = units.Is(5.0) }), bars()))
	inv.Site.Outdoor.SummerWetBulb = fahrenheit(60)
	w := known(t, balance(t, inv).Water)
	assert.Equal(t, 0.0, float64(w.PerDay))
	assert.Equal(t, 0.0, w.AmountOn)
}

func TestLitShareFollowsTheHours(t *testing.T) {
	for _, c := range []struct{ hours, want float64 }{{0, 0}, {6, 0.4}, {12, 0.8}, {15, 0.85}, {18, 0.9}, {24, 1}} {
		assert.InDelta(t, c.want, float64(heat.LitShare(c.hours)), 1e-12)
	}
}

// Lights that are on for part of an hour: the figures are of hours lit from end to end.
func TestHalfLitHoursDoNotStandForLitOnes(t *testing.T) {
	half := func(r *inventory.Room) { r.Lights = units.Is(window("06:30-18:30")) }
	got := balance(t, site(room(half), bars(), swing()))
	on, off := known(t, got.LightsOn), known(t, got.LightsOff)
	assert.Equal(t, 7, on.At)
	assert.InDelta(t, 8100, float64(on.Total()), 1e-6)
	assert.InDelta(t, 300, float64(off.Total()), 1e-6)
	assert.InDelta(t, 4200, float64(got.Summer.Hours[6].Total()), 1e-6)

	short := func(r *inventory.Room) { r.Lights = units.Is(window("06:10-06:50")) }
	got = balance(t, site(room(short), bars(), swing()))
	assert.InDelta(t, 7800.0*2/3+300, float64(known(t, got.LightsOn).Total()), 1e-6)
	assert.Contains(t, got.Notes, "no hour is lit from end to end; the lights-on figures are of the hour lit longest")
}

func TestWateringBeyondTheLightIsNoted(t *testing.T) {
	got := balance(t, site(room(watered(400)), bars()))
	assert.Condition(t, func() bool {
		for _, n := range got.Notes {
			if len(n) > 30 && n[:30] == "the water given off while lit " {
				return true
			}
		}
		return false
	})
}

func TestExhaustIsAMeansAndNotAGain(t *testing.T) {
	fan := func(r *inventory.Room) { r.Exhaust, r.AirChanges = units.Is(400*units.CFM), units.Unknown[float64]("") }
	got := balance(t, weather(site(room(outside, fan), bars())))
	h := got.Summer.Hours[14]
	assert.InDelta(t, 1.08*400*17, h.Part(heat.Ventilation).Sensible.BTUPerHour(), 1e-6, "95 °F air warms a room of 78 °F")
	assert.Equal(t, units.Heat(0), h.Vented.Sensible)
	w := got.Winter.Hours[12]
	assert.Equal(t, units.Heat(0), w.Part(heat.Ventilation).Sensible)
	assert.InDelta(t, 1.08*400*(5-78), w.Vented.Sensible.BTUPerHour(), 1e-6)
	assert.InDelta(t, 7800, float64(w.Total()), 1e-6, "what the fan carries off does not hide the load")
	assert.InDelta(t, 1.08*400*65, got.Equipment.Heating.Needed.BTUPerHour(), 1e-6, "but with the fan running the dark room has to be heated")
	assert.Equal(t, heat.Gain{}, w.Part(heat.Infiltration), "the exhaust draws the air in")

	// With little light the lit hours, held warmer, are the coldest.
	got = balance(t, weather(site(room(outside, fan), item(inventory.Fixtures, "bar", 1, 100*units.Watt))))
	assert.Equal(t, 6, known(t, got.ColdestVented).At)
	assert.InDelta(t, 1.08*400*73-100*units.BTUPerHourPerWatt, got.Equipment.Heating.Needed.BTUPerHour(), 1e-6)
}

// Dark all day, as a drying room is.
func TestRoomThatIsNeverLit(t *testing.T) {
	never := func(r *inventory.Room) { r.Lights = units.Is(clock.Never()) }
	got := balance(t, site(room(never, watered(24)), swing()))
	assert.Equal(t, "the room has no lights, or they are never on", got.LightsOn.Why())
	w := known(t, got.Water)
	assert.InDelta(t, 0, w.AmountOn, 1e-9)
	assert.True(t, w.GovernsLightsOff)
}
