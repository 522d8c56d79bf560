package assign_test

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads"
	"branchwork/loads/anysite"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// profile reads the tables once; a profile is never changed.
var profile = sync.OnceValue(func() *codes.Profile {
	p, ok := book.Profile("nec-2023")
	if !ok {
		panic("no profile nec-2023")
	}
	return p
})

func build(inv *inventory.Inventory, p *codes.Profile) loads.Set {
	return loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})
}

func plan(t require.TestingT, inv *inventory.Inventory) circuits.Plan {
	return planBy(t, inv, profile())
}

func system(t require.TestingT, name string) inventory.System {
	s, ok := inventory.SystemNamed(name)
	require.True(t, ok, name)
	return s
}

func hours(t require.TestingT, s string) units.Known[clock.Windows] {
	w, err := clock.Parse(s)
	require.NoError(t, err)
	return units.Is(w)
}

// room is an invented site: one room on one panel.
func room(t require.TestingT, sys string, items ...inventory.Item) *inventory.Inventory {
	for i := range items {
		items[i].Room = "flower"
		if items[i].Count == 0 {
			items[i].Count = 1
		}
	}
	return &inventory.Inventory{
		Site:   inventory.Site{Name: "invented", Use: inventory.Commercial},
		Panels: []inventory.Panel{{Name: "LP1", System: system(t, sys), Main: units.Is(units.Current(400)), Spaces: units.Is(84)}},
		Rooms: []inventory.Room{{Name: "flower", Panels: []string{"LP1"}, Lights: hours(t, "18:00-06:00"),
			Run: units.Is(60 * units.Foot), Spacing: units.Is(4 * units.Foot)}},
		Items: items,
	}
}

func bars(n int, watts units.Power, pf units.Ratio) inventory.Item {
	return inventory.Item{Table: inventory.Fixtures, Name: "bar", Count: n, Power: units.Is(watts), PowerFactor: units.Is(pf),
		Voltage: units.Is(units.VoltageSet{Low: 100, High: 277}), Wired: units.Is(true)}
}

// The same fixture at four voltages: four different plans, each by hand.
// 640 W at pf 0.98: 5.442 A at 120 V, 3.140 A at 208 V, 2.721 A at 240 V,
// 2.358 A at 277 V; whole fixtures within 16 A: 2, 5, 5, 6.
func TestOneFixtureAtFourVoltagesGivesFourPlans(t *testing.T) {
	for _, row := range []struct {
		volts              units.Voltage
		system             string
		perCircuit, spaces int
		circuits           int
	}{
		{120, "120/240 V 1ph", 2, 6, 6},
		{208, "208Y/120 V 3ph", 5, 6, 3},
		{240, "120/240 V 1ph", 5, 6, 3},
		{277, "480Y/277 V 3ph", 6, 2, 2},
	} {
		inv := room(t, row.system, bars(12, 640, 0.98))
		inv.Plan.Voltage = units.Is(row.volts)
		p := plan(t, inv)
		require.Len(t, p.Circuits, row.circuits, "%v", row.volts)
		most, spaces := 0, 0
		for _, c := range p.Circuits {
			assert.Equal(t, row.volts, c.Supply.Volts)
			most = max(most, c.Loads[0].Count)
			spaces += len(c.Spaces)
		}
		assert.LessOrEqual(t, most, row.perCircuit)
		assert.Equal(t, row.spaces, spaces)
		assert.True(t, p.Optimality.Spaces.Proved && p.Optimality.Circuits.Proved)
	}
}

// Sizing ignores the dimmer and follows the boost (published: an open control
// pair drives the light to full; facts of the trade, no source).
func TestDimmedFixturesTakeAsManyCircuitsAsFullOnes(t *testing.T) {
	dimmed, boosted := bars(12, 640, 0.98), bars(12, 640, 0.98)
	dimmed.Level = units.Is(units.Ratio(0.3))
	boosted.Boost = units.Is(800 * units.Watt)
	count := func(i inventory.Item) int {
		inv := room(t, "120/240 V 1ph", i)
		inv.Plan.Voltage = units.Is(240 * units.Volt)
		return len(plan(t, inv).Circuits)
	}
	assert.Equal(t, count(bars(12, 640, 0.98)), count(dimmed))
	assert.Equal(t, 3, count(bars(12, 640, 0.98)), "5 of 2.72 A within 16 A")
	assert.Equal(t, 3, count(boosted), "4 of 3.40 A within 16 A")
}

func TestSeparateKeepsCategoriesApart(t *testing.T) {
	fan := inventory.Item{Table: inventory.Fans, Name: "fan", Count: 2, Power: units.Is(50 * units.Watt), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Hours: hours(t, "always")}
	inv := room(t, "120/240 V 1ph", bars(1, 640, 0.98), fan)
	inv.Plan.Voltage = units.Is(120 * units.Volt)
	assert.Len(t, plan(t, inv).Circuits, 2)
	inv.Plan.Separate = []string{}
	assert.Len(t, plan(t, inv).Circuits, 1, "an empty list keeps nothing apart")
}

