package assign_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Nobody counted the panel's spaces: what stands in it counts on its legs all the
// same. Space 7 of a split-phase panel is in row 4, on leg B; 480 W at 0.96 is
// 4.17 A there, 5.21 A with the allowance for continuous load.
func TestWhatStandsInAPanelOfUnknownSizeIsOnItsLegs(t *testing.T) {
	inv := room(t, "120/240 V 1ph", at120(inventory.Fixtures, "bar", 1, 480, 0.96, units.Unknown[bool]("")))
	inv.Panels[0].Spaces = units.Unknown[int]("")
	inv.Circuits = []inventory.Circuit{wired("LP1-7", 7, 15, "14 AWG", inventory.Fed{Item: "bar", Count: 1})}
	p := profile()
	set := build(inv, p)
	plan, err := assign.AsBuilt(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan))
	x := plan.Panels[0]
	assert.Equal(t, 1, x.SpacesUsed)
	assert.Zero(t, x.Legs[0])
	assert.InDelta(t, 4.1667, float64(x.Legs[1]), 1e-4)
	assert.InDelta(t, 5.2083, float64(x.Required), 1e-4)
}

// A meter was read in a state that the circuit does not tell apart: a fan has no
// lights. Any state may be meant, so the least of them is compared.
func TestAMeterReadWithTheLightsOnCountsOnACircuitWithoutLights(t *testing.T) {
	fan := at120(inventory.Fans, "fan", 1, 240, 1, units.Unknown[bool](""))
	fan.Hours = hours(t, "always")
	for _, state := range []string{"", "lights on", "lights off", "14:00"} {
		inv := room(t, "120/240 V 1ph", fan)
		c := wired("LP1-1", 1, 15, "14 AWG", inventory.Fed{Item: "fan", Count: 1})
		c.Measured = units.Is(units.Current(9))
		if state != "" {
			c.State = units.Is(state)
		}
		inv.Circuits = []inventory.Circuit{c}
		p := profile()
		set := build(inv, p)
		plan, err := assign.AsBuilt(inv, set, p)
		require.NoError(t, err)
		require.Empty(t, verify.Plan(inv, set, p, plan), state)
		assert.InDelta(t, 11.25, float64(plan.Circuits[0].Required), 1e-9, "9 A · 1.25, measured with %q", state)
	}
}

// A controller that draws more than its supply allows is not planned on it.
func TestAControllerBeyondItsOwnSupplyIsLeftOut(t *testing.T) {
	box := inventory.Item{Table: inventory.Controllers, Name: "north", Power: units.Is(4 * units.Kilowatt), PowerFactor: units.Is(units.Ratio(1)),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Feed: units.Is(units.Current(30)), Outlets: units.Is(4)}
	b := bars(2, 100, 1)
	b.Controller = "north"
	p := plan(t, room(t, "120/240 V 1ph", b, box))
	assert.Empty(t, p.Circuits)
	require.Len(t, p.Unfed, 2)
	assert.Contains(t, p.Unfed[0].Reason+p.Unfed[1].Reason, "by itself it draws more than its supply of 30 A allows")
}

// Aluminium of 15 to 30 A is the old branch wiring that the rules ask to have
// inspected: a plan does not propose it, whatever the feeders are of.
func TestSmallBranchCircuitsAreWiredInCopper(t *testing.T) {
	big := inventory.Item{Table: inventory.Equipment, Kind: inventory.Heater, Name: "heater", Power: units.Is(10 * units.Kilowatt),
		PowerFactor: units.Is(units.Ratio(1)), Wired: units.Is(true), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{240}})}
	inv := room(t, "120/240 V 1ph", bars(4, 640, 0.98), big)
	inv.Site.Conductors.Material = units.Is("aluminum")
	p := plan(t, inv)
	for _, c := range p.Circuits {
		want := "copper"
		if c.Breaker.Or(0) > 30 {
			want = "aluminum"
		}
		assert.Equal(t, want, c.Conductor.Material, "%v", c.Breaker)
	}
	require.Len(t, p.Circuits, 2)
}

// Four spaces are enough for three poles, but not side by side: a 3-pole breaker
// takes 1, 3 and 5. The rule about the panel's spaces says so.
func TestABreakerThatFindsNoNeighbouringSpacesIsMissingSpaces(t *testing.T) {
	inv := room(t, "208Y/120 V 3ph")
	inv.Panels[0].Spaces = units.Is(4)
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: inv.Panels[0].System, FedBy: "LP1", Spaces: units.Is(12)})
	p := plan(t, inv)
	found := judge.Plan(inv, build(inv, profile()), profile(), &p)
	assert.True(t, slices.ContainsFunc(found, func(f codes.Finding) bool {
		return f.Rule == "panel-spaces" && f.Subject == "panels.LP1" && f.State == codes.Broken
	}))
}

