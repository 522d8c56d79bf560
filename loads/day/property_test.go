package day_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Every watt of an hour is that of a room, and of a category; the energy of a day is that
// of its hours; means lie below peaks, and running peaks below coincident ones.
func TestHoursAreTheSumOfTheirParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 4, 6)
		d := s.day()
		sum := 0.0
		for h := range 24 {
			rooms, categories := 0.0, 0.0
			for _, g := range d.Rooms {
				rooms += watts(g, h)
			}
			for _, g := range d.Categories {
				categories += watts(g, h)
			}
			assert.InDelta(t, watts(d.Site, h), rooms, 1e-6)
			assert.InDelta(t, watts(d.Site, h), categories, 1e-6)
			assert.LessOrEqual(t, watts(d.Site, h), float64(d.Site.Peak.Power)+1e-6)
			assert.LessOrEqual(t, float64(d.Site.Hours[h].Coincident), float64(d.Site.Demand.Power)+1e-6)
			assert.GreaterOrEqual(t, float64(d.Site.Hours[h].Apparent), watts(d.Site, h)-1e-6)
			sum += watts(d.Site, h) / 1000
		}
		assert.InDelta(t, sum, float64(d.Site.Energy), 1e-6)
		assert.LessOrEqual(t, float64(d.Site.Peak.Power), float64(d.Site.Demand.Power)+1e-6)
		if lf, ok := d.Site.LoadFactor.Get(); ok {
			assert.LessOrEqual(t, float64(lf), 1+1e-9)
			assert.Greater(t, float64(lf), 0.0)
		}
	})
}

// The cost is that of its lines; the energy of the lines and of the gaps is the month's;
// the year's mean lies between the seasons.
func TestCostIsTheSumOfItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3)
		d := s.day()
		c, ok := d.Cost.Get()
		require.True(t, ok)
		for _, b := range []day.Bill{c.Summer, c.Winter} {
			energy, cost := float64(b.Unpriced), 0.0
			for _, l := range b.Lines {
				energy += float64(l.Energy)
				cost += float64(l.Cost)
			}
			assert.InDelta(t, float64(d.Site.Month), energy, 1e-6)
			assert.InDelta(t, float64(b.Energy), energy, 1e-6)
			assert.InDelta(t, float64(b.EnergyCost), cost, 1e-6)
			assert.InDelta(t, float64(b.Total), cost+float64(b.DemandCost)+float64(b.Added), 1e-6)
			assert.GreaterOrEqual(t, float64(b.Billed), float64(b.Demand)-1e-9)
		}
		assert.InDelta(t, float64(c.Month), float64(c.Energy)+float64(c.Demand)+float64(c.Added), 1e-6)
		assert.LessOrEqual(t, min(float64(c.Summer.Total), float64(c.Winter.Total)), float64(c.Month)+1e-6)
	})
}

// Moving windows keeps energy where nothing follows the weather, and a whole day on is no
// move at all.
func TestMovingWindowsKeepsEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 4, 6)
		s.inv.Items = slices.DeleteFunc(s.inv.Items, func(i inventory.Item) bool { return i.Kind == inventory.AirConditioner })
		var moves []day.Move
		for _, r := range s.inv.Rooms {
			moves = append(moves, day.Move{Room: r.Name, By: clock.Minute(rapid.IntRange(0, 1440).Draw(t, "by"))})
		}
		before := s.day()
		after := day.Of(day.Moved(s.inv, s.set(), moves))
		assert.InDelta(t, float64(before.Site.Energy), float64(after.Site.Energy), 1e-9)
		for i := range before.Rooms {
			assert.InDelta(t, float64(before.Rooms[i].Energy), float64(after.Rooms[i].Energy), 1e-9)
		}
		for i := range moves {
			moves[i].By = clock.Day
		}
		assert.Equal(t, before.Site, day.Of(day.Moved(s.inv, s.set(), moves)).Site)
	})
}

// A choice is never worse than today's where that may be chosen; its bound holds; the same
// input gives the same answer; a finer grid is no worse.
func TestStaggerIsNeverWorseAndAlwaysTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 4, 4)
		o := rapid.SampledFrom([]day.Objective{day.ForPeak, day.ForCost}).Draw(t, "objective")
		st := day.Stagger(s.inv, s.set(), o, day.Hourly)
		if kept(s.inv) {
			assert.LessOrEqual(t, valueOf(st.After, o), valueOf(st.Before, o)+1e-9)
		}
		if st.Proved {
			assert.InDelta(t, known(st.Bound), known(st.Used), 0)
		}
		for _, r := range st.Rooms {
			assert.Equal(t, r.Before.Length(), r.After.Length(), "hours are kept")
			if r.Fixed != "" {
				assert.Equal(t, r.Before, r.After)
			}
		}
		if rapid.IntRange(0, 3).Draw(t, "again") == 0 {
			assert.Equal(t, st, day.Stagger(s.inv, s.set(), o, day.Hourly))
			finer := day.Stagger(s.inv, s.set(), o, day.Quarterly)
			if st.Why == "" && finer.Proved {
				assert.LessOrEqual(t, known(finer.Used), known(st.Used)+1e-3, "it has all the starts of a coarser one")
			}
		}
	})
}

// Every step of the working gives its result again from its formula and its inputs, on the
// invented sites and on drawn ones.
func TestWorkingCanBeWorkedAgain(t *testing.T) {
	var r steps.Reworker
	check := func(t require.TestingT, list []steps.Step) {
		for _, s := range list {
			got, ok, err := r.Agrees(s)
			require.NoError(t, err, s.Name)
			assert.True(t, ok, "%s: %s gives %v, recorded is %v", s.Name, s.Formula, got, s.Result)
		}
	}
	all := func(t require.TestingT, d day.Day) {
		check(t, d.Steps)
		for _, g := range append(append([]day.Group{d.Site}, d.Rooms...), d.Categories...) {
			check(t, g.Steps())
		}
	}
	for _, d := range invented(t) {
		all(t, d)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3)
		all(t, s.day())
	})
}

func invented(t *testing.T) map[string]day.Day {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string]day.Day{}
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		inv, problems := inventory.Read(f, src, inventory.Vocabulary{})
		require.Empty(t, problems)
		out[filepath.Base(f)] = day.Of(inv, loads.Build(inv, loads.CodeValues{Outlet: 180 * units.VoltAmpere}))
	}
	return out
}

// The invented sites: every load is in one room's, one category's and one panel's figures.
func TestInventedSitesAddUp(t *testing.T) {
	for name, d := range invented(t) {
		sums := map[string]float64{}
		for _, g := range d.Rooms {
			sums["rooms"] += float64(g.Energy)
		}
		for _, g := range d.Categories {
			sums["categories"] += float64(g.Energy)
		}
		for _, p := range d.Panels {
			sums["panels"] += float64(p.Own.Energy)
			if p.FedBy == "" {
				sums["services"] += float64(p.All.Energy)
			}
		}
		for what, sum := range sums {
			assert.InDelta(t, float64(d.Site.Energy), sum, 1e-6, "%s: %s", name, what)
		}
		assert.Len(t, sums, 4)
		assert.Positive(t, d.Site.Energy)
	}
}
