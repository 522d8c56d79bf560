package nec_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads/units"
)

// What a standard device carries as continuous load: rating over the allowance,
// times the voltage, on three phases times √3.
func TestPublishedCapacities(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, c := range outside.Cases(t, "capacity.toml") {
		device, err := published.Quantity[units.Current](c.In, "device")
		require.NoError(t, err)
		volts, err := published.Quantity[units.Voltage](c.In, "volts")
		require.NoError(t, err)
		phases, err := c.In.Number("phases")
		require.NoError(t, err)
		va := units.VA(volts, units.Times(device, 1/p.Continuous.Factor()))
		if phases == 3 {
			va = units.Times(va, math.Sqrt(3))
		}
		outside.Near(t, c, "va", va)
		assert.True(t, p.Devices.Standard(device), c.ID)
		assert.Empty(t, c.Unread(), c.ID)
	}
}
