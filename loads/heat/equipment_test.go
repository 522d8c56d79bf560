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

// split is n units of some tons with a stated dry capacity.
func split(n int, tons, dry float64) inventory.Item {
	return item(inventory.Equipment, "split", n, 1500*units.Watt, cools(units.FromTons(tons)), func(i *inventory.Item) {
		i.Sensible = units.Is(units.FromTons(dry))
	})
}

// The watered room and the fans of its splits: 27,458 BTU/h and 146 W per ton.
func TestCoolingIsComparedWithEachCase(t *testing.T) {
	got := balance(t, wateredRoom(split(2, 1.5, 1.1)))
	e := got.Equipment
	require.Len(t, e.Cooling, 3)
	total, dry, wet := e.Cooling[0], e.Cooling[1], e.Cooling[2]
	fans := 3 * 146 * units.BTUPerHourPerWatt
	assert.InDelta(t, 27458+fans, total.Needed.BTUPerHour(), 1)
	assert.InDelta(t, 36000, known(t, total.Installed).BTUPerHour(), 1e-6)
	assert.InDelta(t, 18000, known(t, total.WithoutLargest).BTUPerHour(), 1e-6)
	assert.Equal(t, heat.Yes, total.Holds)
	assert.Equal(t, heat.No, total.HoldsWithoutOne, "no spare unit")
	// A total that holds does not carry the first day of a crop: 28,953 dry against
	// 2 × 1.1 × 12,000 = 26,400.
	assert.InDelta(t, 26400, known(t, dry.Installed).BTUPerHour(), 1e-6)
	assert.Equal(t, heat.No, dry.Holds)
	// Water: 9,253 against 2 × 0.4 × 12,000 = 9,600, if the coils ran the whole hour. Its
	// dry load, 27,458 + fans − 9,253, keeps them on for three quarters of it.
	assert.InDelta(t, 9600, known(t, wet.Installed).BTUPerHour(), 1e-6)
	assert.Equal(t, heat.CannotTell, wet.Holds)
	c := known(t, wet.Cycling)
	assert.InDelta(t, (27458+fans-9253)/26400, float64(c.Run), 1e-4)
	assert.InDelta(t, (27458+fans-9253)/26400*9600, c.Installed.BTUPerHour(), 1)
	assert.Empty(t, e.Sizes, "cooling is stated")

	three := balance(t, wateredRoom(split(3, 1.5, 1.1))).Equipment
	assert.Equal(t, heat.Yes, three.Cooling[0].HoldsWithoutOne)
}

func TestDryShareOfCoolingIsAssumedWhereNotStated(t *testing.T) {
	got := balance(t, wateredRoom(item(inventory.Equipment, "split", 1, 3000*units.Watt, cools(units.FromTons(4)))))
	assert.InDelta(t, 36000, known(t, got.Equipment.Cooling[1].Installed).BTUPerHour(), 1e-6)
	assert.Contains(t, subjects(got), "equipment.split.sensible")
	// Cooling without a capacity: cannot tell.
	got = balance(t, wateredRoom(item(inventory.Equipment, "split", 1, 3000*units.Watt, kind(inventory.AirConditioner))))
	assert.Equal(t, heat.CannotTell, got.Equipment.Cooling[0].Holds)
	assert.Equal(t, "equipment.split.cooling is not given", got.Equipment.Cooling[0].Installed.Why())
}

func TestCoolingLosesCapacityAtAltitude(t *testing.T) {
	inv := wateredRoom(split(1, 3, 2))
	inv.Site.Altitude = units.Is(5000 * units.Foot)
	got := balance(t, inv).Equipment
	assert.InDelta(t, 0.96*36000, known(t, got.Cooling[0].Installed).BTUPerHour(), 1e-6)
	assert.InDelta(t, 0.85*24000, known(t, got.Cooling[1].Installed).BTUPerHour(), 1e-6)
	inv.Site.Altitude = units.Is(11000 * units.Foot)
	got = balance(t, inv).Equipment
	assert.Equal(t, heat.CannotTell, got.Cooling[0].Holds, "the table ends at 10,000 ft")

	total, sensible, err := heat.Derating(1250)
	require.NoError(t, err)
	assert.InDelta(t, 0.99, float64(total), 1e-12)
	assert.InDelta(t, 0.96, float64(sensible), 1e-12)
	_, _, err = heat.Derating(10001)
	assert.ErrorContains(t, err, "altitude 10,001 ft is outside 0 ft to 10,000 ft")
}

