package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

func cool(f float64) func(*inventory.Inventory) {
	return func(inv *inventory.Inventory) { inv.Site.Outdoor.Summer = fahrenheit(f) }
}

func vented(change ...func(*inventory.Inventory)) *inventory.Inventory {
	inv := weather(site(room(outside), item(inventory.Fixtures, "bar", 5, 600*units.Watt)))
	for _, c := range change {
		c(inv)
	}
	return inv
}

// 3,000 W into air 10 °F cooler: 10,236 / 10.8 = 948 CFM at sea level, 1,151 a mile up.
// The hottest hour governs: 68 °F outside at 14:00 against 78 °F.
func TestVentilationAtAltitude(t *testing.T) {
	got := balance(t, vented(cool(68)))
	assert.InDelta(t, 948, float64(known(t, got.Airflow)), 0.5)
	got = balance(t, vented(cool(68), func(inv *inventory.Inventory) { inv.Site.Altitude = units.Is(5280 * units.Foot) }))
	assert.InDelta(t, 1151, float64(known(t, got.Airflow)), 0.6)
}

func TestVentilationThatCannotWorkSaysWhy(t *testing.T) {
	got := balance(t, vented())
	assert.Equal(t, "the air drawn in is as warm as the set point or warmer (80.3 °F against 78 °F at 06:00 on the summer design day): those hours need mechanical cooling",
		got.Airflow.Why())
	got = balance(t, site(room(outside), bars()))
	assert.Equal(t, "the outdoor design temperature is not given", got.Airflow.Why())
	got = balance(t, vented(cool(68), func(inv *inventory.Inventory) {
		inv.Items = append(inv.Items, item(inventory.Equipment, "split", 1, 1000, cools(units.FromTons(1))))
	}))
	assert.Equal(t, "the room has cooling equipment and no exhaust: it is planned closed", got.Airflow.Why())
	// Too small a difference is told, with the flow.
	got = balance(t, vented(cool(75)))
	assert.True(t, got.Airflow.Known())
	assert.Contains(t, got.Notes[len(got.Notes)-1]+got.Notes[0]+got.Notes[1], "hardly practical")
}

// Water by air: 4 L/h against air that holds less.
func TestVentilationForTheWater(t *testing.T) {
	inv := vented(cool(60), func(inv *inventory.Inventory) {
		inv.Site.Outdoor.SummerWetBulb = fahrenheit(50)
		inv.Rooms[0].Watering = units.Is(units.WaterRate(60 / 0.97))
	})
	got := balance(t, inv)
	v := float64(known(t, got.AirflowHumid))
	// By hand: 4 kg/h; room 0.01126 lb/lb at 13.80 ft³/lb, outside 60/50 °F 0.00540.
	assert.InDelta(t, 4/0.45359237*13.80/60/(0.01126-0.00540), v, 6)
	// Air as wet as the room's cannot.
	inv.Site.Outdoor.SummerWetBulb = fahrenheit(60)
	got = balance(t, inv)
	assert.Contains(t, got.AirflowHumid.Why(), "holds as much water")
}

func TestExhaustIsComparedWithTheFlowNeeded(t *testing.T) {
	with := func(cfm units.Airflow) heat.Room {
		return balance(t, vented(cool(68), func(inv *inventory.Inventory) { inv.Rooms[0].Exhaust = units.Is(cfm) }))
	}
	small, large := with(900), with(950)
	assert.Equal(t, heat.No, known(t, small.Equipment.Exhaust).Holds)
	assert.NotEmpty(t, small.Equipment.Sizes)
	assert.Equal(t, heat.Yes, known(t, large.Equipment.Exhaust).Holds)
	assert.Empty(t, large.Equipment.Sizes, "the exhaust holds the set point")
	require.True(t, large.Airflow.Known())
	// What the exhaust itself brings in on a warm night is no heat for it to carry off:
	// dark hours at 60 °F without a load ask for no air.
	night := balance(t, vented(cool(70), func(inv *inventory.Inventory) {
		inv.Rooms[0].Exhaust, inv.Rooms[0].Climate.LightsOff = units.Is(100*units.CFM), fahrenheit(60)
	}))
	assert.True(t, night.Airflow.Known(), night.Airflow.Why())
	_, ok := heat.AirflowFor(1000, 0, 1)
	assert.False(t, ok, "no difference, no flow")
}
