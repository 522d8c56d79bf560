package assign_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// lamp and heater draw one ampere for each watt over 120: electronic and linear.
func lamp(n int) inventory.Item {
	return inventory.Item{Table: inventory.Fixtures, Name: "lamp", Count: n, Power: units.Is(units.Power(120)), PowerFactor: units.Is(units.Ratio(1)),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Wired: units.Is(true)}
}

func element(n int) inventory.Item {
	return inventory.Item{Table: inventory.Equipment, Kind: inventory.Heater, Name: "element", Count: n, Power: units.Is(units.Power(120)), PowerFactor: units.Is(units.Ratio(1)),
		Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Wired: units.Is(true), Dedicated: units.Is(false)}
}

// sharedBy builds circuits in spaces 1, 3, 5 that share a neutral, each with so
// many units of one ampere.
func sharedBy(t *testing.T, sys string, item inventory.Item, each ...int) *inventory.Inventory {
	total := 0
	for _, n := range each {
		total += n
	}
	item.Count = total
	inv := room(t, sys, item)
	for i, n := range each {
		c := wired("c"+string(rune('1'+i)), 1+2*i, 20, "12 AWG", inventory.Fed{Item: item.Name, Count: n})
		c.Panel = "LP1"
		if i > 0 {
			c.SharesNeutral = []string{"c1"}
		}
		inv.Circuits = append(inv.Circuits, c)
	}
	return inv
}

func asBuilt(t *testing.T, inv *inventory.Inventory) (circuits.Plan, []codes.Finding) {
	p := profile()
	set := build(inv, p)
	out, err := assign.AsBuilt(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, out))
	return out, judge.Plan(inv, set, p, &out)
}

func stepOf(list []steps.Step, name string) (steps.Step, bool) {
	for _, s := range list {
		if s.Name == name {
			return s, true
		}
	}
	return steps.Step{}, false
}

const neutralStep = "neutral among the conductors that carry current"

// The rows of 310.15(E): what shares the neutral, whether it counts, and how many
// conductors carry current then. What it carries is worked by hand: legs in
// opposition 10 A when one circuit is off; two legs of a wye √(14² + 10² − 14·10)
// = 12.49 A, less than the 14 A when the other is off, and with a third harmonic
// of 0.2 · 24 A = 4.8 A √(12.49² + 4.8²) = 13.38 A, still less; three equal legs
// of electronic load 0.2 · 30 A = 6 A, less than one leg alone.
func TestTheNeutralCountsAsTheCodeSays(t *testing.T) {
	for _, row := range []struct {
		why      string
		system   string
		item     inventory.Item
		each     []int
		counted  bool
		carrying int
		amps     float64
	}{
		{"one leg and neutral", "208Y/120 V 3ph", lamp(1), []int{10}, true, 2, 0},
		{"two legs in opposition", "120/240 V 1ph", lamp(1), []int{10, 8}, false, 2, 10},
		{"two low legs of a high-leg system", "240/120 V 3ph high-leg", lamp(1), []int{10, 0, 8}, false, 2, 10},
		{"two legs of a wye, linear", "208Y/120 V 3ph", element(1), []int{14, 10}, true, 3, 14},
		{"two legs of a wye, electronic", "208Y/120 V 3ph", lamp(1), []int{14, 10}, true, 3, 14},
		{"two equal legs of a wye, electronic", "208Y/120 V 3ph", lamp(1), []int{10, 10}, true, 3, math.Sqrt(100 + 16)},
		{"three legs of a wye, linear", "208Y/120 V 3ph", element(1), []int{10, 10, 10}, false, 3, 10},
		{"three legs of a wye, electronic", "208Y/120 V 3ph", lamp(1), []int{10, 10, 10}, true, 4, 10},
	} {
		t.Run(row.why, func(t *testing.T) {
			inv := sharedBy(t, row.system, row.item, row.each...)
			kept := inv.Circuits[:0]
			for _, c := range inv.Circuits {
				if c.Feeds[0].Count > 0 {
					kept = append(kept, c)
				}
			}
			inv.Circuits = kept
			plan, _ := asBuilt(t, inv)
			for _, c := range plan.Circuits {
				assert.True(t, c.Neutral.Runs)
				assert.Equal(t, row.counted, c.Neutral.Counted, c.Neutral.Why)
				assert.Equal(t, row.carrying, c.Carrying)
				assert.Len(t, c.Neutral.SharedWith, len(kept)-1)
				s, ok := stepOf(c.Steps, neutralStep)
				require.True(t, ok, "no step says whether the neutral counts")
				assert.Equal(t, "NEC 2023 310.15(E)", s.Cite.String())
				assert.NotEmpty(t, s.Note)
				if amps, shared := c.Neutral.Amps.Get(); shared {
					assert.InDelta(t, row.amps, float64(amps), 1e-9)
				} else {
					assert.Zero(t, row.amps)
				}
			}
		})
	}
}