// Where no cooling is stated: the next sizes, the margin apart from the load. The room
// needs 2.288 tons, and its dry heat of the first day 2.288 / 0.75 = 3.051 tons.
func TestNextSizesCarryTheirMarginApart(t *testing.T) {
	got := balance(t, wateredRoom())
	e := got.Equipment
	require.Len(t, e.Sizes, 2)
	assert.Equal(t, "largest sensible, at 0.75 of a unit's capacity", e.SizedBy)
	assert.Equal(t, 3.5, e.Sizes[0].Tons)
	assert.InDelta(t, 3.5/(27458.35/12000/0.75)-1, float64(e.Sizes[0].Margin), 1e-4)
	assert.Equal(t, 4.0, e.Sizes[1].Tons)
	assert.InDelta(t, 2.288, got.Tons, 0.0005, "the load itself holds no margin")
	assert.InDelta(t, 4200, float64(e.CoolingPower), 1e-6, "42,000 BTU/h over 10 BTU/h per W")
	assert.Equal(t, heat.CannotTell, e.Cooling[0].Holds)
	assert.Equal(t, "no cooling equipment is stated", e.Cooling[0].Installed.Why())
}

func TestSizesAreThoseSold(t *testing.T) {
	for _, c := range []struct {
		tons, left float64
		want       []heat.Size
	}{
		{0.1, 1, []heat.Size{{1, 1, 9}, {1, 1.5, 14}}},
		{1, 1, []heat.Size{{1, 1, 0}, {1, 1.5, 0.5}}}, // exactly a size is that size
		{4.1, 1, []heat.Size{{1, 5, 5/4.1 - 1}, {1, 7.5, 7.5/4.1 - 1}}},
		{25, 1, []heat.Size{{1, 25, 0}, {2, 15, 0.2}}},
		{40, 0.8, []heat.Size{{2, 25, 0}, {3, 20, 0.2}}},
	} {
		got := heat.NextSizes(units.FromTons(c.tons), units.Ratio(c.left))
		require.Len(t, got, 2)
		for i, s := range got {
			assert.Equal(t, c.want[i].Count, s.Count, c)
			assert.Equal(t, c.want[i].Tons, s.Tons, c)
			assert.InDelta(t, float64(c.want[i].Margin), float64(s.Margin), 1e-9, c)
		}
	}
	assert.Empty(t, heat.NextSizes(0, 1))
}

func TestDehumidifiersAreSizedByPeriod(t *testing.T) {
	got := balance(t, wateredRoom(item(inventory.Equipment, "dry", 2, 600*units.Watt, removes(20)), split(1, 3, 2.5)))
	d := got.Equipment.Dehumidifying
	require.Len(t, d, 2)
	off, on := d[0], d[1]
	assert.Equal(t, "lights off", off.Case)
	assert.InDelta(t, 24, float64(off.Needed), 1e-6, "1 L/h with the cooling coil idle")
	assert.InDelta(t, 40, float64(known(t, off.Installed)), 1e-9)
	assert.Equal(t, heat.Yes, off.Holds)
	assert.Equal(t, heat.No, off.HoldsWithoutOne)
	// Lit: 96 L/day less the coil's 6,000 BTU/h of vapour.
	coil := 6000 / units.BTUPerHourPerWatt * 86400 / (1e6 * (2.501 - 0.002361*25.5555555))
	assert.InDelta(t, 96-coil, float64(on.Needed), 1e-3)
	assert.Equal(t, heat.Yes, on.Holds)

	// None stated but cooling is: by night nothing takes the water.
	got = balance(t, wateredRoom(split(1, 3, 2.5)))
	assert.Equal(t, heat.No, got.Equipment.Dehumidifying[0].Holds)
	// Nothing stated at all: the need is told, the answer is not.
	got = balance(t, wateredRoom())
	assert.Equal(t, heat.CannotTell, got.Equipment.Dehumidifying[0].Holds)
}