// What a no shows as placed is what the answer placed: the search for a cure plans
// new circuits beside those that exist and leaves these alone, also where the
// file asks to use their room first.
func TestTheSearchForACureLeavesTheAnswerAlone(t *testing.T) {
	p := profile()
	inv := room(t, "120/240 V 1ph", at120(inventory.Fixtures, "bar", 2, 100, 1, units.Unknown[bool]("")))
	inv.Plan.Reuse = units.Is(true)
	c := wired("LP1-1", 1, 30, "10 AWG", inventory.Fed{Item: "bar", Count: 2})
	c.Ground = units.Is(inventory.Conductor{Size: "12 AWG", Material: units.Is("copper")}) // 30 A asks for 10 AWG
	inv.Circuits = []inventory.Circuit{c}
	a, err := assign.Add(inv, build(inv, p), p, assign.Request{Item: "bar", Count: 1})
	require.NoError(t, err)
	require.False(t, a.Fits)
	assert.Empty(t, a.Placed)
	assert.Zero(t, a.After.Circuits[0].Loads[0].Added)
	assert.Equal(t, 2, a.After.Circuits[0].Loads[0].Count)
	require.Len(t, a.New, 1)
}

// A circuit that a meter found fuller than its loads explain has that much less
// room for what a plan puts on it: 12 A were measured on one that explains
// 0.83 A, and 12 A behind 15 A is all of its continuous load.
func TestReuseLeavesRoomForWhatAMeterShowed(t *testing.T) {
	bar := at120(inventory.Fixtures, "bar", 4, 100, 1, units.Unknown[bool](""))
	inv := room(t, "120/240 V 1ph", bar)
	inv.Plan.Reuse = units.Is(true)
	c := wired("LP1-1", 1, 15, "12 AWG", inventory.Fed{Item: "bar", Count: 1})
	inv.Circuits = []inventory.Circuit{c}
	require.Len(t, plan(t, inv).Circuits, 1)
	inv.Circuits[0].Measured, inv.Circuits[0].State = units.Is(units.Current(12)), units.Is("lights on")
	got := plan(t, inv)
	require.Len(t, got.Circuits, 2)
	assert.InDelta(t, 15, float64(got.Circuits[0].Required), 1e-9)
}

// A controller in the wall has one outlet, as one that is planned has: what hangs
// on it by its file is not taken to share a circuit.
func TestAControllerInTheWallIsOneOutlet(t *testing.T) {
	box := inventory.Item{Table: inventory.Controllers, Name: "north", Power: units.Is(12 * units.Watt), PowerFactor: units.Is(units.Ratio(1)),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{240}}), Feed: units.Is(units.Current(50)), Outlets: units.Is(12), OutletRating: units.Is(units.Current(15))}
	b := bars(6, 640, 0.98)
	b.Controller = "north"
	inv := room(t, "120/240 V 1ph", b, box)
	planned := plan(t, inv).Circuits[0]
	c := wired("LP1-1", 1, 50, "6 AWG", inventory.Fed{Item: "bar", Count: 6}, inventory.Fed{Item: "north", Count: 1})
	c.Spaces = []int{1, 3}
	inv.Circuits = []inventory.Circuit{c}
	p := profile()
	built, err := assign.AsBuilt(inv, build(inv, p), p)
	require.NoError(t, err)
	is := built.Circuits[0]
	assert.Equal(t, []any{planned.Individual, planned.Controller, planned.Category}, []any{is.Individual, is.Controller, is.Category})
	inv.Items[0].Controller = ""
	built, err = assign.AsBuilt(inv, build(inv, p), p)
	require.NoError(t, err)
	assert.False(t, built.Circuits[0].Individual, "the fixtures do not hang on the controller")
}

// A 150 hp motor at 120 V is in no table of motor currents: nobody knows what it puts
// on the panel, so the panel's main is not told to cover anything, and nothing can be
// added behind it, on another circuit either. What is known alone may break it: two
// bars of 100 W are 1.67 A, on a main of 1 A too many.
func TestNothingIsAddedBehindACurrentThatNobodyKnows(t *testing.T) {
	pump := at120(inventory.Equipment, "pump", 1, 0, 1, units.Unknown[bool](""))
	pump.Kind, pump.Power, pump.PowerFactor = inventory.Pump, units.Unknown[units.Power](""), units.Unknown[units.Ratio]("")
	pump.Motor, pump.Wired = units.Is(units.Horsepower(150)), units.Is(true)
	inv := room(t, "120/240 V 1ph", at120(inventory.Fixtures, "bar", 2, 100, 1, units.Unknown[bool]("")), pump)
	inv.Circuits = []inventory.Circuit{wired("LP1-1", 1, 15, "14 AWG", inventory.Fed{Item: "bar", Count: 2}),
		wired("LP1-2", 2, 20, "12 AWG", inventory.Fed{Item: "pump", Count: 1})}
	p := profile()
	mains := func() codes.Finding {
		set := build(inv, p)
		built, err := assign.AsBuilt(inv, set, p)
		require.NoError(t, err)
		for _, f := range judge.Plan(inv, set, p, &built) {
			if slices.Contains(append([]string{f.Rule}, f.Also...), "panel-main") {
				return f
			}
		}
		require.Fail(t, "the main is not asked")
		return codes.Finding{}
	}
	assert.Equal(t, codes.CannotTell, mains().State)
	a, err := assign.Add(inv, build(inv, p), p, assign.Request{Item: "bar", Count: 1})
	require.NoError(t, err)
	assert.False(t, a.Fits)
	assert.Contains(t, a.Needs, "what pump draws at 120 V is not known")
	inv.Panels[0].Main = units.Is(units.Current(1))
	assert.Equal(t, codes.Broken, mains().State)
}
