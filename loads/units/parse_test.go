package units

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func parses[T Quantity](t *testing.T, want map[string]float64) {
	t.Helper()
	for s, x := range want {
		got, err := Parse[T](s)
		require.NoError(t, err, s)
		assert.InEpsilon(t, 1+math.Abs(x), 1+math.Abs(float64(got)), 1e-12, s)
		assert.Equal(t, math.Signbit(x), math.Signbit(float64(got)), s)
	}
}

func TestQuantitiesAreReadInTheUnitsOfTheTrade(t *testing.T) {
	parses[Power](t, map[string]float64{"640 W": 640, "640W": 640, "  1.2   kW ": 1200, "1,200 W": 1200, "1,234,567.5 W": 1234567.5, "1e3 W": 1000, "-5 W": -5, ".5 W": 0.5})
	parses[Apparent](t, map[string]float64{"650 VA": 650, "1.2 kVA": 1200})
	parses[Horsepower](t, map[string]float64{"1.5 hp": 1.5})
	parses[Current](t, map[string]float64{"20 A": 20, "500 mA": 0.5})
	parses[Voltage](t, map[string]float64{"240 V": 240, "4.16 kV": 4160})
	parses[Resistance](t, map[string]float64{"0.5 ohm": 0.5, "2 Ω": 2})
	parses[Length](t, map[string]float64{"60 ft": 60, "18 in": 1.5, "30.48 m": 100, "3048 cm": 100, "304.8 mm": 1})
	parses[Area](t, map[string]float64{"400 ft2": 400, "400 ft²": 400, "9.290304 m2": 100, "9.290304 m²": 100})
	parses[Temperature](t, map[string]float64{"30 C": 30, "86 F": 30, "86 °F": 30, "30 °C": 30, "-40 F": -40})
	parses[TempDiff](t, map[string]float64{"9 F": 5, "5 C": 5, "5 K": 5})
	parses[Airflow](t, map[string]float64{"400 CFM": 400, "400 cfm": 400, "169.901079552 m3/h": 100, "47.19474432 L/s": 100})
	parses[WaterRate](t, map[string]float64{"10 L/day": 10, "1 L/h": 24, "1 gal/day": 3.785411784, "8 pint/day": 3.785411784, "8 pints/day": 3.785411784})
	parses[Heat](t, map[string]float64{"10 kW": 10000, "5 W": 5, "12000 BTU/h": 3516.8528420667, "1 ton": 3516.8528420667, "1 tons": 3516.8528420667})
	parses[Photons](t, map[string]float64{"1700 umol/s": 1700, "1700 µmol/s": 1700, "1700 μmol/s": 1700})
	parses[Insulance](t, map[string]float64{"13 ft2.F.h/BTU": 13, "1 m2.K/W": 5.678263337})
	parses[Transmittance](t, map[string]float64{"0.5 BTU/h.ft2.F": 0.5, "5.678263337 W/m2.K": 1})
}

func TestWrongQuantitiesGetExactlyThisMessage(t *testing.T) {
	for s, want := range map[string]string{
		"":          `empty text where a power belongs; write a power as "640 W" or "1.2 kW"`,
		"  ":        `empty text where a power belongs; write a power as "640 W" or "1.2 kW"`,
		"W":         `"W" does not begin with a number; write a power as "640 W" or "1.2 kW"`,
		"640":       `"640" has no unit; write a power as "640 W" or "640 kW"`,
		"640 w":     `"w" is not a unit of power; units here: W, kW; write a power as "640 W" or "1.2 kW"`,
		"640 KW":    `"KW" is not a unit of power; units here: W, kW; write a power as "640 W" or "1.2 kW"`,
		"640 W W":   `"W W" is not a unit of power; units here: W, kW; write a power as "640 W" or "1.2 kW"`,
		"640 VA":    `"VA" is not a unit of power; units here: W, kW; write a power as "640 W" or "1.2 kW"`,
		"1.2.3 W":   `"1.2.3" is not a number; write a power as "640 W" or "1.2 kW"`,
		"1,5 kW":    `"1,5" is not a number; write a power as "640 W" or "1.2 kW"`,
		"1,2345 W":  `"1,2345" is not a number; write a power as "640 W" or "1.2 kW"`,
		"12,34.5 W": `"12,34.5" is not a number; write a power as "640 W" or "1.2 kW"`,
		"- W":       `"-" is not a number; write a power as "640 W" or "1.2 kW"`,
		"+5 W":      `"+5 W" does not begin with a number; write a power as "640 W" or "1.2 kW"`,
		"1e999 W":   `"1e999" is not a number; write a power as "640 W" or "1.2 kW"`,
		"1e308 kW":  `"1e308" is not a number; write a power as "640 W" or "1.2 kW"`,
		"NaN W":     `"NaN W" does not begin with a number; write a power as "640 W" or "1.2 kW"`,
		"Inf W":     `"Inf W" does not begin with a number; write a power as "640 W" or "1.2 kW"`,
		"0x10 W":    `"x10 W" is not a unit of power; units here: W, kW; write a power as "640 W" or "1.2 kW"`,
	} {
		_, err := Parse[Power](s)
		assert.EqualError(t, err, want, "%q", s)
	}
	for s, want := range map[string]string{
		"1 MA": `"MA" is not a unit of current; units here: A, mA; write a current as "20 A" or "500 mA"`,
		"1 a":  `"a" is not a unit of current; units here: A, mA; write a current as "20 A" or "500 mA"`,
	} {
		_, err := Parse[Current](s)
		assert.EqualError(t, err, want, "%q", s)
	}
	_, err := Parse[Area]("400 sqft")
	assert.EqualError(t, err, `"sqft" is not a unit of area; units here: ft2, ft², m2, m²; write an area as "400 ft2" or "37 m2"`)
}

