package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/air"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Formulas that circulate and are wrong, each beside what the program says. A check
// that could not tell them apart would be worth nothing: the difference has to be ten
// times the tolerance that the worked examples are held to.
func TestWrongFormulasWouldBeSeen(t *testing.T) {
	got := balance(t, wateredRoom())
	lamps := got.Peak.Part(heat.Lights).Total().BTUPerHour()
	latent := got.Peak.Gain.Latent.BTUPerHour()
	dry := balance(t, wateredRoom(item(inventory.Equipment, "dry", 1, 2000*units.Watt, removes(96))))
	p, err := air.PressureAt(5000)
	require.NoError(t, err)
	// Density of the standard atmosphere: its pressure over its own falling temperature.
	density := float64(p.AgainstSeaLevel()) * 288.15 / (288.15 - 0.0065*1524)
	for _, c := range []struct {
		wrong      string
		is, would  float64
		difference float64 // ten tolerances
	}{
		{"vapour added on top of the lamps", got.Peak.Total().BTUPerHour(), got.Peak.Total().BTUPerHour() + latent, 5},
		{"970 BTU/lb, of boiling water", latent, 4 / units.KilogramPerPound * 970, 5},
		{"the thermochemical BTU", lamps, 7800 * 3.414426, 5},
		{"lamp watts × 3.5 and ballast watts × 2.5", lamps, 7358*3.5 + 442*2.5, 5},
		{"condensing heat that vanishes", dry.Peak.Hour.Sensible.BTUPerHour(), 27458 - latent + 2000*units.BTUPerHourPerWatt, 5},
		{"the density ratio for altitude", heat.SensibleOfAir(1000, 10, p.AgainstSeaLevel()).BTUPerHour(), 1.08 * density * 18000, 5},
		{"0.68 per grain beside 4,840", heat.LatentOfAir(1000, 0.01, 1).BTUPerHour(), 0.68 * 7000 * 10, 5},
		{"heating clipped to zero", got.Coldest.Total().BTUPerHour(), got.Coldest.Gain.Latent.BTUPerHour(), 5},
		{"mean flux per square foot", heat.MeanPPFD(851, 1, 16), 851.0 / 16, 0.5},
	} {
		assert.Greater(t, math.Abs(c.is-c.would), c.difference, c.wrong)
	}
	assert.InDelta(t, 0.862, density, 0.0005, "the ratio meant")
}
