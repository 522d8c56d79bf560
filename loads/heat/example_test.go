package heat_test

import (
	"fmt"

	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Twelve fixtures of 650 W, lit 06:00 to 18:00, and 60 litres of water a day, of which
// 0.97 leave as vapour. The lights alone: 7,800 W × 3.412142 = 26,615 BTU/h. Plants move
// 0.8 × 58.2 L / 12 h = 3.88 L/h × 1,049.3 BTU/lb = 8,976 BTU/h of it into vapour. Dark,
// nothing puts back the heat that the rest of the water takes up.
func ExampleBalance() {
	inv := &inventory.Inventory{
		Rooms: []inventory.Room{{Name: "flower", Lights: units.Is(window("06:00-18:00")), Watering: units.Is(60 * units.LitrePerDay),
			Runoff: units.Is(units.Ratio(0)), Climate: inventory.Climate{LightsOn: fahrenheit(78), LightsOff: fahrenheit(70)}}},
		Items: []inventory.Item{{Table: inventory.Fixtures, Name: "bar", Room: "flower", Count: 12, Power: units.Is(650 * units.Watt)}},
	}
	flower, _ := heat.Balance(inv, loads.Build(inv, loads.CodeValues{})).Room("flower")
	on, _ := flower.LightsOn.Get()
	off, _ := flower.LightsOff.Get()
	fmt.Println("on: ", on.Gain.Sensible, "dry,", on.Gain.Latent, "as vapour,", on.Total(), "in all")
	fmt.Println("off:", off.Gain.Sensible, "dry,", off.Gain.Latent, "as vapour,", off.Total(), "in all")
	// Output:
	// on:  17,639 BTU/h dry, 8,976 BTU/h as vapour, 26,615 BTU/h in all
	// off: -2,254 BTU/h dry, 2,254 BTU/h as vapour, 0 BTU/h in all
}