// What is told while circuits are packed names them as a reader would, whatever
// the file keeps apart.
func TestProgressNamesTheCircuits(t *testing.T) {
	of := func(watts units.Power, table, kind, name string) inventory.Item {
		return inventory.Item{Table: table, Kind: kind, Name: name, Power: units.Is(watts), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Hours: hours(t, "always")}
	}
	inv := room(t, "120/240 V 1ph", bars(1, 640, 0.98), of(50, inventory.Fans, "", "fan"), of(100, inventory.Equipment, inventory.Other, "box"))
	for _, row := range []struct {
		separate []string
		want     []string
	}{
		{nil, []string{"circuits for lighting of room flower", "circuits for air movement and controls of room flower", "circuits for other loads of room flower"}},
		{[]string{"lighting", "other"}, []string{"circuits for lighting of room flower", "circuits for other loads of room flower", "shared circuits of room flower"}},
		{[]string{}, []string{"shared circuits of room flower"}},
	} {
		inv.Plan.Separate = row.separate
		var told []string
		_, err := assign.PlanWith(inv, build(inv, profile()), profile(), assign.Options{Progress: func(part string, _, _ int) {
			if strings.Contains(part, "circuits") {
				told = append(told, part)
			}
		}})
		require.NoError(t, err)
		assert.Equal(t, row.want, told)
	}
}

func TestEquipmentThatFitsNoSupplyIsListedWithTheReason(t *testing.T) {
	heater := inventory.Item{Table: inventory.Equipment, Kind: inventory.Heater, Name: "heater", Power: units.Is(5 * units.Kilowatt),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{480}})}
	p := plan(t, room(t, "208Y/120 V 3ph", heater))
	require.Len(t, p.Unfed, 1)
	assert.Equal(t, 1, p.Unfed[0].Count)
	assert.Contains(t, p.Unfed[0].Reason, "accepts 480 V; panel LP1 supplies 120 V, 208 V, 208 V three-phase")
}

func TestMakersLimitPerBreakerIsKept(t *testing.T) {
	b := bars(12, 100, 1)
	b.MaxPerBreaker = []inventory.MaxPerBreaker{{Rating: 20, Count: 4}}
	inv := room(t, "120/240 V 1ph", b)
	p := plan(t, inv)
	assert.Len(t, p.Circuits, 3)
	for _, c := range p.Circuits {
		assert.LessOrEqual(t, c.Loads[0].Count, 4)
	}
}

func TestSpreadItemsLandOnTwoCircuits(t *testing.T) {
	inv := room(t, "120/240 V 1ph", bars(4, 200, 1))
	require.Len(t, plan(t, inv).Circuits, 1)
	inv.Plan.Spread = []string{"bar"}
	assert.Len(t, plan(t, inv).Circuits, 2)
}

func TestTooFewSpacesShowsHowManyAreMissing(t *testing.T) {
	inv := room(t, "120/240 V 1ph", bars(40, 640, 0.98))
	inv.Panels[0].Spaces = units.Is(12)
	p := plan(t, inv)
	assert.Greater(t, p.Panels[0].SpacesUsed, 12)
	assert.Empty(t, p.Unfed)
}

// anySite draws a site with its profile.
func anySite(t *rapid.T) (*inventory.Inventory, *codes.Profile) {
	inv := taken(t, "any.toml", []byte(anysite.Any(t).Text()))
	return inv, profiles()[inv.Site.Code.Or("")]
}

// profiles are those of the shelf, read once.
var profiles = sync.OnceValue(func() map[string]*codes.Profile {
	out := map[string]*codes.Profile{}
	for _, p := range book.All() {
		out[p.Name] = p
	}
	return out
})

func planBy(t require.TestingT, inv *inventory.Inventory, p *codes.Profile) circuits.Plan {
	set := build(inv, p)
	out, err := assign.Plan(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, out))
	return out
}

func TestAnySiteHoldsWhatAPlanPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inv, p := anySite(t)
		a := planBy(t, inv, p) // verifies: each unit once, limits in every state, spaces, legs, bounds
		assert.Equal(t, a, planBy(t, inv, p), "same input, same plan")
	})
}

// Of a site and the same site without its last item, the first asks for as much
// or more of every panel.
func TestAddingALoadNeverLowersAPanelsDemand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inv, p := anySite(t)
		if len(inv.Panels) > 1 || len(inv.Circuits) > 0 || len(inv.Plan.Spread) > 0 {
			return // the loads that are there may move to other panels, and voltages
		}
		after := planBy(t, inv, p)
		inv.Items = inv.Items[:len(inv.Items)-1]
		before := planBy(t, inv, p).Panels[0].DemandVA
		if len(after.Unfed) == 0 {
			assert.False(t, units.Exceeds(before, after.Panels[0].DemandVA+1e-6), "%v before, %v after", before, after.Panels[0].DemandVA)
		}
	})
}