// On one leg a shared neutral carries the sum, and the rule says so.
func TestASharedNeutralOnOneLegCarriesTheSum(t *testing.T) {
	inv := sharedBy(t, "120/240 V 1ph", lamp(1), 10, 8)
	inv.Circuits[1].Spaces = []int{5}
	plan, findings := asBuilt(t, inv)
	amps, _ := plan.Circuits[0].Neutral.Amps.Get()
	assert.InDelta(t, 18, float64(amps), 1e-9)
	found := of("multiwire-circuit", findings)
	require.Len(t, found, 1, "one finding for all that share it")
	assert.Contains(t, found[0].Message, "c1 and c2 share a neutral and stand on one leg")
	assert.Equal(t, "circuits.c2.shares_neutral", found[0].At, "it points to the table that says so")
}

func of(rule string, list []codes.Finding) []codes.Finding {
	var out []codes.Finding
	for _, f := range list {
		if f.Names(rule) {
			out = append(out, f)
		}
	}
	return out
}

// Three circuits of electronic load on one neutral are four conductors: 0.80.
// 12 AWG THHN: 30 A × 0.80 = 24 A; each by itself 30 A × 1.00.
func TestASharedNeutralDeratesItsRaceway(t *testing.T) {
	together, _ := asBuilt(t, sharedBy(t, "208Y/120 V 3ph", lamp(1), 10, 10, 10))
	inv := sharedBy(t, "208Y/120 V 3ph", lamp(1), 10, 10, 10)
	for i := range inv.Circuits {
		inv.Circuits[i].SharesNeutral = nil
	}
	apart, _ := asBuilt(t, inv)
	for i := range together.Circuits {
		a, _ := together.Circuits[i].Conductor.CorrectedAmps.Get()
		b, _ := apart.Circuits[i].Conductor.CorrectedAmps.Get()
		without, _ := together.Circuits[i].Neutral.Uncounted.Get()
		assert.InDelta(t, 24, float64(a), 1e-9)
		assert.InDelta(t, 30, float64(b), 1e-9)
		assert.InDelta(t, 30, float64(without), 1e-9, "three conductors are not adjusted")
	}
}

// Where three circuits lie in a raceway and three share a neutral, they are the
// three: four conductors of electronic load. Where six lie together, two such
// groups are eight; where four, two groups as well, because a group is not divided.
func TestCircuitsThatShareANeutralLieTogether(t *testing.T) {
	for per, carrying := range map[int]int{1: 4, 3: 4, 4: 8, 6: 8} {
		inv := sharedBy(t, "208Y/120 V 3ph", lamp(1), 10, 10, 10)
		inv.Site.Conductors.PerRaceway = units.Is(per)
		built, _ := asBuilt(t, inv)
		assert.Equal(t, carrying, built.Circuits[0].Carrying, "%d circuits in a raceway", per)
		assert.Equal(t, carrying/4*3, built.Circuits[0].Raceway.Circuits)
	}
}

// Planned circuits have a neutral of their own; every line-to-neutral circuit and
// every feeder with a neutral says whether it counts; and every run has a raceway,
// or says why none is known.
func TestEveryRunOfEverySiteSaysItsNeutralAndItsRaceway(t *testing.T) {
	sites(t, func(name string, inv *inventory.Inventory) {
		plan := plan(t, inv)
		for _, c := range plan.Circuits {
			if !c.Existing {
				assert.Empty(t, c.Neutral.SharedWith, "%s: %s", name, c.Name)
			}
			_, said := stepOf(c.Steps, neutralStep)
			assert.Equal(t, c.Supply.Neutral, said, "%s: %s", name, c.Name)
			run(t, name+" "+c.Name, c.Raceway)
		}
		for _, x := range plan.Panels {
			f := x.Feeder
			if f == nil || !f.Breaker.Known() {
				continue
			}
			_, said := stepOf(f.Steps, neutralStep)
			assert.Equal(t, f.Transformer == nil, said, "%s: feeder to %s", name, x.Name)
			run(t, name+" feeder to "+x.Name, f.Raceway)
			if f.Neutral.Counted {
				assert.Equal(t, f.Poles+1, f.Carrying)
			}
		}
	})
}

func run(t *testing.T, where string, r circuits.Raceway) {
	assert.NotEmpty(t, r.Kind, where)
	if r.Trade == "" {
		assert.NotEmpty(t, r.Why, where)
		assert.False(t, r.Share.Known(), where)
		return
	}
	share, ok := r.Share.Get()
	require.True(t, ok, where)
	assert.Positive(t, float64(share), where)
	assert.LessOrEqual(t, float64(share), float64(r.Limit)*(1+1e-9), where)
	assert.NotEmpty(t, r.Rests, where)
}

