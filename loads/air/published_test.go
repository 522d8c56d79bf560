package air_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads/air"
	"branchwork/loads/units"
)

// TestPublishedValuesOfMoistAir works every row of testdata/published/air.toml.
func TestPublishedValuesOfMoistAir(t *testing.T) {
	list := outside.Cases(t, "air.toml")
	require.Equal(t, 85, len(list), "rows lost or added without being counted")
	for _, c := range list {
		t.Run(c.ID, func(t *testing.T) {
			have := answers(t, c.Case)
			for _, want := range []string{"pascal", "psia", "against", "ratio", "kj", "btu", "m3", "ft3", "rh"} {
				if c.Want.Has(want) {
					require.Contains(t, have, want)
					c.Number(t, want, have[want])
				}
			}
			if c.Want.Has("dew") {
				require.Contains(t, have, "dew")
				outside.Near(t, c, "dew", units.Temperature(have["dew"]))
			}
			assert.Empty(t, c.Unread())
		})
	}
}

// answers works a case in every unit that a row may ask for.
func answers(t *testing.T, c published.Case) map[string]float64 {
	of, err := published.Get[string](c.In, "of")
	require.NoError(t, err)
	switch of {
	case "atmosphere", "altitude", "ratio":
		z, err := published.Quantity[units.Length](c.In, "z")
		require.NoError(t, err)
		p, err := air.PressureAt(z)
		require.NoError(t, err)
		return map[string]float64{"pascal": float64(p), "psia": p.PSI(), "against": float64(p.AgainstSeaLevel())}
	}
	db, err := published.Quantity[units.Temperature](c.In, "t")
	require.NoError(t, err)
	switch of {
	case "saturation":
		p, err := air.SaturationPressure(db)
		require.NoError(t, err)
		return map[string]float64{"pascal": float64(p), "psia": p.PSI()}
	case "saturated-ratio", "saturated-enthalpy":
		w, err := air.HumidityOf(db, 1, air.SeaLevel)
		require.NoError(t, err)
		return state(db, w, air.SeaLevel)
	case "dry-enthalpy", "dry-volume":
		return state(db, 0, air.SeaLevel)
	case "latent":
		l, err := air.LatentHeat(db)
		require.NoError(t, err)
		return map[string]float64{"kj": float64(l) / 1000, "btu": l.BTUPerPound()}
	case "dew":
		rh, err := c.In.Number("rh")
		require.NoError(t, err)
		pw, err := air.VapourPressure(db, units.Ratio(rh))
		require.NoError(t, err)
		return map[string]float64{"dew": dew(t, pw)}
	case "wet-bulb":
		p := air.SeaLevel
		if c.In.Has("psia") {
			x, err := c.In.Number("psia")
			require.NoError(t, err)
			p = air.FromPSI(x)
		}
		wet, err := published.Quantity[units.Temperature](c.In, "wet")
		require.NoError(t, err)
		w, err := air.HumidityFromWetBulb(db, wet, p)
		require.NoError(t, err)
		out := state(db, w, p)
		rh, err := air.RelativeHumidity(db, w, p)
		require.NoError(t, err)
		out["rh"], out["dew"] = float64(rh), dew(t, w.VapourPressure(p))
		return out
	}
	t.Fatalf("no quantity %q", of)
	return nil
}

func state(db units.Temperature, w air.HumidityRatio, p air.Pressure) map[string]float64 {
	return map[string]float64{"ratio": float64(w), "kj": float64(air.EnthalpyOf(db, w)) / 1000, "btu": air.EnthalpyIP(db, w),
		"m3": float64(air.VolumeOf(db, w, p)), "ft3": air.VolumeIP(db, w, p)}
}

func dew(t *testing.T, pw air.Pressure) float64 {
	td, err := air.DewPoint(pw)
	require.NoError(t, err)
	return float64(td)
}
