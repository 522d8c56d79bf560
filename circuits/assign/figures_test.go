package assign_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// A nameplate's least circuit ampacity holds its allowance: two of 6.5 A ask for
// 13 A, however they came to share a circuit.
func TestEveryUnitsNameplateCounts(t *testing.T) {
	cooler := inventory.Item{Table: inventory.Equipment, Kind: inventory.Other, Name: "cooler", Count: 2, Hours: hours(t, "always"),
		Voltage:   units.Is(units.VoltageSet{List: []units.Voltage{120}}),
		Nameplate: units.Is(inventory.Nameplate{MinCircuit: units.Is(units.Current(6.5)), MaxBreaker: units.Is(units.Current(20))})}
	inv := room(t, "120/240 V 1ph", cooler)
	inv.Circuits = []inventory.Circuit{wired("LP1-1", 1, 20, "12 AWG", inventory.Fed{Item: "cooler", Count: 2})}
	p, _ := asBuilt(t, inv)
	assert.InDelta(t, 13, float64(p.Circuits[0].Required), 1e-9)
}

// Of loads that an interlock keeps from running together the larger counts:
// 1,200 W of heat, 10 A, beside 600 W of cooling ask for 12.5 A.
func TestOfInterlockedLoadsTheLargerCounts(t *testing.T) {
	heat, cool := at120(inventory.Equipment, "heat", 1, 1200, 1, units.Is(true)), at120(inventory.Equipment, "cool", 1, 600, 1, units.Is(true))
	heat.Kind, cool.Kind = inventory.Other, inventory.Other
	for _, i := range []*inventory.Item{&heat, &cool} {
		i.Interlock, i.Hours = "one", hours(t, "always")
	}
	inv := room(t, "120/240 V 1ph", heat, cool)
	inv.Circuits = []inventory.Circuit{wired("LP1-1", 1, 15, "14 AWG", inventory.Fed{Item: "heat", Count: 1}, inventory.Fed{Item: "cool", Count: 1})}
	p, _ := asBuilt(t, inv)
	c := p.Circuits[0]
	assert.InDelta(t, 10, float64(c.Load), 1e-9)
	assert.InDelta(t, 12.5, float64(c.Required), 1e-9)
}

// A quarter of each circuit is to stay free: of 20 A at 240 V 15 A, 12 A of it
// continuous, so four of 2.72 A where five would go. By hand, no source.
func TestWhatThePlanLeavesFreeIsFree(t *testing.T) {
	inv := room(t, "120/240 V 1ph", bars(10, 640, 0.98))
	inv.Plan.Voltage = units.Is(240 * units.Volt)
	require.Len(t, plan(t, inv).Circuits, 2)
	inv.Plan.Spare = units.Is(units.Ratio(0.25))
	p := plan(t, inv)
	require.Len(t, p.Circuits, 3)
	for _, c := range p.Circuits {
		assert.LessOrEqual(t, c.Loads[0].Count, 4)
		assert.LessOrEqual(t, float64(c.Required), 15.0)
	}
}

// NFPA 70 220.87: a measured peak counts with 125 %; the panel that feeds the
// measured one sees it the same. 40 A are 50 A there.
func TestAMeasuredPeakReachesThePanelAbove(t *testing.T) {
	inv := room(t, "120/240 V 1ph")
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: inv.Panels[0].System, FedBy: "LP1", Spaces: units.Is(12),
		MeasuredPeak: units.Is(inventory.MeasuredPeak{Peak: units.Is(units.Current(40)), Months: 12})})
	p := plan(t, inv)
	assert.InDelta(t, 50, float64(p.Panels[0].Required), 1e-9)
	assert.InDelta(t, 50, float64(p.Panels[1].Required), 1e-9)
}

