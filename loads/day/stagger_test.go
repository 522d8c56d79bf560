package day_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

func stagger(s *testSite, o day.Objective) day.Staggered {
	return day.Stagger(s.inv, s.set(), o, day.Hourly)
}

// after returns the windows of a choice by room.
func after(s day.Staggered) map[string]string {
	out := map[string]string{}
	for _, r := range s.Rooms {
		out[r.Room] = r.After.String()
	}
	return out
}

// Two rooms of 20 kW lit by day: one goes to the night. 40 kW become 20 kW, the energy
// stays, and one room only is moved.
func TestTwoRoomsBecomeAFlip(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 20_000)
	s.room("b", window("06:00-18:00"), 20_000, startsFrom("always"))
	st := stagger(s, day.ForPeak)
	assert.Equal(t, map[string]string{"a": "06:00-18:00", "b": "18:00-06:00"}, after(st))
	assert.InDelta(t, 40_000, float64(st.Before.Site.Demand.Power), 1e-6)
	assert.InDelta(t, 20_000, float64(st.After.Site.Demand.Power), 1e-6)
	assert.InDelta(t, 20_000, known(st.Bound), 1e-6)
	assert.True(t, st.Proved)
	assert.Equal(t, "W", st.Unit)
	assert.InDelta(t, float64(st.Before.Site.Energy), float64(st.After.Site.Energy), 1e-9)
	assert.InDelta(t, 40_000, float64(st.Before.Heat.Block.Total), 1)
	assert.InDelta(t, 20_000, float64(st.After.Heat.Block.Total), 1, "the cooling peak falls with it")
	assert.Equal(t, []day.Move{{Room: "b", By: 12 * clock.Hour}}, st.Moves())
	assert.Equal(t, "no starts_from is given", st.Rooms[0].Fixed)
	assert.Contains(t, strings.Join(st.Notes, "\n"), "count as noncoincident for the size of the service only if they are interlocked; by their windows alone are: a and b")
}

// Interlocked rooms carry no such note.
func TestInterlockedRoomsNeedNoWarning(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 20_000, interlock("flip"))
	s.room("b", window("06:00-18:00"), 20_000, interlock("flip"), startsFrom("always"))
	st := stagger(s, day.ForPeak)
	assert.Equal(t, "18:00-06:00", after(st)["b"])
	assert.NotContains(t, strings.Join(st.Notes, "\n"), "interlocked")
}

// Three rooms of 16 hours: at most two of three can be dark at once for 8 hours, so that
// two are lit at any time. Peaks 30 kW before, 20 kW after.
func TestThreeGroupsOfSixteenHours(t *testing.T) {
	s := newSite()
	for _, n := range []string{"a", "b", "c"} {
		s.room(n, window("06:00-22:00"), 10_000, startsFrom("always"))
	}
	st := stagger(s, day.ForPeak)
	assert.InDelta(t, 20_000, known(st.Used), 1e-6)
	assert.True(t, st.Proved)
}

func TestStartsKeepToTheirWindow(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 20_000)
	s.room("b", window("06:00-18:00"), 20_000, startsFrom("04:00-09:30"))
	st := stagger(s, day.ForPeak)
	assert.Equal(t, "06:00-18:00", after(st)["b"], "they overlap wherever it begins, and no room is moved for nothing")
	assert.True(t, st.Proved)
	s.inv.Rooms[1].StartsFrom = units.Is(window("04:00-18:00"))
	assert.Equal(t, "18:00-06:00", after(stagger(s, day.ForPeak))["b"], "the end of the window counts")
}

// Rooms to be kept apart are, though the peak would gain nothing by it.
func TestApartRoomsAreNotLitTogether(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 5_000)
	s.room("b", window("08:00-16:00"), 1_000, startsFrom("always"), apart("a"))
	s.fans("", 100)
	s.equipment(inventory.Pump, "", 50_000, window("20:00-21:00"))
	st := stagger(s, day.ForPeak)
	require.True(t, st.Proved)
	b := window(after(st)["b"])
	assert.False(t, b.Contains(6*60) || b.Contains(17*60), b.String())
	assert.Contains(t, strings.Join(st.Notes, "\n"), "the windows as they stand are none that may be chosen")

	s.inv.Rooms[1].StartsFrom = units.Is(window("08:00-12:00"))
	st = stagger(s, day.ForPeak)
	assert.False(t, st.Proved)
	assert.Contains(t, st.Why, "rooms.b: each of its starts would light it together with a room that it must be apart from")
	assert.Equal(t, st.Before.Site.Demand, st.After.Site.Demand)
}

