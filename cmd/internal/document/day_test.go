package document

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/day"
	"branchwork/loads/units"
)

// sampleDay is the sample with its loads worked: five bars of 640 W, twelve hours.
func sampleDay(t *testing.T) Results {
	r := sampleResults(t)
	r.Set = loads.Build(r.Inventory, loads.CodeValues{})
	r.Day = day.Of(r.Inventory, r.Set)
	r.Heat = r.Day.Heat
	return r
}

func TestTheDayOfAPlanIsTheContracts(t *testing.T) {
	doc := printed(t, NewPlan(sampleDay(t)))
	d := doc["day"].(map[string]any)
	require.Len(t, d["hours"], 24)
	lit := d["hours"].([]any)[12].(map[string]any)
	require.InDelta(t, 3200, lit["watts"], 1e-9, "5 · 640")
	require.InDelta(t, 3200/0.98, lit["va"], 1e-9)
	require.InDelta(t, 3200*3.412142, lit["heat_btuh"], 0.01)
	require.InDelta(t, 38.4, d["energy_kwh_per_day"], 1e-9, "3.2 kW · 12 h")
	require.InDelta(t, 3200, d["peak_watts"], 1e-9)
	require.Contains(t, d, "cost_per_month")
	require.Nil(t, d["cost_per_month"], "the file has no tariff")
}

func TestDayAndHeatMeetTheirSchemas(t *testing.T) {
	r := sampleDay(t)
	require.NoError(t, check(t, "plan", NewPlan(r)))
	require.NoError(t, check(t, "heat", NewHeat(r, true)))
	legs := []PanelDay{{}}
	before := PlanOfDay{Plan: r.Plan, Legs: legs}
	for _, season := range Seasons() {
		o := DayOf{Results: r, Season: season, Legs: legs}
		require.NoError(t, check(t, "day", NewDay(o)))
		o.Stagger = &StaggerOf{Choice: day.Stagger(r.Inventory, r.Set, day.ForPeak, day.Hourly), Before: before, After: before}
		require.NoError(t, check(t, "day", NewDay(o)))
	}
}

func TestTheFullestMinuteIsTheFirstOfEquals(t *testing.T) {
	var d PanelDay
	for h := range d {
		d[h] = PanelMinute{At: 60, Legs: []units.Current{1, 2}}
	}
	d[7].Legs, d[7].At = []units.Current{5, 1}, 430
	d[9].Legs, d[9].At = []units.Current{1, 5}, 540
	require.Equal(t, units.Current(5), d.Fullest().Most())
	require.Equal(t, "07:10", d.Fullest().At.String())
	require.Zero(t, PanelMinute{}.Most())
}

func TestSpareIsTheMainLessWhatIsNeeded(t *testing.T) {
	r := sampleDay(t)
	sheet := NewHeat(r, false)
	require.Len(t, sheet.Rooms, 1)
	p := sheet.Rooms[0].Power
	require.Len(t, p, 1)
	require.InDelta(t, 100-17.007, *p[0].SpareAmps, 1e-9)
	require.Equal(t, 20, *p[0].SpareSpaces, "24 less 4")
	require.Nil(t, sheet.Rooms[0].Days, "only where it was asked for")
	require.Empty(t, sheet.Only("another").Rooms)

	r.Plan.Panels[0].Main = units.Unknown[units.Current]("not read")
	r.Plan.Panels[0].Spaces = units.Unknown[int]("not read")
	p = NewHeat(r, false).Rooms[0].Power
	require.Nil(t, p[0].SpareAmps)
	require.Nil(t, p[0].SpareSpaces)
}
