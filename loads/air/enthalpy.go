package air

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Enthalpy is the enthalpy of moist air in joules per kilogram of dry air,
// counted from dry air at 0 °C and liquid water at 0 °C.
type Enthalpy float64

// JoulePerKilogramPerBTUPerPound turns a difference of enthalpies: 2,326 J/kg are
// 1 BTU/lb, exact (the definition of the International Table BTU). It is of no use
// for an enthalpy itself, whose zero differs between the two systems.
const JoulePerKilogramPerBTUPerPound = 2326

// EnthalpyOf returns the enthalpy of air at temperature t and humidity ratio w.
//
//	h = 1.006·t + W·(2501 + 1.86·t)      kJ per kg of dry air, t in °C
//
// Agrees with the handbook's table 2 within 1 % from 5 to 50 °C, saturated.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 30 (seen).
func EnthalpyOf(t units.Temperature, w HumidityRatio) Enthalpy {
	T, W := float64(t), float64(w)
	return Enthalpy(1000 * (1.006*T + W*(2501+1.86*T)))
}

// EnthalpyIP returns the enthalpy of air at temperature t and humidity ratio w in BTU
// per pound of dry air, counted from dry air at 0 °F.
//
//	h = 0.240·t + W·(1061 + 0.444·t)     t in °F
//
// Its constants are rounded apart from those of EnthalpyOf (0.240 BTU/lb·°F is
// 1.0048 kJ/kg·K, not 1.006): differences of the two agree within 0.15 %.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 30, inch-pound edition (seen).
func EnthalpyIP(t units.Temperature, w HumidityRatio) float64 {
	T, W := t.Fahrenheit(), float64(w)
	return 0.240*T + W*(1061+0.444*T)
}

// Volume is a volume of moist air in cubic metres per kilogram of its dry air.
type Volume float64

// CubicMetrePerKilogramPerCubicFootPerPound: 0.3048³ / 0.45359237, exact.
const CubicMetrePerKilogramPerCubicFootPerPound = units.MetrePerFoot * units.MetrePerFoot * units.MetrePerFoot / units.KilogramPerPound

// VolumeOf returns the volume of air at temperature t, humidity ratio w and
// pressure p, per kilogram of the dry air in it.
//
//	v = 287.042·(t + 273.15)·(1 + 1.607858·W) / p      m³/kg, t in °C, p in Pa
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 26 (seen).
func VolumeOf(t units.Temperature, w HumidityRatio, p Pressure) Volume {
	return Volume(287.042 * (float64(t) + kelvin) * (1 + 1.607858*float64(w)) / float64(p))
}

// VolumeIP returns the volume of air at temperature t, humidity ratio w and pressure p
// in cubic feet per pound of the dry air in it.
//
//	v = 53.350·(t + 459.67)·(1 + 1.607858·W) / (144·p)      t in °F, p in psia
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 26, inch-pound edition (seen).
func VolumeIP(t units.Temperature, w HumidityRatio, p Pressure) float64 {
	return 53.350 * (t.Fahrenheit() + 459.67) * (1 + 1.607858*float64(w)) / (144 * p.PSI())
}

// Density is the mass of moist air, water included, per volume, in kg/m³.
type Density float64

// DensityOf returns the density of air at temperature t, humidity ratio w and
// pressure p.
//
//	ρ = (1 + W) / v
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 11 (seen).
func DensityOf(t units.Temperature, w HumidityRatio, p Pressure) Density {
	return Density((1 + float64(w)) / float64(VolumeOf(t, w, p)))
}

// VolumeCite is the source of VolumeOf.
func VolumeCite() steps.Cite { return ashrae("eq. 26") }