// Five 640 W bars at 240 V on a circuit of 12 AWG: two conductors and a ground,
// 3 × 0.0133 = 0.0399 of 0.304 sq in, 13.1 % of 1/2 in EMT. Four such circuits
// together: 12 × 0.0133 = 0.1596, more than 40 % of 0.304 = 0.1216, less than 40 %
// of 0.533: 3/4 in, 29.9 %.
func TestTheRacewayIsTheSmallestThatHoldsItsCircuits(t *testing.T) {
	for _, row := range []struct {
		kind  string
		per   int
		trade string
		share float64
	}{{"EMT", 1, "1/2 in", 0.0399 / 0.304}, {"EMT", 4, "3/4 in", 0.1596 / 0.533}, {"PVC", 1, "1/2 in", 0.0399 / 0.285}, {"PVC", 4, "3/4 in", 0.1596 / 0.508}} {
		inv := room(t, "120/240 V 1ph", bars(5, 640, 0.98))
		inv.Rooms[0].Run = units.Is(10 * units.Foot)
		inv.Plan.Voltage = units.Is(240 * units.Volt)
		inv.Site.Conductors.Raceway, inv.Site.Conductors.PerRaceway = units.Is(row.kind), units.Is(row.per)
		c := plan(t, inv).Circuits[0]
		require.Equal(t, "12 AWG", c.Conductor.Size)
		assert.Equal(t, row.trade+" "+row.kind, c.Raceway.Name())
		share, _ := c.Raceway.Share.Get()
		assert.InDelta(t, row.share, float64(share), 1e-9)
		assert.Equal(t, 3*row.per, c.Raceway.Conductors)
		_, said := stepOf(c.Steps, "raceway")
		assert.True(t, said)
		memory := strings.Contains(join(c.Raceway.Rests), "(from memory)")
		assert.Equal(t, row.kind == "PVC", memory, "the rows of PVC are from memory, those of EMT up to 2 in were seen")
	}
}

func join(list []steps.Cite) string {
	var out []string
	for _, c := range list {
		out = append(out, c.String())
	}
	return strings.Join(out, "; ")
}

// Where the tables end the trade size is not known, and the reason is given.
func TestARacewayBeyondTheTablesIsNotKnown(t *testing.T) {
	for _, row := range []struct {
		kind, insulation, why string
		per                   int
	}{
		{"steel", "THHN", "no table of trade sizes", 1},
		{"EMT", "NM-B", "no table of areas", 1},
		{"EMT", "XHHW-2", "no table of areas", 1},
		{"EMT", "THHN", "do not fit EMT up to 4 in", 100},
	} {
		inv := room(t, "120/240 V 1ph", bars(5, 640, 0.98))
		inv.Plan.Voltage = units.Is(240 * units.Volt)
		inv.Site.Conductors.Raceway, inv.Site.Conductors.PerRaceway = units.Is(row.kind), units.Is(row.per)
		inv.Site.Conductors.Insulation = units.Is(row.insulation)
		c := plan(t, inv).Circuits[0]
		assert.Empty(t, c.Raceway.Trade)
		assert.Contains(t, c.Raceway.Why, row.why)
	}
}

// Seven 6 AWG in 1 in EMT: 0.346 / 0.0507 = 6.82, which counts as seven: 41.1 %
// of the raceway may be filled by them, where 40 % is the table's share.
func TestWholeConductorsOfOneSizeMayFillABitMore(t *testing.T) {
	inv := room(t, "208Y/120 V 3ph", bars(5, 640, 0.98))
	given := inventory.Raceway{Trade: "1 in", Kind: "EMT"}
	inv.Circuits = []inventory.Circuit{{Name: "c1", Panel: "LP1", Spaces: []int{1, 3}, Breaker: 20, Raceway: units.Is(given),
		Conductor: units.Is(inventory.Conductor{Size: "6 AWG", Material: units.Is("copper"), Insulation: units.Is("THHN")}),
		Ground:    units.Is(inventory.Conductor{Size: "6 AWG", Material: units.Is("copper")}), Feeds: []inventory.Fed{{Item: "bar", Count: 5}}}}
	for per, over := range map[int]bool{1: false, 2: false, 3: true} { // 3, 6 and 9 conductors
		inv.Site.Conductors.PerRaceway = units.Is(per)
		built, findings := asBuilt(t, inv)
		r := built.Circuits[0].Raceway
		assert.True(t, r.Given)
		assert.InDelta(t, 7*0.0507/0.864, float64(r.Limit), 1e-9)
		assert.Equal(t, over, len(of("raceway-fill", findings)) > 0)
	}
}

