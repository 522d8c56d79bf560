package assign_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
)

// A sub-panel at the end of 400 ft, measured at 70 A a leg, of which the file lists
// one luminaire of 100 W at 240 V, 0.42 A. By Ohm's law two conductors drop
// c = 2 · 400 ft · 70.42 A · R / 1000 / 240 V of the voltage; the luminaire is electronic
// and so all of it is taken to be of constant power: x = c / (1 − x).
func TestAFeedersDropKnowsTheMeasuredPeakOfItsPanel(t *testing.T) {
	const site = `
[site]
name = "An invented barn"
use = "commercial"
[panels.MP]
system = "120/240 V 1ph"
main = "200 A"
spaces = 24
[panels.SP]
system = "120/240 V 1ph"
main = "100 A"
spaces = 12
fed_by = "MP"
feeder = { length = "400 ft" }
measured_peak = { peak = "70 A", months = 12 }
[rooms.barn]
panel = "SP"
lights = "06:00-18:00"
[fixtures.bar]
room = "barn"
count = 1
power = "100 W"
power_factor = 1.0
voltage = "240 V"
wired = true
`
	inv := taken(t, "barn.toml", []byte(site))
	f := plan(t, inv).Panels[1].Feeder
	require.NotNil(t, f)
	line, err := conductor.LineOf(profile().Wires, f.Conductor.Material, "EMT", f.Conductor.Size, 1, nil)
	require.NoError(t, err)
	drop, ok := f.Drop.Get()
	require.True(t, ok)
	c := 2 * 400 * (70 + 100.0/240) * float64(line.R) / 1000 / 240
	want := (1 - math.Sqrt(1-4*c)) / 2
	assert.InDelta(t, want, float64(drop), 0.005*want) // reactance turns the voltage a little
}
