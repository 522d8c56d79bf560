package assign_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// The fullest leg of all minutes is the plan's own figure, where that is no
// changeover's.
func TestTheFullestMinuteIsThePlansOwn(t *testing.T) {
	p := profile()
	sites(t, func(f string, inv *inventory.Inventory) {
		set, planned := build(inv, p), plan(t, inv)
		most := make([]units.Current, len(planned.Panels))
		for _, m := range switchings(inv) {
			for i, x := range assign.LegsAt(inv, set, p, planned, m) {
				require.Equal(t, planned.Panels[i].Name, x.Panel)
				require.Len(t, x.Legs, planned.Panels[i].System.Legs)
				most[i] = max(most[i], fullest(x.Legs))
			}
		}
		for i, x := range planned.Panels {
			want := float64(fullest(x.Legs))
			if strings.HasPrefix(x.State, "changeover") {
				assert.LessOrEqual(t, float64(most[i]), want+1e-9, "%s %s", f, x.Name)
				continue
			}
			assert.InDelta(t, want, float64(most[i]), 1e-9, "%s %s", f, x.Name)
		}
	})
}

func fullest(legs []units.Current) units.Current {
	var most units.Current
	for _, i := range legs {
		most = max(most, i)
	}
	return most
}

// switchings are midnight and the minutes at which anything in the file switches.
func switchings(inv *inventory.Inventory) []clock.Minute {
	out := []clock.Minute{0}
	for _, r := range inv.Rooms {
		w, _ := r.Lights.Get()
		out = append(out, w.Edges()...)
	}
	for _, i := range inv.Items {
		w, _ := i.Hours.Get()
		out = append(out, w.Edges()...)
	}
	return out
}

// Two groups of 960 W at 120 V, power factor 1: 8 A each. Day and night on a panel of
// one leg; at noon one of them is on, and with an interlock never both.
func TestLegsFollowTheHoursAndInterlocks(t *testing.T) {
	group := func(name, on, interlock string) inventory.Item {
		return inventory.Item{Table: inventory.Fixtures, Name: name, Count: 1, Power: units.Is(960 * units.Watt), PowerFactor: units.Is(units.Ratio(1)),
			Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Hours: hours(t, on), Interlock: interlock}
	}
	for _, c := range []struct {
		why, a, b, interlock string
		at                   clock.Minute
		want                 float64
	}{
		{"one by day", "06:00-18:00", "18:00-06:00", "", 12 * clock.Hour, 8},
		{"the other from six on", "06:00-18:00", "18:00-06:00", "", 18 * clock.Hour, 8},
		{"both where their hours overlap", "06:00-20:00", "18:00-06:00", "", 19 * clock.Hour, 16},
		{"one of two that are interlocked", "06:00-20:00", "18:00-06:00", "flip", 19 * clock.Hour, 8},
		{"none before its hours", "06:00-18:00", "12:00-18:00", "", 3 * clock.Hour, 0},
	} {
		inv := room(t, "120 V 1ph", group("a", c.a, c.interlock), group("b", c.b, c.interlock))
		legs := assign.LegsAt(inv, build(inv, profile()), profile(), plan(t, inv), c.at)
		require.Len(t, legs, 1, c.why)
		assert.InDelta(t, c.want, float64(legs[0].Legs[0]), 1e-9, c.why)
		assert.InDelta(t, c.want, float64(legs[0].Neutral), 1e-9, c.why)
	}
}

func TestOtherLoadIsOnEveryLegAtEveryMinute(t *testing.T) {
	inv := room(t, "120/240 V 1ph")
	inv.Panels[0].OtherLoad.PerLeg = units.Is(units.Current(45))
	for _, x := range assign.LegsAt(inv, build(inv, profile()), profile(), plan(t, inv), 0) {
		assert.Equal(t, []units.Current{45, 45}, x.Legs)
	}
}