func TestHeatersAreComparedWithTheColdestHour(t *testing.T) {
	warm := func(w units.Power, n int) inventory.Item {
		return item(inventory.Equipment, "warm", n, w, kind(inventory.Heater), func(i *inventory.Item) { i.Hours = units.Unknown[clock.Windows]("") })
	}
	h := balance(t, wateredRoom(warm(200*units.Watt, 2))).Equipment.Heating
	assert.InDelta(t, 1000, h.Needed.BTUPerHour(), 1)
	assert.Equal(t, heat.Yes, h.Holds)
	assert.Equal(t, heat.No, h.HoldsWithoutOne)
	assert.Equal(t, heat.CannotTell, balance(t, wateredRoom()).Equipment.Heating.Holds)
	h = balance(t, site(room(), bars())).Equipment.Heating
	assert.Equal(t, heat.CannotTell, h.Holds, "nothing to heat, but for the water that nobody gave")
	h = balance(t, site(room(watered(0)), bars())).Equipment.Heating
	assert.Equal(t, heat.Yes, h.Holds, "nothing to heat")
	// A heater that burns fuel by a flue gives four fifths.
	gas := warm(100*units.Watt, 1)
	gas.Burns = units.Is(units.FromBTUPerHour(2000))
	assert.InDelta(t, 1600, known(t, balance(t, wateredRoom(gas)).Equipment.Heating.Installed).BTUPerHour(), 1e-6)
}

// Cooling that states nothing but its capacity draws power outdoors: its watts, which
// loads.Build estimates, are left out of the room but for the indoor fan.
func TestCoolingsOwnWattsStayOutdoors(t *testing.T) {
	got := balance(t, site(room(), bars(), item(inventory.Equipment, "split", 1, 0, cools(units.FromBTUPerHour(36000)), func(i *inventory.Item) {
		i.Power = units.Unknown[units.Power]("")
	})))
	assert.InDelta(t, 3*146, float64(got.Peak.Part(heat.CoolingFans).Sensible), 1e-6)
	require.Len(t, got.LeftOut, 1)
	assert.InDelta(t, 3600-3*146, float64(got.LeftOut[0].Watts), 1e-6)
	assert.False(t, got.AtLeast)

	// A set of loads that leaves those watts unknown: estimated here.
	inv := site(room(), item(inventory.Equipment, "split", 1, 0, cools(units.FromBTUPerHour(36000))))
	set := loads.Build(inv, loads.CodeValues{})
	set.Loads[0].Running = units.Unknown[units.Power]("not given")
	bare, _ := heat.Balance(inv, set).Room("flower")
	require.Len(t, bare.Equipment.Estimated, 1)
	assert.InDelta(t, 3600, float64(bare.Equipment.Estimated[0].Watts), 1e-6)
	assert.Contains(t, subjects(bare), "equipment.split.power")
	assert.False(t, bare.AtLeast, "its watts do not heat the room")
}

func TestDehumidifierOfUnknownCapacity(t *testing.T) {
	got := balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 500*units.Watt, kind(inventory.Dehumidifier))))
	// 0.5 kW × 24 h × 1.8 L/kWh = 21.6 L/day, 45.6 pints: the small kind.
	assert.InDelta(t, 21.6, float64(known(t, got.Equipment.Dehumidifying[0].Installed)), 1e-9)
	got = balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 1000*units.Watt, kind(inventory.Dehumidifier))))
	assert.InDelta(t, 60, float64(known(t, got.Equipment.Dehumidifying[0].Installed)), 1e-9)
	assert.Contains(t, subjects(got), "equipment.dry.removes")
}

// A stated duty is the user's: its watts stand in every hour, its water with them.
func TestStatedDutyOfADehumidifierStands(t *testing.T) {
	dry := item(inventory.Equipment, "dry", 1, 1000*units.Watt, removes(40), func(i *inventory.Item) { i.Duty = units.Is(units.Ratio(0.5)) })
	got := balance(t, wateredRoom(dry))
	h := got.Summer.Hours[12]
	assert.InDelta(t, 8100+500, float64(h.Electric), 1e-6)
	assert.InDelta(t, 20, float64(h.Removed), 1e-9)
}
