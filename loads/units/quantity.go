package units

import "math"

// Power is active electric power in watts.
type Power float64

// Apparent is apparent electric power in volt-amperes. Circuits are loaded by
// volt-amperes, heat and energy by watts.
type Apparent float64

// Horsepower is the rated shaft output of a motor. It is kept apart from Power
// because a motor's current comes from a table by rating, not from conversion.
type Horsepower float64

// Current is an electric current in amperes, root-mean-square, per conductor.
//
// Printing rounds; comparing never does: a limit is compared on the unrounded
// value through Exceeds.
type Current float64

// Voltage is a nominal voltage in volts, root-mean-square.
type Voltage float64

// Resistance is an electric resistance or reactance in ohms.
type Resistance float64

// Ratio is a pure number: a power factor, a share, a level.
type Ratio float64

// Length is a length in feet.
type Length float64

// Area is an area in square feet.
type Area float64

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// TempDiff is a temperature difference in kelvins. 10 °F as a rise is 5.6 K,
// 10 °F as a temperature is −12.2 °C; hence two types.
type TempDiff float64

// Airflow is a volume flow of air in cubic feet per minute.
type Airflow float64

// WaterRate is a flow of water in litres per day.
type WaterRate float64

// Heat is a rate of heat flow in watts.
type Heat float64

// Energy is an electric energy in kilowatt-hours.
type Energy float64

// Photons is a photon flux in micromoles per second.
type Photons float64

// Money is an amount in the currency the tariff names.
type Money float64

// Insulance is a thermal resistance in ft²·°F·h/BTU (the trade's R value).
type Insulance float64

// Transmittance is a thermal transmittance in BTU/(h·ft²·°F) (the trade's U).
type Transmittance float64

// Units of each quantity.
const (
	Watt        Power      = 1
	Kilowatt               = 1000 * Watt
	VoltAmpere  Apparent   = 1
	KVA                    = 1000 * VoltAmpere
	HP          Horsepower = 1
	Ampere      Current    = 1
	Volt        Voltage    = 1
	Ohm         Resistance = 1
	Foot        Length     = 1
	SquareFoot  Area       = 1
	CFM         Airflow    = 1
	LitrePerDay            = WaterRate(1)
)

// Milliampere is a thousandth of an ampere; exact up to float64 rounding.
const Milliampere = Ampere / 1000

// Slack is the relative room that Exceeds leaves for the rounding noise of
// adding floating-point numbers (nine loads of 16/9 A add up to
// 16.000000000000004 A). It is far below a milliampere at any rating in use and
// is applied nowhere else.
const Slack = 1e-9

// Exceeds reports whether actual lies above limit by more than rounding noise:
// actual > limit·(1 + Slack). Exactly at the limit does not exceed it; what is no
// number exceeds every limit, so that it is within none.
func Exceeds[T ~float64](actual, limit T) bool {
	return !(float64(actual) <= float64(limit)+math.Abs(float64(limit))*Slack)
}

// Volts, Amps and the like exist where a formula needs a bare number; they
// name the unit at the place of use.

// VA returns the apparent power of a current at a voltage on one phase: S = V·I.
func VA(v Voltage, i Current) Apparent { return Apparent(float64(v) * float64(i)) }

// Watts returns active power of an apparent power at power factor pf: P = S·pf.
func (s Apparent) Watts(pf Ratio) Power { return Power(float64(s) * float64(pf)) }

// VA returns apparent power of an active power at power factor pf: S = P/pf.
func (p Power) VA(pf Ratio) Apparent { return Apparent(float64(p) / float64(pf)) }

// Heat returns the heat that a power becomes where it is dissipated.
func (p Power) Heat() Heat { return Heat(p) }

// Times scales a quantity by a count or a pure factor.
func Times[T ~float64](q T, factor float64) T { return T(float64(q) * factor) }

// Per returns the ratio of two quantities of the same kind.
func Per[T ~float64](a, b T) float64 { return float64(a) / float64(b) }
