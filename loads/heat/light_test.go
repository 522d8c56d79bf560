package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// One measured fixture of 851 µmol/s and 625 W over 4 × 4 ft: before losses the mean
// is at most 573 µmol/(m²·s), whatever its maker's map shows in the middle.
func lit(t *testing.T, change ...func(*inventory.Item)) heat.Room {
	i := item(inventory.Fixtures, "bar", 1, 625*units.Watt, append([]func(*inventory.Item){func(i *inventory.Item) {
		i.Photons = units.Is(units.Photons(851))
	}}, change...)...)
	r := room(func(r *inventory.Room) { r.Canopy = units.Is(16 * units.SquareFoot) })
	return balance(t, site(r, i))
}

func TestLightOnTheCanopy(t *testing.T) {
	most := heat.MeanPPFD(851, 1, 16)
	assert.LessOrEqual(t, most, 573.0)
	got := lit(t).Light
	assert.InDelta(t, 0.9*most, known(t, got.PPFD), 1e-9)
	assert.InDelta(t, 0.9*most*3600*12/1e6, known(t, got.DLI), 1e-9)
	assert.InDelta(t, 625.0/16, known(t, got.Watts), 1e-9)
	assert.InDelta(t, 3.412142/12, known(t, got.Cooling), 1e-6, "0.284 ton per kW of light, less nothing")
	require.Len(t, got.Checks, 4)
	for _, c := range got.Checks {
		assert.False(t, c.Outside, c.What)
		assert.NotEmpty(t, c.Cite.Ref)
	}
	// Dimming takes photons with the watts.
	dim := lit(t, func(i *inventory.Item) { i.Level = units.Is(units.Ratio(0.5)) }).Light
	assert.InDelta(t, 0.45*most, known(t, dim.PPFD), 1e-9)
}

func TestLightOutsideTheUsualIsANote(t *testing.T) {
	got := lit(t, func(i *inventory.Item) { i.Photons = units.Is(units.Photons(85.1)) })
	assert.True(t, got.Light.Checks[0].Outside)
	assert.Contains(t, got.Notes, "mean photon flux density is 51.53 µmol/(m²·s); usual is 200 to 900 (trade page, light by stage)")
	assert.False(t, got.AtLeast)
}

func TestLightIsUnknownWithoutCanopyOrPhotons(t *testing.T) {
	got := lit(t, func(i *inventory.Item) { i.Photons = units.Unknown[units.Photons]("") }).Light
	assert.Equal(t, "fixtures.bar.photons is not given", got.PPFD.Why())
	assert.True(t, got.Watts.Known())
	bare := balance(t, site(room(), bars())).Light
	assert.Equal(t, "the canopy's area is not given", bare.PPFD.Why())
	assert.Equal(t, "the room has no lights", balance(t, site(room(), swing())).Light.PPFD.Why())
}
