package units

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// Quantity is any type of this package that is read with a unit.
type Quantity interface {
	Power | Apparent | Horsepower | Current | Voltage | Resistance | Length | Area |
		Temperature | TempDiff | Airflow | WaterRate | Heat | Photons | Insulance | Transmittance
}

// unit turns a written number into base units: base = x·scale + shift.
type unit struct {
	scale, shift float64
}

// kind is how one quantity is written.
type kind struct {
	name  string // with its article: "a power"
	form  string // right forms, shown in messages
	units map[string]unit
}

// Units are matched exactly: "mA" and "MA" are a thousand million apart.
func kindOf[T Quantity]() kind {
	var zero T
	switch any(zero).(type) {
	case Power:
		return kind{"a power", `"640 W" or "1.2 kW"`, map[string]unit{"W": {1, 0}, "kW": {1000, 0}}}
	case Apparent:
		return kind{"an apparent power", `"650 VA" or "1.2 kVA"`, map[string]unit{"VA": {1, 0}, "kVA": {1000, 0}}}
	case Horsepower:
		return kind{"a motor rating", `"1.5 hp"`, map[string]unit{"hp": {1, 0}}}
	case Current:
		return kind{"a current", `"20 A" or "500 mA"`, map[string]unit{"A": {1, 0}, "mA": {1e-3, 0}}}
	case Voltage:
		return kind{"a voltage", `"240 V"`, map[string]unit{"V": {1, 0}, "kV": {1000, 0}}}
	case Resistance:
		return kind{"a resistance", `"0.5 ohm"`, map[string]unit{"ohm": {1, 0}, "Ω": {1, 0}}}
	case Length:
		return kind{"a length", `"60 ft" or "18 m"`, map[string]unit{"ft": {1, 0}, "in": {1.0 / 12, 0},
			"m": {1 / MetrePerFoot, 0}, "cm": {0.01 / MetrePerFoot, 0}, "mm": {0.001 / MetrePerFoot, 0}}}
	case Area:
		m2 := 1 / (MetrePerFoot * MetrePerFoot)
		return kind{"an area", `"400 ft2" or "37 m2"`, map[string]unit{"ft2": {1, 0}, "ft²": {1, 0}, "m2": {m2, 0}, "m²": {m2, 0}}}
	case Temperature:
		return kind{"a temperature", `"82 F" or "28 C"`, map[string]unit{"C": {1, 0}, "°C": {1, 0}, "F": {-1, 0}, "°F": {-1, 0}}}
	case TempDiff:
		return kind{"a temperature difference", `"10 F" or "6 C"`, map[string]unit{"C": {1, 0}, "°C": {1, 0}, "K": {1, 0}, "F": {5.0 / 9, 0}, "°F": {5.0 / 9, 0}}}
	case Airflow:
		return kind{"an air flow", `"400 CFM" or "680 m3/h"`, map[string]unit{"CFM": {1, 0}, "cfm": {1, 0},
			"m3/h": {1 / CubicMetrePerHourPerCFM, 0}, "m³/h": {1 / CubicMetrePerHourPerCFM, 0}, "L/s": {1 / LitrePerSecondPerCFM, 0}}}
	case WaterRate:
		return kind{"a water flow", `"90 gal/day" or "340 L/day"`, map[string]unit{"L/day": {1, 0}, "L/h": {24, 0},
			"gal/day": {LitrePerGallon, 0}, "pint/day": {LitrePerPint, 0}, "pints/day": {LitrePerPint, 0}}}
	case Heat:
		return kind{"a heat flow", `"36000 BTU/h", "3 ton" or "10 kW"`, map[string]unit{"W": {1, 0}, "kW": {1000, 0},
			"BTU/h": {1 / BTUPerHourPerWatt, 0}, "ton": {BTUPerHourPerTon / BTUPerHourPerWatt, 0}, "tons": {BTUPerHourPerTon / BTUPerHourPerWatt, 0}}}
	case Photons:
		return kind{"a photon flux", `"1700 umol/s"`, map[string]unit{"umol/s": {1, 0}, "µmol/s": {1, 0}, "μmol/s": {1, 0}}}
	case Insulance:
		return kind{"an R value", `"13 ft2.F.h/BTU" or "2.3 m2.K/W"`, map[string]unit{"ft2.F.h/BTU": {1, 0}, "m2.K/W": {5.678263337, 0}}}
	case Transmittance:
		return kind{"a U value", `"0.5 BTU/h.ft2.F" or "2.8 W/m2.K"`, map[string]unit{"BTU/h.ft2.F": {1, 0}, "W/m2.K": {1 / 5.678263337, 0}}}
	}
	panic("units: a quantity type without a kind")
}

// Form returns the right forms of a quantity, for messages.
func Form[T Quantity]() string { return kindOf[T]().form }

