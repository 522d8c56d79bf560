package heat_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// room is an invented room of 20 × 20 × 10 ft inside a building: lit 06:00 to 18:00,
// 78 °F lit and 70 °F dark, no air changes, no walls.
func room(change ...func(*inventory.Room)) inventory.Room {
	r := inventory.Room{
		Name: "flower", Inside: true, Lights: units.Is(window("06:00-18:00")),
		Length: units.Is(20 * units.Foot), Width: units.Is(20 * units.Foot), Height: units.Is(10 * units.Foot),
		Climate: inventory.Climate{LightsOn: fahrenheit(78), LightsOff: fahrenheit(70),
			HumidityOn: units.Is(units.Ratio(0.55)), HumidityOff: units.Is(units.Ratio(0.55))},
		AirChanges: units.Is(0.0), Runoff: units.Is(units.Ratio(0)),
	}
	for _, c := range change {
		c(&r)
	}
	return r
}

func watered(perDay units.WaterRate) func(*inventory.Room) {
	return func(r *inventory.Room) { r.Watering = units.Is(perDay) }
}

// walled gives the room walls of 60 BTU/(h·°F).
func walled(r *inventory.Room) {
	r.Walls = inventory.Surface{Area: units.Is(600 * units.SquareFoot), U: units.Is(units.Transmittance(0.1))}
}

// outside takes the room out of its building.
func outside(r *inventory.Room) { r.Inside = false }

func window(s string) clock.Windows {
	w, err := clock.Parse(s)
	if err != nil {
		panic(err)
	}
	return w
}

func fahrenheit(f float64) units.Known[units.Temperature] { return units.Is(units.FromFahrenheit(f)) }

// item returns an item of the room flower.
func item(table, name string, count int, p units.Power, change ...func(*inventory.Item)) inventory.Item {
	i := inventory.Item{Table: table, Name: name, Room: "flower", Count: count, Power: units.Is(p)}
	if table != inventory.Fixtures {
		i.Hours = units.Is(clock.Always())
	}
	for _, c := range change {
		c(&i)
	}
	return i
}

func kind(k string) func(*inventory.Item) { return func(i *inventory.Item) { i.Kind = k } }

func removes(w units.WaterRate) func(*inventory.Item) {
	return func(i *inventory.Item) { i.Kind, i.Removes = inventory.Dehumidifier, units.Is(w) }
}

func cools(q units.Heat) func(*inventory.Item) {
	return func(i *inventory.Item) { i.Kind, i.Cooling = inventory.AirConditioner, units.Is(q) }
}

// bars are the lights of the worked example: 12 × 650 W.
func bars() inventory.Item { return item(inventory.Fixtures, "bar", 12, 650*units.Watt) }

// swing are its fans: 6 × 50 W, all day.
func swing() inventory.Item { return item(inventory.Fans, "swing", 6, 50*units.Watt) }

func site(r inventory.Room, items ...inventory.Item) *inventory.Inventory {
	return &inventory.Inventory{Rooms: []inventory.Room{r}, Items: items}
}

// weather sets the outdoor design of a site: 95 °F with 75 °F wet bulb, 5 °F.
func weather(inv *inventory.Inventory) *inventory.Inventory {
	inv.Site.Outdoor = inventory.Outdoor{Summer: fahrenheit(95), SummerWetBulb: fahrenheit(75), Winter: fahrenheit(5)}
	return inv
}

func balance(t require.TestingT, inv *inventory.Inventory) heat.Room {
	got, ok := heat.Balance(inv, loads.Build(inv, loads.CodeValues{})).Room("flower")
	require.True(t, ok)
	return got
}

func known[T any](t *testing.T, k units.Known[T]) T {
	t.Helper()
	v, ok := k.Get()
	require.True(t, ok, k.Why())
	return v
}
