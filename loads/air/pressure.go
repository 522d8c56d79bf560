package air

import (
	"math"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Pressure is an absolute pressure in pascals, of moist air or of the water
// vapour in it.
type Pressure float64

// Units of pressure.
const (
	Pascal     Pressure = 1
	Kilopascal          = 1000 * Pascal
)

// PascalPerPSI is one pound-force per square inch: 0.45359237 kg × 9.80665 m/s²
// over (0.0254 m)². Derived from defined values, rounded here to 13 digits.
// Source: NIST SP 811 appendix B (recalled).
const PascalPerPSI = 6894.757293168

// SeaLevel is the pressure of the standard atmosphere at altitude zero, defined.
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3 (seen).
const SeaLevel = 101325 * Pascal

// PSI returns a pressure in pounds-force per square inch, absolute.
func (p Pressure) PSI() float64 { return float64(p) / PascalPerPSI }

// FromPSI returns the pressure of x pounds-force per square inch.
func FromPSI(x float64) Pressure { return Pressure(x * PascalPerPSI) }

// String returns the pressure as 101.33 kPa.
func (p Pressure) String() string { return units.Round(float64(p/Kilopascal), 2) + " kPa" }

// ashrae cites an equation of the psychrometrics chapter.
func ashrae(at string) steps.Cite {
	return steps.Cite{Ref: "ashrae-fundamentals", Edition: "2017", At: "ch. 1 " + at, How: steps.Seen}
}

// PressureCite is the source of PressureAt.
func PressureCite() steps.Cite { return ashrae("eq. 3") }

// PressureAt returns the pressure of the standard atmosphere at altitude z.
//
//	p = 101 325 · (1 − 2.25577·10⁻⁵ · Z)^5.2559      p in Pa, Z in m
//
// Z runs from −5,000 m to 11,000 m; beyond it is a RangeError. Agrees with the
// handbook's table 1 within 1 Pa.
//
// It is not the weather: real pressure moves by some 3 % about it. Air-side
// factors scale with this pressure against sea level, for air at room
// temperature. The standard atmosphere's density ratio, which also assumes that
// outdoor air cools with height, is not used: it is 0.862 against 0.832 at 5,000 ft.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3 (seen).
func PressureAt(z units.Length) (Pressure, error) {
	m := z.Metres()
	if err := within("altitude", m, -5000, 11000, "m"); err != nil {
		return 0, err
	}
	return Pressure(float64(SeaLevel) * math.Pow(1-2.25577e-5*m, 5.2559)), nil
}

// AgainstSeaLevel returns p / p₀, the factor by which a volume of air at room
// temperature weighs less than at sea level.
//
// Source: derived; agrees with a published design table within 0.001 at 6,000 to
// 8,700 ft (testdata/published/air.toml).
func (p Pressure) AgainstSeaLevel() units.Ratio { return units.Ratio(p / SeaLevel) }
