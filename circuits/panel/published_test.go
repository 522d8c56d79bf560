package panel_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/panel"
	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// lines are the loads that a case may name: the legs each hangs on.
var lines = []struct {
	key  string
	legs []int
}{
	{"an", []int{0}}, {"bn", []int{1}}, {"cn", []int{2}},
	{"ab", []int{0, 1}}, {"bc", []int{1, 2}}, {"ca", []int{2, 0}},
}

func amps(t *testing.T, v *published.Values, key string) units.Current {
	x, err := published.Quantity[units.Current](v, key)
	require.NoError(t, err)
	return x
}

func number(t *testing.T, v *published.Values, key string, otherwise float64) float64 {
	if !v.Has(key) {
		return otherwise
	}
	x, err := v.Number(key)
	require.NoError(t, err)
	return x
}

// branchesOf reads the loads of a case: a current and its power factor, a
// resistance between two lines, or a current with a third harmonic on each leg.
func branchesOf(t *testing.T, c published.Case) []panel.Branch {
	var out []panel.Branch
	if c.In.Has("third") {
		i, third := amps(t, c.In, "fundamental"), amps(t, c.In, "third")
		for leg := range 3 {
			out = append(out, panel.Branch{Legs: []int{leg}, Amps: i, PF: 1, Harmonic: units.Per(third, i)})
		}
		return out
	}
	for _, l := range lines {
		b := panel.Branch{Legs: l.legs, PF: units.Ratio(number(t, c.In, l.key+"_pf", 1))}
		switch {
		case c.In.Has(l.key):
			b.Amps = amps(t, c.In, l.key)
		case c.In.Has(l.key + "_ohm"):
			b.Amps = units.Current(120 * math.Sqrt(3) / number(t, c.In, l.key+"_ohm", 0))
		default:
			continue
		}
		out = append(out, b)
	}
	return out
}

// Every row of threephase.toml: lines and neutral as phasors. Sums of amperes,
// halved volt-amperes, a plus sign between the branches of a line, and a neutral
// without power factors each miss at least one row.
func TestPublishedLineAndNeutralCurrents(t *testing.T) {
	wye, ok := inventory.SystemNamed("208Y/120 V 3ph")
	require.True(t, ok)
	for _, c := range outside.Cases(t, "threephase.toml") {
		legs, neutral := panel.Currents(wye, branchesOf(t, c.Case))
		for i, key := range []string{"a", "b", "c"} {
			outside.Near(t, c, key, legs[i])
		}
		outside.Near(t, c, "n", neutral)
		if c.Want.Has("va") {
			volts, err := published.Quantity[units.Voltage](c.In, "volts")
			require.NoError(t, err)
			outside.Near(t, c, "va", loads.ApparentPower(legs[0], volts, 3))
		}
		assert.Empty(t, c.Unread(), "%s: values that this test does not look at", c.ID)
	}
}

// The rows of assignment.toml that ask for the leg of a space.
func TestPublishedLegsOfSpaces(t *testing.T) {
	wye, ok := inventory.SystemNamed("208Y/120 V 3ph")
	require.True(t, ok)
	wanted := map[string]bool{"F42-24": true, "F42-11": true, "F42-17": true}
	for _, c := range outside.Cases(t, "assignment.toml") {
		if !wanted[c.ID] {
			continue
		}
		delete(wanted, c.ID)
		require.InDelta(t, wye.Legs, number(t, c.In, "phases", 0), 0, c.ID)
		space := int(number(t, c.In, "space", 0))
		got := panel.LegsOf(wye, []int{space})
		require.Len(t, got, 1, c.ID)
		c.Name(t, "leg", string(rune('A'+got[0])))
		assert.Empty(t, c.Unread(), c.ID)
	}
	assert.Empty(t, wanted, "rows that are not in the file")
}