func TestVoltagesAreOneOrARange(t *testing.T) {
	for s, want := range map[string]VoltageSet{
		"240 V":       {List: []Voltage{240}},
		"240V":        {List: []Voltage{240}},
		"100-277 V":   {Low: 100, High: 277},
		"100 - 277 V": {Low: 100, High: 277},
		"100-277V":    {Low: 100, High: 277},
	} {
		got, err := ParseVoltages(s)
		require.NoError(t, err, s)
		assert.Equal(t, want, got, s)
	}
	for s, want := range map[string]string{
		"277-100 V": `"277-100 V" is not a range of voltages; write the lower voltage first: "100-277 V"`,
		"240-240 V": `"240-240 V" is not a range of voltages; write the lower voltage first: "100-277 V"`,
		"a-b V":     `"a-b V" is not a range of voltages; write the lower voltage first: "100-277 V"`,
		"240":       `"240" has no unit; write a voltage as "240 V"; a range is written "100-277 V"`,
		"240 v":     `"v" is not a unit of voltage; units here: V, kV; write a voltage as "240 V"; a range is written "100-277 V"`,
	} {
		_, err := ParseVoltages(s)
		assert.EqualError(t, err, want, s)
	}
}

// comesBack checks that what is printed is read as a value that prints alike,
// and, for values on the grid that is printed, as the same value.
func comesBack[T interface {
	Quantity
	fmt.Stringer
}](t *testing.T, grid float64) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		s := T(rapid.Float64Range(-1e7, 1e7).Draw(t, "x")).String()
		y, err := Parse[T](s)
		if err != nil {
			t.Fatalf("%s: %v", s, err)
		}
		if y.String() != s {
			t.Fatalf("%s was read and printed as %s", s, y)
		}
	})
	if grid == 0 {
		return
	}
	rapid.Check(t, func(t *rapid.T) {
		x := T(float64(rapid.IntRange(-1_000_000, 1_000_000).Draw(t, "n")) / grid)
		if y, err := Parse[T](x.String()); err != nil || y != x {
			t.Fatalf("%v was printed as %s and read as %v, %v", float64(x), x, float64(y), err)
		}
	})
}

func TestWhatIsPrintedIsReadBack(t *testing.T) {
	comesBack[Power](t, 10)
	comesBack[Apparent](t, 10)
	comesBack[Horsepower](t, 1e6)
	comesBack[Current](t, 100)
	comesBack[Voltage](t, 10)
	comesBack[Resistance](t, 1e6)
	comesBack[Length](t, 10)
	comesBack[Area](t, 10)
	comesBack[Temperature](t, 10)
	comesBack[Airflow](t, 1)
	comesBack[WaterRate](t, 10)
	comesBack[Heat](t, 0) // printed in BTU/h, kept in watts: no common grid
}

// everyKind tries a text as each quantity and returns the values that it gave.
func everyKind(s string) map[string]float64 {
	out := map[string]float64{}
	try[Power](s, out)
	try[Apparent](s, out)
	try[Horsepower](s, out)
	try[Current](s, out)
	try[Voltage](s, out)
	try[Resistance](s, out)
	try[Length](s, out)
	try[Area](s, out)
	try[Temperature](s, out)
	try[TempDiff](s, out)
	try[Airflow](s, out)
	try[WaterRate](s, out)
	try[Heat](s, out)
	try[Photons](s, out)
	try[Insulance](s, out)
	try[Transmittance](s, out)
	return out
}

func try[T Quantity](s string, out map[string]float64) {
	if v, err := Parse[T](s); err == nil {
		out[Name[T]()] = float64(v)
	}
}

func TestUnitBelongsToOneQuantityUnlessTheTradeSharesIt(t *testing.T) {
	shared := map[string][]string{
		"W":  {"a heat flow", "a power"},
		"kW": {"a heat flow", "a power"},
		"C":  {"a temperature", "a temperature difference"}, "°C": {"a temperature", "a temperature difference"},
		"F": {"a temperature", "a temperature difference"}, "°F": {"a temperature", "a temperature difference"},
	}
	for _, u := range strings.Fields("W kW VA kVA hp A mA V kV ohm ft in m cm mm ft2 m2 C °C F °F K CFM m3/h L/s L/day L/h gal/day pint/day BTU/h ton umol/s ft2.F.h/BTU m2.K/W BTU/h.ft2.F W/m2.K") {
		var names []string
		for n := range everyKind("5 " + u) {
			names = append(names, n)
		}
		if want, ok := shared[u]; ok {
			assert.ElementsMatch(t, want, names, u)
		} else {
			assert.Len(t, names, 1, u)
		}
	}
}

// FuzzParse: no text panics the parser, what it gives is finite, and white
// space around a text does not matter.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"640 W", "1,200.5 kVA", "100-277 V", "-40 °F", "1e5 A", "1e-5 A", "13 ft2.F.h/BTU", "", "-", "1e", ",", "9e308 kW", "1,,2 W", "µ", "\xff W"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		first := everyKind(s)
		for name, x := range first {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%q as %s is %v", s, name, x)
		}
		require.Equal(t, first, everyKind(" "+s+"\t"))
		v, err := ParseVoltages(s)
		if err != nil {
			return
		}
		again, err := ParseVoltages(v.String())
		require.NoError(t, err, "%q printed as %q", s, v)
		require.Equal(t, v.String(), again.String())
	})
}