// A conductor that the tables do not reach is no fault of the program: the plan
// stands, the conductor is unknown with the reason, and the rules say so.
func TestAConductorBeyondTheTablesIsUnknownWithTheReason(t *testing.T) {
	const hot = "no correction for an ambient of 95 C"
	inv := room(t, "120/240 V 1ph", bars(5, 640, 0.98))
	inv.Site.Conductors.Ambient = units.Is(units.Temperature(95))
	out := plan(t, inv)
	c := out.Circuits[0]
	assert.Empty(t, c.Conductor.Size)
	assert.Equal(t, "THHN", c.Conductor.Insulation, "what was asked for is kept")
	assert.Contains(t, c.Conductor.Beyond, hot)
	assert.Contains(t, c.Conductor.Ampacity.Why(), hot)
	assert.Contains(t, c.Raceway.Why, "not known")
	p := profile()
	findings := judge.Plan(inv, build(inv, p), p, &out)
	hard := of("insulation-temperature", findings)
	require.Len(t, hard, 1)
	assert.Equal(t, codes.Broken, hard[0].State)
	open := of("conductor-ampacity", findings)
	require.Len(t, open, 1)
	assert.Equal(t, codes.CannotTell, open[0].State)
	assert.Contains(t, open[0].Message, hot)
	assert.NotContains(t, open[0].Remedy, "`conductor`", "nothing is missing in the file")
	assert.False(t, codes.Passed(findings))
}

func TestAnExistingConductorBeyondTheTablesKeepsWhatIsKnown(t *testing.T) {
	inv := sharedBy(t, "120/240 V 1ph", lamp(1), 10)
	for _, row := range []struct {
		wire    inventory.Conductor
		ambient units.Temperature
		why     string
	}{
		{inventory.Conductor{Size: "12 AWG", Material: units.Is("copper"), Insulation: units.Is("TW")}, 60, "no correction for an ambient of 60 C"},
		{inventory.Conductor{Size: "14 AWG", Material: units.Is("aluminum"), Insulation: units.Is("THHN")}, 30, "no ampacity of 14 AWG aluminum"},
	} {
		inv.Site.Conductors.Ambient = units.Is(row.ambient)
		inv.Circuits[0].Conductor = units.Is(row.wire)
		built, findings := asBuilt(t, inv)
		c := built.Circuits[0].Conductor
		assert.Equal(t, row.wire.Size, c.Size)
		assert.Equal(t, row.wire.Insulation.Or(""), c.Insulation)
		assert.Contains(t, c.Beyond, row.why)
		open := of("conductor-ampacity", findings)
		require.Len(t, open, 1)
		assert.Contains(t, open[0].Message, row.why)
		assert.False(t, codes.Passed(findings))
	}
}

// The same of a feeder, new and existing, and where the file leaves its material
// out.
func TestAFeederBeyondTheTablesIsUnknownWithTheReason(t *testing.T) {
	for _, row := range []struct {
		why     string
		ambient units.Temperature
		wire    units.Known[inventory.Conductor]
	}{
		{"no correction for an ambient of 95 C", 95, units.Unknown[inventory.Conductor]("")},
		{"no correction for an ambient of 60 C", 60, units.Is(inventory.Conductor{Size: "6 AWG", Material: units.Is("copper"), Insulation: units.Is("TW")})},
		{"the conductor of the feeder is not given", 30, units.Is(inventory.Conductor{Size: "6 AWG"})},
	} {
		inv := room(t, "120/240 V 1ph", bars(5, 640, 0.98))
		inv.Site.Conductors.Ambient = units.Is(row.ambient)
		inv.Panels = append(inv.Panels, inventory.Panel{Name: "MDP", System: system(t, "120/240 V 1ph"), Main: units.Is(units.Current(200)), Spaces: units.Is(24)})
		inv.Panels[0].FedBy = "MDP"
		inv.Panels[0].Feeder = inventory.Feeder{Length: units.Is(20 * units.Foot), Breaker: units.Is(units.Current(60)), Conductor: row.wire}
		out := plan(t, inv)
		f := out.Panels[0].Feeder
		require.NotNil(t, f)
		assert.False(t, f.Conductor.Ampacity.Known())
		p := profile()
		findings := judge.Plan(inv, build(inv, p), p, &out)
		for _, rule := range []string{"feeder-conductor", "feeder-protection"} {
			open := of(rule, findings)
			require.Len(t, open, 1, rule)
			assert.Equal(t, codes.CannotTell, open[0].State)
			assert.Contains(t, open[0].Message, row.why)
		}
		assert.False(t, codes.Passed(findings))
	}
}
