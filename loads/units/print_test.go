package units

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestQuantitiesArePrintedWithUnitAndWithoutNoise(t *testing.T) {
	for _, row := range []struct {
		v    fmt.Stringer
		want string
	}{
		{640 * Watt, "640 W"},
		{Power(1234567.89), "1,234,567.9 W"},
		{-Power(0.01), "0 W"},
		{12 * KVA, "12,000 VA"},
		{Horsepower(1.5), "1.5 hp"},
		{Current(13.605442), "13.61 A"},
		{Voltage(277), "277 V"},
		{Resistance(0.000193), "0.000193 ohm"},
		{Length(60), "60 ft"},
		{Area(384), "384 ft2"},
		{Temperature(-12.25), "-12.2 C"},
		{Airflow(399.6), "400 CFM"},
		{WaterRate(340.687), "340.7 L/day"},
		{FromTons(3), "36,000 BTU/h"},
		{Ratio(0.98), "0.98"},
		{Ratio(1), "1"},
	} {
		assert.Equal(t, row.want, row.v.String())
	}
	assert.Equal(t, "1,234.50", Fixed(1234.5, 2))
	assert.Equal(t, "-1,234", Round(-1234.4, 0))
	assert.Equal(t, "999", Round(999, 2))
	assert.Equal(t, "1,000", Round(1000, 2))
}

func TestActualAndLimitAreToldApart(t *testing.T) {
	for _, row := range []struct {
		actual, limit float64
		a, l, why     string
	}{
		{17.006, 20, "17.01", "20", "two decimals do"},
		{16.004, 16, "16.004", "16", "two decimals would hide it"},
		{16.00004, 16, "16.00004", "16", "nor would four"},
		{16, 16, "16", "16", "equal"},
		{1234.56, 1000, "1,234.56", "1,000", "thousands"},
	} {
		a, l := Against(row.actual, row.limit)
		assert.Equal(t, row.a, a, row.why)
		assert.Equal(t, row.l, l, row.why)
	}
}

func TestFormsShownInMessagesAreRight(t *testing.T) {
	assert.Equal(t, `"640 W" or "1.2 kW"`, Form[Power]())
	assert.Equal(t, "an air flow", Name[Airflow]())
}
