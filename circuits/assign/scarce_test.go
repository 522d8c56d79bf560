package assign_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// sites reads every invented site.
func sites(t *testing.T, do func(name string, inv *inventory.Inventory)) {
	texts(t, func(name string, src []byte) { do(name, taken(t, name, src)) })
}

// taken reads a file that has no problem.
func taken(t require.TestingT, name string, src []byte) *inventory.Inventory {
	inv, problems := inventory.Read(name, src, inventory.Vocabulary{})
	require.Empty(t, problems, "%s", src)
	return inv
}

// texts calls do for the file of every invented site.
func texts(t *testing.T, do func(name string, src []byte)) {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 6)
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		do(filepath.Base(f), src)
	}
}

// most is how many plans of one kind are made anew for each site.
const most = 2

// with returns the inventory with n units more of an item.
func with(inv *inventory.Inventory, item string, n int) *inventory.Inventory {
	out := *inv
	out.Items = slices.Clone(inv.Items)
	for i := range out.Items {
		if out.Items[i].Name == item {
			out.Items[i].Count += n
		}
	}
	return &out
}

func panelOf(t *testing.T, p circuits.Plan, name string) circuits.Panel {
	i := slices.IndexFunc(p.Panels, func(x circuits.Panel) bool { return x.Name == name })
	require.GreaterOrEqual(t, i, 0)
	return p.Panels[i]
}

// What a plan says that more of a thing would buy is planned again: as many more
// circuits as are said to fit do fit in the amperes that are there; with the spaces
// that are used and no more, one circuit more misses just the spaces named.
func TestWhatMoreOfAScarceThingBuysIsTrue(t *testing.T) {
	amperes, spaces := 0, 0
	sites(t, func(name string, inv *inventory.Inventory) {
		p, asked := plan(t, inv), map[string]int{}
		for _, s := range circuits.Scarcest(p) {
			if s.Like == nil || len(s.Like.Loads) != 1 || s.Like.Existing || s.Like.Panel != s.Panel {
				continue
			}
			if asked[s.What]++; asked[s.What] > most {
				continue
			}
			item, each := s.Like.Loads[0].Item, s.Like.Loads[0].Count
			switch s.What {
			case "main", "bus":
				if s.Fits == 0 || s.Fits > 12 {
					continue
				}
				amperes++
				more := panelOf(t, plan(t, with(inv, item, s.Fits*each)), s.Panel)
				assert.False(t, units.Exceeds(float64(more.Required), s.Have), "%s, %s of %s: %d more circuits like %s ask for %s of %g A",
					name, s.What, s.Panel, s.Fits, s.Like.Name, more.Required, s.Have)
			case "spaces":
				more := with(inv, item, each)
				full := panelOf(t, plan(t, more), s.Panel)
				if full.SpacesUsed == int(s.Used)+s.Like.Supply.Poles {
					spaces++
				} else { // what there is had room for it, or it went elsewhere
					assert.LessOrEqual(t, full.SpacesUsed, int(s.Used)+s.Like.Supply.Poles, "%s, %s", name, s.Panel)
				}
			}
		}
	})
	assert.GreaterOrEqual(t, amperes, 5)
	assert.GreaterOrEqual(t, spaces, 4)
}

// Fixtures of a circuit are neighbours, and each fixture has one number, on every
// site that does not ask for alternate ones; with alternate ones a circuit takes
// every other.
func TestCircuitsTakeNeighbours(t *testing.T) {
	sites(t, func(name string, inv *inventory.Inventory) {
		for _, alternate := range []bool{false, true} {
			inv.Plan.Alternate = alternate
			taken, paired := map[string]map[int]bool{}, false
			for _, c := range plan(t, inv).Circuits {
				for _, l := range c.Loads {
					if l.First == 0 || c.Existing {
						continue
					}
					assert.True(t, l.Every == 1 || alternate && l.Every == 2, "%s %s takes every %dth", name, c.Name, l.Every)
					paired = paired || l.Every == 2
					if taken[l.Item] == nil {
						taken[l.Item] = map[int]bool{}
					}
					for i := range l.Count {
						assert.False(t, taken[l.Item][l.Unit(i)], "%s: %s %d is on two circuits", name, l.Item, l.Unit(i))
						taken[l.Item][l.Unit(i)] = true
					}
				}
			}
			for item, list := range taken {
				for n := range len(list) {
					assert.True(t, list[n+1], "%s: no circuit feeds %s %d", name, item, n+1)
				}
			}
			assert.True(t, alternate || !paired)
		}
	})
}

// A spread item lands on two circuits and on two legs where that leaves the fullest
// leg as it is: two 120 V circuits of two 240 W bars each, one on each leg.
func TestSpreadItemsLandOnTwoLegs(t *testing.T) {
	for _, sys := range []string{"120/240 V 1ph", "208Y/120 V 3ph"} {
		inv := room(t, sys, bars(4, 240, 1))
		inv.Plan.Voltage, inv.Plan.Spread = units.Is(120*units.Volt), []string{"bar"}
		p := plan(t, inv)
		require.Len(t, p.Circuits, 2)
		assert.NotEqual(t, p.Circuits[0].Legs, p.Circuits[1].Legs, sys)
	}
}

// On every site, an item that is to be spread stands on two circuits at least,
// and on two sets of legs where its circuits do not span all.
func TestSpreadHoldsOnTheSites(t *testing.T) {
	tried := 0
	sites(t, func(name string, inv *inventory.Inventory) {
		asks := 0
		for _, item := range inv.Items {
			if item.Table != inventory.Fans || item.Count < 2 || asks == most+1 {
				continue
			}
			asks++
			asked := *inv
			asked.Plan.Spread = []string{item.Name}
			on, built, legs := 0, false, map[string]bool{}
			for _, c := range plan(t, &asked).Circuits {
				if slices.ContainsFunc(c.Loads, func(l circuits.Load) bool { return l.Item == item.Name }) {
					on, built = on+1, built || c.Existing
					legs[legsOf(c)] = true
				}
			}
			if built {
				continue // what is wired stays
			}
			tried++
			assert.GreaterOrEqual(t, on, 2, "%s %s", name, item.Name)
			assert.GreaterOrEqual(t, len(legs), 2, "%s %s stands on %v", name, item.Name, legs)
		}
	})
	assert.Positive(t, tried)
}

func legsOf(c circuits.Circuit) string {
	s := []byte{}
	for _, l := range c.Legs {
		s = append(s, byte('A'+l))
	}
	slices.Sort(s)
	return string(s)
}