func TestARoomOverflowsToItsSecondPanel(t *testing.T) {
	inv := room(t, "120/240 V 1ph", bars(10, 640, 0.98))
	inv.Plan.Voltage = units.Is(240 * units.Volt)
	inv.Panels[0].Spaces = units.Is(2)
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "LP2", System: inv.Panels[0].System, Spaces: units.Is(24), FedBy: "LP1"})
	inv.Rooms[0].Panels = []string{"LP1", "LP2"}
	for _, c := range plan(t, inv).Circuits {
		assert.Equal(t, "LP2", c.Panel, "LP1 has two spaces, two circuits need four")
	}
}

// 12 bars of 640 W, pf 0.98: six 1-pole circuits at 120 V, three 2-pole at 208 and
// 240 V, two 1-pole at 277 V; the copper falls with the voltage.
func TestCompareSetsTheVoltagesSideBySide(t *testing.T) {
	inv := room(t, "208Y/120 V 3ph", bars(12, 640, 0.98))
	p := profile()
	got, err := assign.Compare(inv, build(inv, p), p)
	require.NoError(t, err)
	require.Len(t, got, 1)
	var volts, circuits, spaces []int
	var copper []float64
	for _, o := range got[0].Options {
		volts, circuits, spaces = append(volts, int(o.Volts)), append(circuits, o.Circuits), append(spaces, o.Spaces)
		lb, ok := o.Copper.Get()
		require.True(t, ok)
		copper = append(copper, lb)
		assert.Equal(t, o.Volts == 120 || o.Volts == 208, o.Own, "%v", o.Volts)
	}
	assert.Equal(t, []int{120, 208, 240, 277}, volts)
	assert.Equal(t, []int{6, 3, 3, 2}, circuits)
	assert.Equal(t, []int{6, 6, 6, 2}, spaces)
	assert.Greater(t, copper[0], copper[1])
	assert.Greater(t, copper[2], copper[3])
}

// A box fed with 30 A at 240 V holds 24 A of continuous load: eight bars of
// 2.7211 A (21.77 A), and not more than its outlets.
func TestAControllerWithASupplyHoldsWholeUnitsWithinItsLimits(t *testing.T) {
	box := inventory.Item{Table: inventory.Controllers, Name: "north", Power: units.Is(12 * units.Watt), PowerFactor: units.Is(units.Ratio(1)),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{240}}), Feed: units.Is(units.Current(30)), Outlets: units.Is(12), OutletRating: units.Is(units.Current(15))}
	b := bars(10, 640, 0.98)
	b.Controller = "north"
	inv := room(t, "120/240 V 1ph", b, box)
	p := plan(t, inv)
	require.Len(t, p.Circuits, 1)
	c := p.Circuits[0]
	assert.Equal(t, "north", c.Controller)
	assert.Equal(t, units.Is(units.Current(30)), c.Breaker)
	assert.Equal(t, 8, c.Loads[1].Count)
	require.Len(t, p.Unfed, 1)
	assert.Equal(t, 2, p.Unfed[0].Count)
	assert.Contains(t, p.Unfed[0].Reason, "no room for it: its supply is 30 A")

	inv.Items[1].Outlets = units.Is(5)
	assert.Equal(t, 5, plan(t, inv).Circuits[0].Loads[1].Count, "outlets")
	inv.Items[1].Outlets, inv.Items[1].Count = units.Is(12), 2
	p = plan(t, inv)
	assert.Empty(t, p.Unfed, "two boxes hold ten")
	assert.Len(t, p.Circuits, 2)
}

// A controller without a supply of its own switches branch circuits, which carry
// nothing else.
func TestAControllerWithoutASupplyKeepsItsCircuitsApart(t *testing.T) {
	a, b := bars(2, 200, 1), bars(2, 200, 1)
	a.Name, b.Name, a.Controller = "a", "b", "north"
	box := inventory.Item{Table: inventory.Controllers, Name: "north", Power: units.Is(12 * units.Watt), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}})}
	p := plan(t, room(t, "120/240 V 1ph", a, b, box))
	assert.Len(t, p.Circuits, 3)
	for _, c := range p.Circuits {
		assert.Len(t, c.Loads, 1)
	}
}

func TestAlternateFixturesKeepHalfARowLit(t *testing.T) {
	inv := room(t, "120/240 V 1ph", bars(10, 640, 0.98))
	inv.Plan.Voltage, inv.Plan.Alternate = units.Is(240*units.Volt), true
	inv.Rooms[0].Length, inv.Rooms[0].Width = units.Is(40*units.Foot), units.Is(16*units.Foot)
	p := plan(t, inv)
	require.Len(t, p.Circuits, 2)
	a, b := p.Circuits[0].Loads[0], p.Circuits[1].Loads[0]
	assert.Equal(t, []int{1, 2, 2, 2}, []int{a.First, a.Every, b.First, b.Every})
	inv.Plan.Alternate = false
	q := plan(t, inv)
	assert.Equal(t, []int{1, 1, 6, 1}, []int{q.Circuits[0].Loads[0].First, q.Circuits[0].Loads[0].Every, q.Circuits[1].Loads[0].First, q.Circuits[1].Loads[0].Every})
	assert.Greater(t, float64(p.Circuits[0].LastOutlet.Or(0)), float64(q.Circuits[0].LastOutlet.Or(0)), "every other fixture makes a longer run")
}
