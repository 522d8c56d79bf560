package nec_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/published"
	"branchwork/loads/units"
)

// What a standard device carries as continuous load: rating over the allowance,
// times the voltage, on three phases times √3.
func TestPublishedCapacities(t *testing.T) {
	p := profile(t, "nec-2023")
	list, err := published.Load(os.DirFS("../../testdata/published"), "capacity.toml")
	require.NoError(t, err)
	for _, c := range list {
		device, err := published.Quantity[units.Current](c.In, "device")
		require.NoError(t, err)
		volts, err := published.Quantity[units.Voltage](c.In, "volts")
		require.NoError(t, err)
		phases, err := c.In.Number("phases")
		require.NoError(t, err)
		want, err := published.Quantity[units.Apparent](c.Want, "va")
		require.NoError(t, err)

		va := units.VA(volts, units.Times(device, 1/p.Continuous.Factor()))
		if phases == 3 {
			va = units.Times(va, math.Sqrt(3))
		}
		assert.InDelta(t, float64(want), float64(va), c.Tol, c.ID)
		assert.True(t, p.Devices.Standard(device), c.ID)
		assert.Empty(t, c.Unread(), c.ID)
	}
}
