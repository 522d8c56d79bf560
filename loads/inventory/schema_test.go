package inventory

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAPathLeadsToAKeyOrToNone(t *testing.T) {
	for path, want := range map[string]bool{
		"site.altitude":                    true,
		"site.conductors.material":         true,
		"site.outdoor.range":               false,
		"rooms.flower.climate.lights_on":   true,
		"rooms.flower.spacing":             true,
		"rooms.a.b c.spacing":              true,
		"rooms.flower.rows":                false,
		"rooms.spacing":                    false,
		"fixtures.bar-1 to bar-9.wired":    true,
		"equipment.ac.indoor_fan":          false,
		"equipment.boiler-pump.efficiency": false,
		"tariff.interval":                  false,
		"nothing.x.wired":                  false,
		"":                                 false,
	} {
		require.Equal(t, want, HasKey(path), path)
	}
}
