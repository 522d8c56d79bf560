package circuits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

func plain(name, panel string, spaces []int, count int) Circuit {
	return Circuit{Name: name, Panel: panel, Spaces: spaces, Breaker: units.Is(units.Current(20)), Receptacle: "NEMA 6-20R",
		Supply:    inventory.Supply{Volts: 240, Poles: len(spaces), Phases: 1},
		Conductor: Wire{Size: "12 AWG", Material: "copper"}, Loads: []Load{{Item: "bar", Count: count, Draw: loads.Draw{Amps: 2}}}}
}

func order(a, b Plan) []string {
	var out []string
	for _, c := range Difference(a, b, "ground") {
		out = append(out, string(c.Kind)+" "+c.Panel+" "+c.Circuit+c.Feeder)
	}
	return out
}

func TestDifferenceIsTheChangeOrderAndNothingElse(t *testing.T) {
	panel := Panel{Name: "LP1", Main: units.Is(units.Current(100)), Spaces: units.Is(24)}
	a := Plan{Panels: []Panel{panel}, Circuits: []Circuit{plain("LP1-1", "LP1", []int{1, 3}, 4), plain("LP1-2", "LP1", []int{2, 4}, 4), plain("LP1-5", "LP1", []int{5, 7}, 1)}}
	assert.Empty(t, Difference(a, a, "ground"))
	b := Plan{Panels: []Panel{panel}, Circuits: []Circuit{plain("LP1-1", "LP1", []int{1, 3}, 5), plain("LP1-2", "LP1", []int{2, 4}, 4), plain("LP1-9", "LP1", []int{9, 11}, 2)}}
	assert.Equal(t, []string{"changed LP1 LP1-1", "freed LP1 LP1-5", "added LP1 LP1-9"}, order(a, b))
	list := Difference(a, b, "ground")
	assert.Equal(t, []string{"feeds: 4 × bar becomes 5 × bar"}, list[0].What)
	assert.Equal(t, "breaker of circuit LP1-1", list[0].Off.At, "a plug more needs no open panel")
	assert.Equal(t, "main of LP1; its supply side stays live", list[2].Off.At)
	assert.Equal(t, []string{"LP1-1", "LP1-2", "LP1-5"}, list[2].Off.Circuits)

	c := a
	c.Circuits = append([]Circuit{}, a.Circuits...)
	c.Circuits[1].Breaker = units.Is(units.Current(15))
	c.Circuits[1].Conductor.Size = "14 AWG"
	list = Difference(a, c, "ground")
	require.Len(t, list, 1)
	assert.Equal(t, []string{"breaker: 20 A becomes 15 A", "conductor: 12 AWG copper becomes 14 AWG copper"}, list[0].What)
}

func TestScarcestNamesTheFullestThing(t *testing.T) {
	p := Plan{Panels: []Panel{{Name: "LP1", Main: units.Is(units.Current(100)), Spaces: units.Is(24), SpacesUsed: 6, Required: 80}},
		Circuits: []Circuit{plain("LP1-1", "LP1", []int{1, 3}, 4)}}
	p.Circuits[0].Required = 10
	list := Scarcest(p)
	require.Len(t, list, 2)
	assert.Equal(t, "main", list[0].What)
	assert.InDelta(t, 0.8, list[0].Share, 1e-12)
	assert.Contains(t, list[0].Buys, "there is room for 2 on it")
	assert.Contains(t, list[1].Buys, "2 more would carry one more circuit like LP1-1 (4 × bar)")
}

// By hand: legs of 60, 30 and 30 A have an equal share of 40 A; of 80 A required on
// the fullest a third is unevenness, 26.67 A. 20 A are left of the main: two
// circuits of 10 A, and with even legs ⌊46.67 / 10⌋ = 4. Ten bars leak 2 mA, 0.2 mA
// each; 4 mA leave room for ten more.
func TestScarcestTellsWhatEvenLegsAndLeakageBuy(t *testing.T) {
	p := Plan{Panels: []Panel{{Name: "LP1", Main: units.Is(units.Current(100)), SpacesUsed: 6, Required: 80, Legs: make([]units.Current, 3),
		Balance: LegBalance{Worst: 6000, Even: 4000, Proved: true}}},
		Circuits: []Circuit{plain("LP1-1", "LP1", []int{1, 3}, 10)}}
	p.Circuits[0].Required = 10
	p.Circuits[0].Limits = []Limit{{Rule: leakageRule, Share: 0.5, Actual: units.Any{Value: 2, Unit: "mA"}, Limit: units.Any{Value: 4, Unit: "mA"}}}
	buys := map[string]Scarce{}
	for _, s := range Scarcest(p) {
		buys[s.What] = s
	}
	assert.Equal(t, 2, buys["main"].Fits)
	assert.Equal(t, 2, buys["leg balance"].Fits)
	assert.Contains(t, buys["leg balance"].Buys, "even legs would leave about 26.67 A more on the fullest, 2 circuits more like LP1-1")
	assert.Equal(t, 10, buys["leakage"].Fits)
	assert.Contains(t, buys["leakage"].Buys, "0.2 mA more would let one more unit share circuit LP1-1")
}
