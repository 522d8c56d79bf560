package air

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// HumidityRatio is the mass of water vapour per mass of dry air, kg/kg or lb/lb.
type HumidityRatio float64

// waterToAir is the ratio of the molecular masses of water and dry air.
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20 (seen).
const waterToAir = 0.621945

// Grains returns a humidity ratio in grains per pound of dry air; 7,000 grains
// are a pound, exact.
func (w HumidityRatio) Grains() float64 { return float64(w) * 7000 }

// HumidityCite is the source of Humidity.
func HumidityCite() steps.Cite { return ashrae("eq. 20") }

// Humidity returns the humidity ratio of air at total pressure p whose vapour
// pressure is pw.
//
//	W = 0.621945 · pw / (p − pw)
//
// pw lies from zero to below p. At a given relative humidity thinner air holds
// more water per mass of air, not less.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20 (seen).
func Humidity(pw, p Pressure) (HumidityRatio, error) {
	if pw < 0 || !(pw < p) {
		return 0, &RangeError{"vapour pressure", float64(pw), 0, float64(p), "Pa"}
	}
	return HumidityRatio(waterToAir * float64(pw) / float64(p-pw)), nil
}

// HumidityOf returns the humidity ratio of air at temperature t, relative
// humidity rh and pressure p: VapourPressure, then Humidity.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 12, 20 and 22 (seen).
func HumidityOf(t units.Temperature, rh units.Ratio, p Pressure) (HumidityRatio, error) {
	pw, err := VapourPressure(t, rh)
	if err != nil {
		return 0, err
	}
	return Humidity(pw, p)
}

// VapourPressure returns the partial pressure of the vapour in air of humidity
// ratio w at total pressure p.
//
//	pw = p · W / (0.621945 + W)
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20 solved for pw (seen).
func (w HumidityRatio) VapourPressure(p Pressure) Pressure {
	return Pressure(float64(p) * float64(w) / (waterToAir + float64(w)))
}

// RelativeHumidity returns the share of saturation of air at temperature t,
// humidity ratio w and pressure p. More than saturated is a RangeError: the
// surplus would be fog, which this package does not describe. Rounding noise of
// 10⁻⁹ above saturation counts as saturated.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 12 and 22 (seen).
func RelativeHumidity(t units.Temperature, w HumidityRatio, p Pressure) (units.Ratio, error) {
	pws, err := SaturationPressure(t)
	if err != nil {
		return 0, err
	}
	rh := units.Ratio(w.VapourPressure(p) / pws)
	if rh > 1 && rh < 1+1e-9 {
		rh = 1
	}
	return rh, fraction(rh)
}
