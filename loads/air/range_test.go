package air_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/air"
	"branchwork/loads/units"
)

func TestOutsideItsRangeAnEquationRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		why  string
		call func() error
		says string
	}{
		{"colder than the ice equation", func() error { _, err := air.SaturationPressure(-100.1); return err }, "temperature -100.1 °C is outside -100 °C to 200 °C"},
		{"hotter than the liquid equation", func() error { _, err := air.SaturationPressure(200.1); return err }, "temperature 200.1 °C is outside"},
		{"not a number", func() error { _, err := air.SaturationPressure(units.Temperature(nan)); return err }, "temperature NaN"},
		{"more than saturated", func() error { _, err := air.VapourPressure(20, 1.01); return err }, "relative humidity 1.01 is outside 0 to 1"},
		{"percent for a share", func() error { _, err := air.Deficit(20, 55); return err }, "relative humidity 55 is outside 0 to 1"},
		{"below zero humidity", func() error { _, err := air.VapourPressure(20, -0.1); return err }, "relative humidity -0.1"},
		{"boiling", func() error { _, err := air.HumidityOf(101, 1, air.SeaLevel); return err }, "vapour pressure"},
		{"dry air has no dew point", func() error { _, err := air.DewPoint(0); return err }, "vapour pressure 0 Pa is outside"},
		{"wet bulb above dry bulb", func() error { _, err := air.HumidityFromWetBulb(20, 20.1, air.SeaLevel); return err }, "wet bulb 20.1 °C is outside"},
		{"wet bulb below that of dry air", func() error { _, err := air.HumidityFromWetBulb(40, 5, air.SeaLevel); return err }, "humidity ratio"},
		{"fog", func() error { _, err := air.WetBulb(20, 0.02, air.SeaLevel); return err }, "relative humidity 1.3"},
		{"negative humidity", func() error { _, err := air.WetBulb(20, -0.001, air.SeaLevel); return err }, "humidity ratio -0.001"},
		{"above the standard atmosphere's layer", func() error { _, err := air.PressureAt(units.FromMetres(11001)); return err }, "altitude 11,001 m is outside -5,000 m to 11,000 m"},
		{"evaporation of hot water", func() error { _, err := air.LatentHeat(100); return err }, "temperature 100 °C is outside 0 °C to 50 °C"},
	} {
		err := c.call()
		var r *air.RangeError
		require.ErrorAs(t, err, &r, c.why)
		assert.Contains(t, err.Error(), c.says, c.why)
	}
}

func TestEndsOfTheRangesAreInside(t *testing.T) {
	for _, temp := range []units.Temperature{-100, 0, 0.01, 200} {
		_, err := air.SaturationPressure(temp)
		assert.NoError(t, err)
	}
	for _, m := range []float64{-5000, 11000} {
		_, err := air.PressureAt(units.FromMetres(m))
		assert.NoError(t, err)
	}
	for _, temp := range []units.Temperature{0, 50} {
		_, err := air.LatentHeat(temp)
		assert.NoError(t, err)
	}
}

// Trade pages take 970 BTU/lb, the heat of boiling water, for moisture in a room.
func TestHeatOfEvaporationIsNotThatOfBoilingWater(t *testing.T) {
	l, err := air.LatentHeat(25)
	require.NoError(t, err)
	assert.InDelta(t, 1050, l.BTUPerPound(), 0.5)
	assert.Greater(t, l.BTUPerPound()/970, 1.08)
}
