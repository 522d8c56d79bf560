package air_test

import (
	"fmt"

	"branchwork/loads/air"
	"branchwork/loads/units"
)

// A flower room at 26 °C and 55 %: how dry is it, and at which surface temperature
// does a coil begin to take water?
func ExampleDeficit() {
	vpd, _ := air.Deficit(26, 0.55)
	pw, _ := air.VapourPressure(26, 0.55)
	dew, _ := air.DewPoint(pw)
	fmt.Println(vpd, dew)
	// Output: 1.51 kPa 16.3 C
}

// A litre a day evaporating at 20 °C takes 28.4 W, 96.9 BTU/h; a ton of cooling that
// did nothing else would condense 124 litres a day.
func ExampleLatent_Water() {
	latent, _ := air.LatentHeat(20)
	fmt.Println(units.Fixed(latent.Of(1).BTUPerHour(), 1), latent.Water(units.FromTons(1)))
	// Output: 96.9 123.8 L/day
}

// One mile up the air weighs 0.823 of what it weighs at sea level.
func ExamplePressureAt() {
	p, _ := air.PressureAt(5280 * units.Foot)
	fmt.Println(p, units.Fixed(float64(p.AgainstSeaLevel()), 3))
	// Output: 83.43 kPa 0.823
}
