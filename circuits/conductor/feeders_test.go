package conductor_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
	"branchwork/codes/outside"
	"branchwork/loads/units"
)

// amps returns the line current of an apparent power of the case.
func (r row) amps(key string) units.Current {
	v := float64(in[units.Voltage](r, "volts"))
	if r.count("phases", 1) == 3 {
		v *= math.Sqrt(3)
	}
	return units.Current(float64(in[units.Apparent](r, key)) / v)
}

// The feeders of Annex D as far as they concern conductors and devices; the
// loads themselves are not calculated here.
func TestPublishedFeeders(t *testing.T) {
	ran := 0
	for _, c := range outside.Cases(t, "loadcalc.toml") {
		r := row{t, c, nec(t)}
		switch {
		case r.has("continuous_va"):
			c, o := r.amps("continuous_va"), r.amps("other_va")
			required := r.p.Continuous.Required(c, o, false)
			near(r, "amps", required)
			near(r, "required_va", units.VA(in[units.Voltage](r, "volts"), required))
			r.nextDevice(required)
		case r.has("required_va"):
			near(r, "amps", r.amps("required_va"))
			r.nextDevice(r.amps("required_va"))
		case r.has("load_va"):
			q := r.request()
			q.Other, q.Terminals, q.Insulation = r.amps("load_va"), units.Is(units.Temperature(75)), "THWN-2"
			x, err := conductor.Select(q, r.p, nil)
			require.NoError(t, err)
			near(r, "ampacity", units.Times(x.Load, 1/(float64(x.Ambient)*float64(x.Bundle))))
			named(r, "conductor", x.Size)
		case r.has("size"):
			x, err := conductor.Evaluate(r.text("size", ""), 1, r.request(), r.p, nil)
			require.NoError(t, err)
			near(r, "corrected", x.CorrectedAmps)
			near(r, "protected", x.ProtectedAt)
		default:
			continue
		}
		ran++
		assert.Empty(t, c.Unread(), c.ID)
	}
	assert.Equal(t, 7, ran)
}

// nextDevice compares the next standard rating with the device wanted.
func (r row) nextDevice(i units.Current) {
	d, ok := r.p.Devices.Next(i)
	require.True(r.t, ok)
	near(r, "device", d)
}