// With returns a form, or several, with a number that was written without its unit
// in the place of the example's: what is copied from a message is then what was
// meant, or plainly not.
func With(number, form string) string {
	parts := strings.Split(form, `"`)
	for i := 1; i < len(parts); i += 2 {
		if _, unit, ok := strings.Cut(parts[i], " "); ok {
			parts[i] = number + " " + unit
		}
	}
	return strings.Join(parts, `"`)
}

// Name returns the quantity's name with its article.
func Name[T Quantity]() string { return kindOf[T]().name }

// Names returns the units that a quantity may be written in, sorted.
func Names[T Quantity]() []string { return unitNames(kindOf[T]()) }

// ParseError is a text that is not a quantity of the kind wanted.
type ParseError struct {
	Says   string // lower case, the value quoted
	Remedy string // a right form
}

func (e *ParseError) Error() string { return e.Says + "; " + e.Remedy }

// Parse reads a quantity: a number, a space or none, and a unit of that
// quantity. The error is a *ParseError that names what is wrong and a right
// form. It accepts thousands separated by commas ("36,000 BTU/h"), no signs
// other than a leading minus, and refuses NaN and infinities.
func Parse[T Quantity](s string) (T, error) {
	k := kindOf[T]()
	number, name := splitNumber(s)
	remedy := "write " + k.name + " as " + k.form
	switch {
	case strings.TrimSpace(s) == "":
		return 0, &ParseError{"empty text where " + k.name + " belongs", remedy}
	case number == "":
		return 0, &ParseError{fmt.Sprintf("%q does not begin with a number", s), remedy}
	}
	x, err := parseNumber(number)
	if err != nil {
		return 0, &ParseError{fmt.Sprintf("%q is not a number", number), remedy}
	}
	if name == "" {
		return 0, &ParseError{fmt.Sprintf("%q has no unit", s), With(number, remedy)}
	}
	u, ok := k.units[name]
	if !ok {
		return 0, &ParseError{fmt.Sprintf("%q is not a unit of %s", name, strings.TrimPrefix(strings.TrimPrefix(k.name, "an "), "a ")),
			"units here: " + strings.Join(unitNames(k), ", ") + "; " + remedy}
	}
	if u.scale < 0 { // degrees Fahrenheit, the one unit with a zero of its own
		return T(FromFahrenheit(x)), nil
	}
	if x *= u.scale; math.IsInf(x, 0) {
		return 0, &ParseError{fmt.Sprintf("%q is not a number", number), remedy}
	}
	return T(x), nil
}

// ParseVoltages reads "240 V" or a range "100-277 V".
func ParseVoltages(s string) (VoltageSet, error) {
	body, ok := strings.CutSuffix(strings.TrimSpace(s), "V")
	low, high, ranged := strings.Cut(strings.TrimSpace(body), "-")
	if !ok || !ranged {
		v, err := Parse[Voltage](s)
		if err != nil {
			var pe = err.(*ParseError)
			pe.Remedy += `; a range is written "100-277 V"`
			return VoltageSet{}, pe
		}
		return VoltageSet{List: []Voltage{v}}, nil
	}
	a, errA := parseNumber(strings.TrimSpace(low))
	b, errB := parseNumber(strings.TrimSpace(high))
	if errA != nil || errB != nil || a >= b {
		return VoltageSet{}, &ParseError{fmt.Sprintf("%q is not a range of voltages", s), `write the lower voltage first: "100-277 V"`}
	}
	return VoltageSet{Low: Voltage(a), High: Voltage(b)}, nil
}

func splitNumber(s string) (number, unit string) {
	s = strings.TrimSpace(s)
	end := 0
	for end < len(s) {
		c := s[end]
		digit := c >= '0' && c <= '9' || c == '.' || c == ','
		sign := c == '-' && end == 0
		exponent := (c == 'e' || c == 'E') && end > 0 && end+1 < len(s) && s[end+1] >= '0' && s[end+1] <= '9'
		if !digit && !sign && !exponent {
			break
		}
		end++
	}
	return s[:end], strings.TrimSpace(s[end:])
}

// parseNumber reads a decimal number; commas separate thousands only.
func parseNumber(s string) (float64, error) {
	if strings.Contains(s, ",") {
		whole, _, _ := strings.Cut(s, ".")
		groups := strings.Split(strings.TrimPrefix(whole, "-"), ",")
		for i, g := range groups {
			if i > 0 && len(g) != 3 || i == 0 && (len(g) == 0 || len(g) > 3) {
				return 0, strconv.ErrSyntax
			}
		}
		s = strings.ReplaceAll(s, ",", "")
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, strconv.ErrSyntax
	}
	return x, nil
}

func unitNames(k kind) []string {
	names := make([]string, 0, len(k.units))
	for n := range k.units {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}
