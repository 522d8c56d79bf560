package air

import "branchwork/loads/units"

// HumidityFromWetBulb returns the humidity ratio of air at dry-bulb temperature t
// and thermodynamic wet-bulb temperature wet, pressure p.
//
//	wet bulb at or above 0 °C
//	W = [(2501 − 2.326·t*)·Ws* − 1.006·(t − t*)] / (2501 + 1.86·t − 4.186·t*)
//	below
//	W = [(2830 − 0.24·t*)·Ws* − 1.006·(t − t*)] / (2830 + 1.86·t − 2.1·t*)
//
// Ws* is the humidity ratio of saturated air at t*. A wet bulb above the dry bulb,
// or one so low that the air would hold less than no water, is a RangeError.
//
// It is the thermodynamic wet bulb (adiabatic saturation); a sling psychrometer
// reads it within a few tenths of a degree.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 33 and 35 (seen).
func HumidityFromWetBulb(t, wet units.Temperature, p Pressure) (HumidityRatio, error) {
	if err := within("wet bulb", wet, coldest, t, "°C"); err != nil {
		return 0, err
	}
	if err := within("temperature", t, coldest, hottest, "°C"); err != nil {
		return 0, err
	}
	if pws := saturation(wet); !(pws < p) {
		return 0, &RangeError{"vapour pressure at the wet bulb", float64(pws), 0, float64(p), "Pa"}
	}
	w := fromWetBulb(t, wet, p)
	if w < 0 && w > -1e-9 {
		w = 0
	}
	return w, within("humidity ratio", w, 0, 10, "")
}

func fromWetBulb(t, wet units.Temperature, p Pressure) HumidityRatio {
	T, star := float64(t), float64(wet)
	pws := float64(saturation(wet))
	ws := waterToAir * pws / (float64(p) - pws)
	if wet >= 0 {
		return HumidityRatio(((2501-2.326*star)*ws - 1.006*(T-star)) / (2501 + 1.86*T - 4.186*star))
	}
	return HumidityRatio(((2830-0.24*star)*ws - 1.006*(T-star)) / (2830 + 1.86*T - 2.1*star))
}

// WetBulb returns the thermodynamic wet-bulb temperature of air at dry-bulb
// temperature t, humidity ratio w and pressure p: HumidityFromWetBulb solved for
// the wet bulb by halving an interval, within 10⁻⁹ K. Air that would be more than
// saturated is a RangeError.
//
// Just below freezing the equation for ice gives back humidities that the one for
// water gives above it, so that some states have two wet bulbs up to half a degree
// apart, a wet and a frozen one; the wet one is returned.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 33 and 35 (seen).
func WetBulb(t units.Temperature, w HumidityRatio, p Pressure) (units.Temperature, error) {
	if w < 0 {
		return 0, &RangeError{"humidity ratio", float64(w), 0, 10, ""}
	}
	if _, err := RelativeHumidity(t, w, p); err != nil {
		return 0, err
	}
	low, high := coldest, t
	if t > 0 && fromWetBulb(t, 0, p) <= w {
		low = 0
	} else {
		high = min(t, 0)
	}
	return rising(low, high, func(wet units.Temperature) bool { return fromWetBulb(t, wet, p) < w }), nil
}
