package air

import (
	"math"

	"branchwork/loads/units"
)

// triplePoint is where the ice and the liquid equations meet. Switching at 0 °C
// instead leaves a gap in which a dew point cannot be found.
const triplePoint units.Temperature = 0.01

// Range of the saturation equations.
const (
	coldest units.Temperature = -100
	hottest units.Temperature = 200
)

const kelvin = 273.15

// SaturationPressure returns the pressure of water vapour in equilibrium with
// liquid water, or with ice below the triple point (0.01 °C), at temperature t.
//
//	ice     ln p = C1/T + C2 + C3·T + C4·T² + C5·T³ + C6·T⁴ + C7·ln T
//	liquid  ln p = C8/T + C9 + C10·T + C11·T² + C12·T³ + C13·ln T
//
// p in Pa, T = t + 273.15 in K. t runs from −100 to 200 °C; beyond it is a
// RangeError. Agrees with the handbook's table 3 within 3·10⁻⁴.
//
// It is that of pure water under its own pressure; the small enhancement by the
// air above it is left out, as the handbook's perfect-gas relations do.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 5 and 6, after Hyland and Wexler
// (seen). Checked in testdata/published/air.toml.
func SaturationPressure(t units.Temperature) (Pressure, error) {
	if err := within("temperature", t, coldest, hottest, "°C"); err != nil {
		return 0, err
	}
	return saturation(t), nil
}

// saturation is SaturationPressure for temperatures known to be in range.
func saturation(t units.Temperature) Pressure {
	T := float64(t) + kelvin
	if t <= triplePoint {
		return Pressure(math.Exp(-5.6745359e3/T + 6.3925247 + T*(-9.677843e-3+T*(6.2215701e-7+T*(2.0747825e-9-9.484024e-13*T))) +
			4.1635019*math.Log(T)))
	}
	return Pressure(math.Exp(-5.8002206e3/T + 1.3914993 + T*(-4.8640239e-2+T*(4.1764768e-5-1.4452093e-8*T)) +
		6.5459673*math.Log(T)))
}

// VapourPressure returns the partial pressure of water vapour in air at
// temperature t and relative humidity rh.
//
//	pw = rh · pws(t)      rh in 0 to 1
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 12 and 22 (seen).
func VapourPressure(t units.Temperature, rh units.Ratio) (Pressure, error) {
	if err := fraction(rh); err != nil {
		return 0, err
	}
	pws, err := SaturationPressure(t)
	if err != nil {
		return 0, err
	}
	return Pressure(float64(rh) * float64(pws)), nil
}

// DewPoint returns the temperature at which air whose vapour pressure is pw
// becomes saturated: SaturationPressure solved for t by halving an interval,
// within 10⁻⁹ K.
//
// The handbook also prints an approximate direct formula (eq. 37, 38); it is less
// exact and not used. Dry air (pw = 0) has no dew point, and a vapour pressure
// outside that of −100 to 200 °C is a RangeError.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 5, 6 and 36 (seen).
func DewPoint(pw Pressure) (units.Temperature, error) {
	if err := within("vapour pressure", pw, saturation(coldest), saturation(hottest), "Pa"); err != nil {
		return 0, err
	}
	return rising(coldest, hottest, func(t units.Temperature) bool { return saturation(t) < pw }), nil
}

// rising returns where a condition that holds below some temperature and not
// above it stops holding.
func rising(low, high units.Temperature, below func(units.Temperature) bool) units.Temperature {
	for high-low > 1e-9 {
		mid := low + (high-low)/2
		if below(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low + (high-low)/2
}
