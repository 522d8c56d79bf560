package assign_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// Two rooms light by turns, three one-pole circuits of eight bars each: 8 · 1.786 A
// at 120 V are 14.29 A. By hand: each half of the day puts one circuit on every
// leg. Without the hours six equal breakers are even as they come, two of the first
// room on leg A and none on leg C.
func TestRoomsThatLightByTurnsAreEvenInBothHalves(t *testing.T) {
	const site = `
[site]
name = "Invented rooms"
use = "commercial"
[panels.LP1]
system = "208Y/120 V 3ph"
spaces = 12
[rooms.east]
panel = "LP1"
lights = "06:00-18:00"
[rooms.west]
panel = "LP1"
lights = "18:00-06:00"
[fixtures.bar-east]
room = "east"
count = 24
power = "210 W"
power_factor = 0.98
voltage = "120 V"
wired = true
[fixtures.bar-west]
room = "west"
count = 24
power = "210 W"
power_factor = 0.98
voltage = "120 V"
wired = true
`
	inv := taken(t, "rooms.toml", []byte(site))
	p := profile()
	set, planned := build(inv, p), plan(t, inv)
	require.Len(t, planned.Circuits, 6)
	one := units.Current(8 * 210 / (120 * 0.98))
	for _, m := range []clock.Minute{12 * clock.Hour, 0} {
		for _, x := range assign.LegsAt(inv, set, p, planned, m) {
			for _, leg := range x.Legs {
				assert.InDelta(t, float64(one), float64(leg), 1e-9, "legs at %s: %v", m, x.Legs)
			}
		}
	}
	assert.Equal(t, int64(1429), planned.Panels[0].Balance.Worst)
	assert.True(t, planned.Panels[0].Balance.Proved)
	assert.Zero(t, planned.Optimality.Imbalance.Used)
	assert.Zero(t, planned.Optimality.LightsOn.Used)
	assert.True(t, planned.Optimality.LightsOn.Proved)
}

// Four heaters at four hours and small lights at a fifth: more states than are
// searched together, the lit one the least of them. Only that one counts with lights
// on: 2 · 100 W at 120 V are 1.67 A on one leg.
func TestALitStateIsCountedThoughHeavierOnesAreSearched(t *testing.T) {
	site := "[site]\nname = \"An invented room\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"120/240 V 1ph\"\nmain = \"200 A\"\nspaces = 24\n" +
		"[rooms.r]\npanel = \"LP1\"\nlights = \"20:00-21:00\"\n" +
		"[fixtures.bar]\nroom = \"r\"\ncount = 2\npower = \"100 W\"\npower_factor = 1.0\nvoltage = \"120 V\"\nwired = true\n"
	for i := range 4 {
		site += fmt.Sprintf("[equipment.h%d]\nkind = \"other\"\nroom = \"r\"\nhours = \"%02d:00-%02d:00\"\nvoltage = \"120 V\"\npower = \"%d W\"\npower_factor = 1.0\nwired = true\n",
			i, 4*i, 4*i+2, 1200+100*i)
	}
	inv := taken(t, "room.toml", []byte(site))
	p := profile()
	set, planned := build(inv, p), plan(t, inv)
	require.Empty(t, verify.Plan(inv, set, p, planned))
	assert.Equal(t, int64(167), planned.Panels[0].Balance.Lit, "in 10 mA")
}