func TestRoomsThatCannotBeKeptApartAreSaid(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-20:00"), 5_000, startsFrom("always"), apart("b"))
	s.room("b", window("06:00-20:00"), 1_000, startsFrom("always"))
	st := stagger(s, day.ForPeak)
	assert.Equal(t, "no choice of starts keeps all rooms apart that must be", st.Why)
	assert.Empty(t, st.Moves())
	assert.InDelta(t, 6000, known(st.Used), 1e-6)
}

// By cost the light goes where power is cheap; by peak it does not care. One room of 10 kW,
// 8 hours, dear power from 14:00 to 20:00.
func TestCostGoesToTheCheapHours(t *testing.T) {
	s := newSite()
	s.room("a", window("12:00-20:00"), 10_000, startsFrom("always"))
	s.inv.Tariff = inventory.Tariff{Currency: "USD", Energy: []inventory.EnergyPrice{{Price: 0.10}, {Price: 0.30, Hours: units.Is(window("14:00-20:00"))}}}
	st := stagger(s, day.ForCost)
	// 80 kWh a day at 0.10: 8.00 a day.
	assert.InDelta(t, 8*365.0/12, known(st.Used), 1e-6)
	assert.True(t, st.Proved)
	assert.Equal(t, "06:00-14:00", after(st)["a"], "the nearest window that costs least")
	assert.Equal(t, "USD per month", st.Unit)
	assert.Empty(t, stagger(s, day.ForPeak).Moves())
}

func TestCostIsNotChosenOnATariffWithGaps(t *testing.T) {
	s := newSite()
	s.room("a", window("12:00-20:00"), 10_000, startsFrom("always"))
	st := stagger(s, day.ForCost)
	assert.Equal(t, "the file has no [tariff]", st.Why)
	assert.False(t, st.Proved)
	assert.False(t, st.Used.Known() || st.Bound.Known(), "unknown, not zero")
	s.inv.Tariff.Energy = []inventory.EnergyPrice{{Price: 0.1, Hours: units.Is(window("06:00-22:00"))}}
	st = stagger(s, day.ForCost)
	assert.Equal(t, "the tariff has hours without a price, which would be taken as free: 22:00-06:00", st.Why)
	assert.Empty(t, st.Moves())
}

func TestNothingToMoveIsProved(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 1000)
	st := stagger(s, day.ForPeak)
	assert.True(t, st.Proved)
	assert.Equal(t, "no room may move: give starts_from for the rooms that may", st.Why)
	assert.InDelta(t, known(st.Used), known(st.Bound), 0)
}

func TestRoomsThatCannotMoveSayWhy(t *testing.T) {
	s := newSite()
	s.room("always", clock.Always(), 1000, startsFrom("always"))
	s.room("dark", clock.Never(), 1000, startsFrom("always"))
	s.room("free", window("06:00-18:00"), 1000, startsFrom("always"))
	s.room("stuck", window("06:00-18:00"), 1000, startsFrom("never"))
	st := stagger(s, day.ForPeak)
	why := map[string]string{}
	for _, r := range st.Rooms {
		why[r.Room] = r.Fixed
	}
	assert.Equal(t, map[string]string{"always": "its lights never switch", "dark": "its lights never switch", "free": "", "stuck": "starts_from is never"}, why)
}

