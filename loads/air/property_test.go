package air_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/loads/air"
	"branchwork/loads/units"
)

func drawState(t *rapid.T) (units.Temperature, units.Ratio, air.Pressure) {
	return units.Temperature(rapid.Float64Range(-30, 60).Draw(t, "t")), units.Ratio(rapid.Float64Range(0.01, 1).Draw(t, "rh")),
		air.Pressure(rapid.Float64Range(60000, 105000).Draw(t, "p"))
}

// Dew point ≤ wet bulb ≤ dry bulb, equal when saturated; and every road back leads to
// where it started, across the freezing point too, where the wet-bulb equation
// changes.
func TestRoadsBackLeadToTheSameState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		db, rh, p := drawState(t)
		w, err := air.HumidityOf(db, rh, p)
		require.NoError(t, err)
		pw, err := air.VapourPressure(db, rh)
		require.NoError(t, err)
		back, err := air.RelativeHumidity(db, w, p)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(rh), float64(back), 1e-9)
		assert.InEpsilon(t, float64(pw), float64(w.VapourPressure(p)), 1e-9)

		dew, err := air.DewPoint(pw)
		require.NoError(t, err)
		wet, err := air.WetBulb(db, w, p)
		require.NoError(t, err)
		assert.LessOrEqual(t, float64(dew), float64(wet)+0.01)
		assert.LessOrEqual(t, float64(wet), float64(db))
		full, err := air.SaturationPressure(dew)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(pw), float64(full), 1e-4, "at the dew point the vapour is saturated")
		again, err := air.HumidityFromWetBulb(db, wet, p)
		require.NoError(t, err)
		assert.InDelta(t, float64(w), float64(again), 1e-9)
	})
}

func TestWarmerAndWetterAirHoldsMoreHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		db, rh, p := drawState(t)
		w, err := air.HumidityOf(db, rh, p)
		require.NoError(t, err)
		warmer := db + units.Temperature(rapid.Float64Range(0.1, 20).Draw(t, "rise"))
		a, err := air.SaturationPressure(db)
		require.NoError(t, err)
		b, err := air.SaturationPressure(warmer)
		require.NoError(t, err)
		assert.Less(t, float64(a), float64(b))
		assert.Less(t, float64(air.EnthalpyOf(db, w)), float64(air.EnthalpyOf(warmer, w)))
		assert.Less(t, float64(air.EnthalpyOf(db, w)), float64(air.EnthalpyOf(db, w+0.001)))
		assert.Less(t, float64(air.VolumeOf(db, w, p)), float64(air.VolumeOf(db, w, p-1000)), "thinner air takes more room")
		thin, err := air.HumidityOf(db, rh, p-1000)
		require.NoError(t, err)
		assert.Less(t, float64(w), float64(thin), "thinner air holds more water per pound at the same relative humidity")
	})
}

// The two sets of constants agree on differences of enthalpy within the 0.15 % that
// EnthalpyIP promises; their zeros do not agree at all.
func TestEnthalpyDifferencesAgreeInBothSystems(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := units.Temperature(rapid.Float64Range(0, 30).Draw(t, "a"))
		b := a + units.Temperature(rapid.Float64Range(5, 20).Draw(t, "rise"))
		w := air.HumidityRatio(rapid.Float64Range(0, 0.02).Draw(t, "w"))
		x := w + air.HumidityRatio(rapid.Float64Range(0, 0.01).Draw(t, "more"))
		si := float64(air.EnthalpyOf(b, x)-air.EnthalpyOf(a, w)) / air.JoulePerKilogramPerBTUPerPound
		assert.InEpsilon(t, air.EnthalpyIP(b, x)-air.EnthalpyIP(a, w), si, 1.5e-3)
	})
	assert.InDelta(t, 0, float64(air.EnthalpyOf(0, 0)), 1e-9)
	assert.InDelta(t, 7.68, air.EnthalpyIP(0, 0), 1e-9)
}

func TestWaterAndItsHeatConvertBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := air.LatentHeat(units.Temperature(rapid.Float64Range(0, 50).Draw(t, "t")))
		require.NoError(t, err)
		rate := units.WaterRate(rapid.Float64Range(0.01, 1e4).Draw(t, "rate"))
		assert.InEpsilon(t, float64(rate), float64(l.Water(l.Of(rate))), 1e-12)
	})
}