// The neutral shows the most of any state: 10 A on one leg by day, nothing in the
// last state of the day.
func TestTheNeutralIsThatOfItsFullestState(t *testing.T) {
	light := at120(inventory.Fixtures, "light", 1, 1200, 1, units.Unknown[bool](""))
	light.Hours = hours(t, "06:00-18:00")
	inv := room(t, "120/240 V 1ph", light)
	inv.Circuits = []inventory.Circuit{wired("LP1-1", 1, 15, "14 AWG", inventory.Fed{Item: "light", Count: 1})}
	p, _ := asBuilt(t, inv)
	assert.InDelta(t, 10, float64(p.Panels[0].Neutral.Or(0)), 0.5, "third harmonic included")
}

// transformed is an invented panel behind a transformer of 45 kVA, 100 ft away,
// with a heater of 20 kW on three phases.
func transformed(t *testing.T) (circuits.Feeder, float64) {
	heater := inventory.Item{Table: inventory.Equipment, Kind: inventory.Heater, Name: "heater", Power: units.Is(20 * units.Kilowatt), Panel: "SP1",
		PowerFactor: units.Is(units.Ratio(1)), Wired: units.Is(true), Phases: units.Is(3), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{208}})}
	inv := room(t, "480Y/277 V 3ph", heater)
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: system(t, "208Y/120 V 3ph"), FedBy: "LP1", Spaces: units.Is(12),
		Transformer: units.Is(45 * units.KVA), Feeder: inventory.Feeder{Length: units.Is(100 * units.Foot)}})
	f := *plan(t, inv).Panels[1].Feeder
	r, _, ok := profile().Wires.Resistance(f.Conductor.Material, f.Conductor.Size)
	require.True(t, ok)
	return f, float64(r)
}

// 45 kVA at 480 V is 54.13 A, more than the 24.06 A of its load: the feeder is
// sized by the transformer's rated current (published: F31 of the trade's cases,
// the same division).
func TestAFeederCarriesItsTransformersRatedCurrent(t *testing.T) {
	f, _ := transformed(t)
	assert.InDelta(t, 24.06, float64(f.Load), 0.03, "120 V stands for 208 / √3")
	assert.InDelta(t, 54.13, float64(f.Required), 0.01)
}

// By hand: √3 · 24.06 A · R / 1000 · 100 ft of 480 V.
func TestVoltageDropOfAThreePhaseFeederTakesTheRootOfThree(t *testing.T) {
	f, r := transformed(t)
	want := math.Sqrt(3) * 24.06 * r / 10 / 480
	assert.InEpsilon(t, want, float64(f.Drop.Or(0)), 0.02)
}

// A meter showed 10 A in a month in which a heater of 20 kW was off, 55.5 A on each of
// three legs at 208 V: a transformer that is planned carries what may run, 20 kVA.
func TestATransformerCarriesWhatRunsBesideALowerMeasuredPeak(t *testing.T) {
	heater := inventory.Item{Table: inventory.Equipment, Kind: inventory.Heater, Name: "heater", Power: units.Is(20 * units.Kilowatt), Panel: "SP1",
		PowerFactor: units.Is(units.Ratio(1)), Wired: units.Is(true), Phases: units.Is(3), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{208}})}
	inv := room(t, "480Y/277 V 3ph", heater)
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: system(t, "208Y/120 V 3ph"), FedBy: "LP1", Spaces: units.Is(12), Main: units.Is(units.Current(100)),
		MeasuredPeak: units.Is(inventory.MeasuredPeak{Peak: units.Is(units.Current(10)), Months: 12})})
	c := wired("SP1-1", 1, 70, "4 AWG", inventory.Fed{Item: "heater", Count: 1})
	c.Panel, c.Spaces = "SP1", []int{1, 3, 5}
	inv.Circuits = []inventory.Circuit{c}
	p, found := asBuilt(t, inv)
	require.InDelta(t, 12.5, float64(p.Panels[1].Required), 0.01, "125 % of the peak")
	require.InDelta(t, 55.5, float64(p.Panels[1].Legs[0]), 0.1)
	assert.GreaterOrEqual(t, float64(p.Panels[1].Feeder.Transformer.Rating), 20_000.0)
	for _, f := range found {
		assert.NotEqual(t, "transformer-capacity", f.Rule, f.Message)
	}
}
