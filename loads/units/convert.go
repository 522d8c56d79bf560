package units

// Conversion factors. Each says whether it is exact, defined or measured.
const (
	// BTUPerHourPerWatt converts watts to BTU/h with the International Table
	// BTU: 3600 / 1055.05585262. Defined. Source: NIST SP 811 appendix B
	// (references "sp811"). The thermochemical BTU gives 3.414426 and is not
	// used.
	BTUPerHourPerWatt = 3600 / 1055.05585262

	// BTUPerHourPerTon is one ton of refrigeration: 12,000 BTU/h, exact.
	// Source: NIST SP 811 appendix B (references "sp811").
	BTUPerHourPerTon = 12000

	// WattPerHorsepower is mechanical horsepower, 550 ft·lbf/s: follows from
	// the defined foot, pound and standard gravity; rounded to 10 digits.
	// Source: NIST SP 811 appendix B, value recalled.
	WattPerHorsepower = 745.6998716

	// MetrePerFoot is the international foot, exact.
	MetrePerFoot = 0.3048

	// LitrePerGallon is the US liquid gallon, 231 cubic inches, exact.
	LitrePerGallon = 3.785411784

	// LitrePerPint is the US liquid pint, an eighth of a gallon, exact.
	LitrePerPint = LitrePerGallon / 8

	// CubicMetrePerHourPerCFM: 0.3048³ × 60, exact.
	CubicMetrePerHourPerCFM = MetrePerFoot * MetrePerFoot * MetrePerFoot * 60

	// LitrePerSecondPerCFM: 0.3048³ × 1000 / 60, exact.
	LitrePerSecondPerCFM = MetrePerFoot * MetrePerFoot * MetrePerFoot * 1000 / 60

	// KilogramPerPound is the avoirdupois pound, exact.
	KilogramPerPound = 0.45359237
)

// BTUPerHour returns a heat flow in BTU/h (International Table).
func (h Heat) BTUPerHour() float64 { return float64(h) * BTUPerHourPerWatt }

// Tons returns a heat flow in tons of refrigeration.
func (h Heat) Tons() float64 { return h.BTUPerHour() / BTUPerHourPerTon }

// FromBTUPerHour returns the heat flow of so many BTU/h.
func FromBTUPerHour(x float64) Heat { return Heat(x / BTUPerHourPerWatt) }

// FromTons returns the heat flow of so many tons of refrigeration.
func FromTons(x float64) Heat { return Heat(x * BTUPerHourPerTon / BTUPerHourPerWatt) }

// Fahrenheit returns a temperature in °F. Multiplying before dividing keeps the
// code tables' band edges exact: 86 °F is 30 °C.
func (t Temperature) Fahrenheit() float64 { return float64(t)*9/5 + 32 }

// FromFahrenheit returns the temperature of so many °F.
func FromFahrenheit(f float64) Temperature { return Temperature((f - 32) * 5 / 9) }

// Metres returns a length in metres.
func (l Length) Metres() float64 { return float64(l) * MetrePerFoot }

// FromMetres returns the length of so many metres.
func FromMetres(m float64) Length { return Length(m / MetrePerFoot) }

// SquareMetres returns an area in square metres.
func (a Area) SquareMetres() float64 { return float64(a) * MetrePerFoot * MetrePerFoot }

// FromSquareMetres returns the area of so many square metres.
func FromSquareMetres(m float64) Area { return Area(m / (MetrePerFoot * MetrePerFoot)) }

// PintsPerDay returns a water flow in US pints per day.
func (w WaterRate) PintsPerDay() float64 { return float64(w) / LitrePerPint }

// Watts returns a motor's rated shaft output in watts.
func (h Horsepower) Watts() Power { return Power(float64(h) * WattPerHorsepower) }
