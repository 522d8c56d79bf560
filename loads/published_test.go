package loads_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads"
	"branchwork/loads/units"
)

func quantity[T units.Quantity](t *testing.T, v *published.Values, key string) T {
	x, err := published.Quantity[T](v, key)
	require.NoError(t, err)
	return x
}

// Every row of currents.toml. Without the power factor 625 W at 120 V would be
// 5.21 A, outside the rounding of the measurement.
func TestPublishedCurrentsOfOneFixture(t *testing.T) {
	for _, c := range outside.Cases(t, "currents.toml") {
		pf, err := c.In.Number("pf")
		require.NoError(t, err)
		i, err := loads.LineCurrent(quantity[units.Power](t, c.In, "power"), quantity[units.Voltage](t, c.In, "volts"), 1, units.Ratio(pf))
		require.NoError(t, err)
		outside.Near(t, c, "current", i)
		assert.Empty(t, c.Unread(), c.ID)
	}
}

// The calculated loads of Annex D turned into amperes. Demand factors of a
// dwelling are not this program's work; their results are the inputs here.
func TestPublishedLoadsTurnIntoAmperes(t *testing.T) {
	wanted := map[string]bool{"D1a-amps": true, "D1a-neutral": true, "D2a-amps": true, "D2a-neutral": true, "D2b-amps": true}
	for _, c := range outside.Cases(t, "loadcalc.toml") {
		if !wanted[c.ID] {
			continue
		}
		delete(wanted, c.ID)
		var va units.Apparent
		if c.In.Has("parts") {
			parts, err := published.Get[[]any](c.In, "parts")
			require.NoError(t, err)
			for _, text := range parts {
				s, err := units.Parse[units.Apparent](text.(string))
				require.NoError(t, err)
				va += s
			}
		} else {
			va = quantity[units.Apparent](t, c.In, "va")
		}
		i, err := loads.ApparentCurrent(va, quantity[units.Voltage](t, c.In, "volts"), 1)
		require.NoError(t, err)
		outside.Near(t, c, "amps", i)
		assert.Empty(t, c.Unread(), c.ID)
	}
	assert.Empty(t, wanted, "rows that are not in the file")
}