// What goes with the lights: fixtures with hours of their own, and what runs exactly in the
// light or exactly in the dark. A pump by its own clock stands, and is named.
func TestWhatMovesWithTheLights(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 1000)
	own := s.item(inventory.Fixtures, "", "a", 100)
	own.Hours = units.Is(window("10:00-12:00"))
	s.equipment(inventory.Heater, "a", 100, window("18:00-06:00"))
	s.equipment(inventory.CO2Burner, "a", 100, window("06:00-18:00"))
	s.equipment(inventory.Pump, "a", 100, window("05:00-06:00"))
	s.fans("a", 100)
	s.room("b", window("06:00-18:00"), 1000)
	inv, set := day.Moved(s.inv, s.set(), []day.Move{{Room: "a", By: 13 * clock.Hour}})
	hours := map[string]string{}
	for _, l := range set.Loads {
		hours[l.Name] = l.Hours.String()
	}
	assert.Equal(t, map[string]string{"lights-a": "19:00-07:00", "item-1": "23:00-01:00", "item-2": "07:00-19:00", "item-3": "19:00-07:00",
		"item-4": "05:00-06:00", "item-5": "always", "lights-b": "06:00-18:00"}, hours)
	lights, _ := inv.Rooms[0].Lights.Get()
	assert.Equal(t, "19:00-07:00", lights.String())
	was, _ := s.inv.Rooms[0].Lights.Get()
	assert.Equal(t, "06:00-18:00", was.String(), "the inventory given is left as it was")

	built := (&testSite{inv: inv}).set()
	for i, l := range built.Loads {
		assert.Equal(t, l.Hours.String(), set.Loads[i].Hours.String(), "the loads moved are those of the inventory moved: %s", l.Name)
	}
	s.inv.Rooms[0].StartsFrom = units.Is(clock.Always())
	st := stagger(s, day.ForPeak)
	assert.Equal(t, []string{"fixtures.item-1", "equipment.item-2", "equipment.item-3"}, st.Rooms[0].With)
	assert.Equal(t, []string{"equipment.item-4"}, st.Rooms[0].Stand)
	assert.Contains(t, strings.Join(st.Notes, "\n"), "rooms.a: the hours of equipment.item-4 stand")
}

// A night broken by an hour of light begins after its longest dark.
func TestBrokenNightHasItsDawnAfterTheLongestDark(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00").Union(window("23:00-24:00")), 1000, startsFrom("08:00-09:00"))
	s.room("b", window("06:00-18:00"), 1000)
	st := stagger(s, day.ForPeak)
	assert.Contains(t, []string{"08:00-20:00, 01:00-02:00", "01:00-02:00, 08:00-20:00", "09:00-21:00, 02:00-03:00", "02:00-03:00, 09:00-21:00"}, after(st)["a"])
}

// Twelve rooms of different size are chosen exactly.
func TestTwelveRoomsAreProved(t *testing.T) {
	s := newSite()
	for i := range 12 {
		at := clock.Minute(i%4) * clock.Hour
		s.room(string(rune('a'+i)), between(6*clock.Hour+at, 18*clock.Hour+at+clock.Minute(i%2)*6*clock.Hour),
			units.Power(8000+1370*i*i%5000+211*i), startsFrom(between(2*clock.Hour+at, 11*clock.Hour+at).String()))
	}
	s.fans("", 3000)
	s.equipment(inventory.Pump, "", 9000, window("05:00-07:00"))
	st := stagger(s, day.ForPeak)
	assert.True(t, st.Proved, st.Why)
	assert.Less(t, known(st.Used), float64(st.Before.Site.Demand.Power))
	assert.InDelta(t, known(st.Used), float64(st.After.Site.Demand.Power), 1e-6)
}

// Interlocks of other loads that reach across rooms are not claimed to be chosen exactly.
func TestInterlockAcrossRoomsIsNotClaimedExact(t *testing.T) {
	s := newSite()
	s.room("a", window("06:00-18:00"), 1000, startsFrom("always"))
	s.equipment(inventory.Other, "a", 500, clock.Always()).Interlock = "one"
	s.equipment(inventory.Other, "", 500, clock.Always()).Interlock = "one"
	st := stagger(s, day.ForPeak)
	assert.False(t, st.Proved)
	assert.False(t, st.Bound.Known(), "the search's own bound holds for what it counts, and that is too much")
	assert.Contains(t, st.Why, `interlock "one" joins equipment.item-1 and equipment.item-2`)
}
