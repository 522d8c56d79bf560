package verify_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads"
	"branchwork/loads/units"
)

func (s *site) circuit(name string) *circuits.Circuit {
	for i := range s.plan.Circuits {
		if s.plan.Circuits[i].Name == name {
			return &s.plan.Circuits[i]
		}
	}
	panic("no circuit " + name)
}

func (s *site) panel(name string) *circuits.Panel {
	for i := range s.plan.Panels {
		if s.plan.Panels[i].Name == name {
			return &s.plan.Panels[i]
		}
	}
	panic("no panel " + name)
}

// proof returns the bound of the circuits of an item.
func (s *site) proof(item string) *circuits.Proof {
	for i, p := range s.plan.Proofs {
		if p.Choices[0].Parts[0].Items[0].Item == item {
			return &s.plan.Proofs[i]
		}
	}
	panic("no proof for " + item)
}

// settle makes a circuit's own figures follow from its loads again, so that only
// what was broken on purpose is wrong.
func (s *site) settle(c *circuits.Circuit) { c.Settle(s.set, profile(), nil) }

// laidOut plans the bay and puts its breakers where the breaks below expect them,
// whatever the planner prefers among equals: two dehumidifiers, each alone, on
// spaces 1 and 2, both of leg A, which is the fullest; four bars on one two-pole
// circuit; three fans on leg B; two spots on the sub-panel.
func laidOut(t *testing.T) site {
	s := planOf(t, "bay.toml", []byte(bay))
	require.Len(t, s.plan.Circuits, 5)
	places := map[string][]circuits.Circuit{
		"dehumidifier": {{Name: "LP1-1", Spaces: []int{1}, Legs: []int{0}}, {Name: "LP1-2", Spaces: []int{2}, Legs: []int{0}}},
		"bar-a":        {{Name: "LP1-3", Spaces: []int{3, 5}, Legs: []int{1, 2}}},
		"circulation":  {{Name: "LP1-4", Spaces: []int{4}, Legs: []int{1}}},
		"spot":         {{Name: "SP1-1", Spaces: []int{1}, Legs: []int{0}}},
	}
	var branches, byDay []panel.Branch
	var legA units.Current // by day, as a schedule adds it up
	for i := range s.plan.Circuits {
		c := &s.plan.Circuits[i]
		item := c.Loads[0].Item
		require.NotEmpty(t, places[item], item)
		at := places[item][0]
		places[item] = places[item][1:]
		c.Name, c.Spaces, c.Legs = at.Name, at.Spaces, at.Legs
		for _, l := range c.Loads {
			require.True(t, l.Continuous)
			b := panel.Branch{Legs: c.Legs, Supply: c.Supply, Amps: units.Times(l.Amps(), 1.25), PF: l.Draw.PF}
			branches = append(branches, b)
			if b.Amps = l.Amps(); l.Room != "flower" || l.Category != loads.Lighting {
				byDay = append(byDay, b)
				if c.Legs[0] == 0 {
					legA += l.Amps()
				}
			}
		}
	}
	main := s.panel("LP1")
	legs, _ := panel.Currents(main.System, branches) // the sub-panel's leg A is this one's
	main.Required = slices.Max(legs)
	require.Equal(t, legs[0], main.Required)
	main.Legs, _ = panel.Currents(main.System, byDay)
	main.Balance = circuits.LegBalance{Worst: int64(math.Round(100 * float64(legA))), Why: "moved by hand"}
	main.Balance.Even = mean(byDay)
	sub := s.panel("SP1").Balance
	uneven := int64(math.Round(float64(sub.Worst-sub.Even)/100*120) + math.Round(float64(main.Balance.Worst-main.Balance.Even)/100*120))
	s.plan.Optimality.Imbalance = circuits.Bounded{Used: uneven, Bound: uneven, Proved: true}
	s.plan.Optimality.LightsOn = circuits.Bounded{Used: int64(math.Round(float64(sub.Lit-sub.LitEven) / 100 * 120)), Why: "moved by hand"}
	f := s.panel("SP1").Feeder
	f.Spaces, f.Legs = []int{6, 8, 10}, []int{2, 0, 1}
	require.Len(t, s.plan.Unfed, 1)
	require.Equal(t, 2, s.plan.Unfed[0].Count)
	return s
}

// mean is an equal share of what branches put on three legs, in steps of 10 mA.
func mean(list []panel.Branch) int64 {
	var sum units.Current
	for _, b := range list {
		sum += units.Times(b.Amps, float64(len(b.Legs)))
	}
	return int64(math.Ceil(100 * float64(sum) / 3))
}

func TestPlanBeforeItIsBrokenHolds(t *testing.T) {
	s := laidOut(t)
	assert.Empty(t, s.complaints())
}

// Each break makes a good plan wrong in one way, and the verifier says that and
// nothing else.
func TestVerifierNamesEachBreak(t *testing.T) {
	for _, row := range []struct {
		why   string
		wreck func(s *site)
		says  []string
	}{
		{"a unit on a circuit is lost", func(s *site) {
			c := s.circuit("LP1-4")
			c.Loads[0].Count--
			s.settle(c)
		}, []string{"fans.circulation: 3 units in the file, 2 in the plan"}},
		{"a unit stands on two circuits", func(s *site) {
			c := s.circuit("LP1-4")
			c.Loads[0].Count++
			s.settle(c)
		}, []string{"fans.circulation: 3 units in the file, 4 in the plan"}},
		{"a unit without a circuit is lost", func(s *site) { s.plan.Unfed[0].Count-- },
			[]string{"equipment.heater: 2 units in the file, 1 in the plan"}},
		{"all units of an item are lost", func(s *site) { s.plan.Unfed = nil },
			[]string{"equipment.heater: 2 units in the file, 0 in the plan"}},
		{"a unit is taken for its twin", func(s *site) {
			c := s.circuit("LP1-3")
			c.Loads[0].Count--
			c.Loads[1].Count++
		}, []string{"fixtures.bar-a: 2 units in the file, 1 in the plan", "fixtures.bar-b: 2 units in the file, 3 in the plan"}},
		{"a unit comes from nowhere", func(s *site) {
			s.plan.Unfed = append(s.plan.Unfed, circuits.Unfed{Item: "ghost", Count: 1})
		}, []string{"ghost: 1 units in the plan, none in the file"}},
		{"a load of no units", func(s *site) {
			c := s.circuit("LP1-3")
			empty := c.Loads[0]
			empty.Count = 0
			c.Loads = append(c.Loads, empty)
		}, []string{"circuit LP1-3: 0 units of bar-a"}},

		{"a panel has a space left that it has not", func(s *site) { s.panel("LP1").Spare++ },
			[]string{"panel LP1: 8 spaces used and 35 left of 42"}},
		{"a space is taken twice", func(s *site) {
			s.circuit("LP1-2").Spaces = []int{1}
			s.panel("LP1").SpacesUsed--
		}, []string{"space 1 of LP1 is taken by circuit LP1-1 and circuit LP1-2"}},
		{"a feeder takes a circuit's space", func(s *site) {
			f := s.panel("SP1").Feeder
			f.Spaces, f.Legs = []int{4, 6, 8}, []int{1, 2, 0}
			s.panel("LP1").SpacesUsed--
		}, []string{"space 4 of LP1 is taken by circuit LP1-4 and the feeder of SP1"}},
		{"poles are apart on one side", func(s *site) { s.circuit("LP1-3").Spaces = []int{3, 11} },
			[]string{"circuit LP1-3: spaces [3 11] are not neighbours on one side"}},
		{"poles stand on two sides", func(s *site) { s.circuit("LP1-3").Spaces = []int{9, 12} },
			[]string{"circuit LP1-3: spaces [9 12] are not neighbours on one side"}},
		{"poles are out of order", func(s *site) {
			c := s.circuit("LP1-3")
			c.Spaces, c.Legs = []int{5, 3}, []int{2, 1}
		}, []string{"circuit LP1-3: spaces [5 3] are not neighbours on one side"}},
		{"a pole is on another leg than its space", func(s *site) { s.circuit("LP1-4").Legs = []int{2} },
			[]string{"circuit LP1-4: space 4 is on leg 1 of the bus, the plan says 2"}},
		{"a circuit has no space", func(s *site) {
			c := s.circuit("LP1-3")
			c.Spaces, c.Legs = nil, nil
			s.panel("LP1").SpacesUsed -= 2
		}, []string{"circuit LP1-3: 2 poles on 0 spaces and 0 legs"}},
		{"spaces used are miscounted", func(s *site) { s.panel("LP1").SpacesUsed++ },
			[]string{"panel LP1: 8 spaces are taken, the plan says 9"}},

		{"the load is over the breaker", func(s *site) { s.circuit("LP1-3").Breaker = units.Is(15 * units.Ampere) },
			[]string{"circuit LP1-3: 62.794"}},
		{"the rating is no standard one", func(s *site) { s.circuit("LP1-3").Breaker = units.Is(22 * units.Ampere) },
			[]string{"circuit LP1-3: 22 A is not a standard rating"}},
		{"the required figure is wrong", func(s *site) { s.circuit("LP1-3").Required += units.Milliampere },
			[]string{"circuit LP1-3: the day asks for 15.698"}},
		{"the required figure is too low", func(s *site) { s.circuit("LP1-3").Required -= units.Milliampere },
			[]string{"circuit LP1-3: the day asks for 15.698"}},
		{"a panel's required figure is wrong", func(s *site) { s.panel("LP1").Required += units.Milliampere },
			[]string{"panel LP1: waveforms ask for"}},
		{"a sub-panel's required figure is too low", func(s *site) { s.panel("SP1").Required -= units.Milliampere },
			[]string{"panel SP1: waveforms ask for"}},

		{"a circuit serves two rooms", func(s *site) { s.circuit("LP1-3").Loads[1].Room = "veg" },
			[]string{"circuit LP1-3 serves two rooms"}},
		{"equipment that wants a circuit of its own shares", func(s *site) {
			c := s.circuit("LP1-1")
			c.Loads[0].Count = 2
			s.settle(c)
			s.plan.Circuits = slices.DeleteFunc(s.plan.Circuits, func(c circuits.Circuit) bool { return c.Name == "LP1-2" })
			s.panel("LP1").SpacesUsed--
			o := &s.plan.Optimality
			for _, b := range []*circuits.Bounded{&o.Spaces, &o.Circuits} {
				b.Used, b.Bound = b.Used-1, b.Bound-1
			}
		}, []string{"circuit LP1-1: dehumidifier asks for a circuit of its own and shares"}},
		{"a supply is not accepted", func(s *site) { s.circuit("SP1-1").Supply.Volts = 277 },
			[]string{"circuit SP1-1 feeds spot at 277 V, which it does not accept"}},
		{"a conductor is missing", func(s *site) { s.circuit("LP1-3").Conductor.Size = "" },
			[]string{"circuit LP1-3 has no conductor"}},

		{"the bound of spaces is above what is used", func(s *site) {
			s.plan.Optimality.Spaces.Bound++
			s.plan.Optimality.Spaces.Proved = false
		}, []string{"spaces: bound 7 above the 6 used"}},
		{"the bound of circuits is above what is used", func(s *site) {
			s.plan.Optimality.Circuits.Bound++
			s.plan.Optimality.Circuits.Proved = false
		}, []string{"circuits: bound 6 above the 5 used"}},
		{"the fullest leg of the day is fuller", func(s *site) { s.panel("SP1").Balance.Worst += 100 },
			[]string{"panel SP1: breakers add up to"}},
		{"an equal share is another", func(s *site) { s.panel("SP1").Balance.Even += 300 },
			[]string{"panel SP1: an equal share"}},
		{"the legs with lights on are another", func(s *site) { s.panel("SP1").Balance.Lit += 200 },
			[]string{"panel SP1: with lights on"}},
		{"a layout is called the best and is not", func(s *site) {
			c, b := s.circuit("LP1-3"), &s.panel("LP1").Balance
			c.Spaces, c.Legs = []int{5, 7}, []int{2, 0} // beside two dehumidifiers, with only fans on leg B
			b.Worst, b.Bound, b.Proved = 2552, 2552, true
		}, []string{"exchanged the fullest leg is", "waveforms ask for"}},
		{"the panels' imbalance is not the plan's", func(s *site) { s.plan.Optimality.LightsOn.Used += 50 },
			[]string{"imbalance with lights on: the panels add up"}},
		{"the bound of the imbalance is above it", func(s *site) { s.plan.Optimality.Imbalance.Bound++ },
			[]string{"imbalance: bound"}},
		{"proved, with the bound below", func(s *site) { s.plan.Optimality.Circuits.Bound-- },
			[]string{"circuits: called proved with 5 used and a bound of 4"}},
		{"spaces of the plan are miscounted", func(s *site) {
			o := &s.plan.Optimality.Spaces
			o.Used, o.Bound = o.Used-1, o.Bound-1
		}, []string{"optimality counts 5 spaces and 5 circuits, the plan has 6 and 5"}},

		{"a proof claims more than is used", func(s *site) { s.proof("circulation").Bound = 2 },
			[]string{"proof for LP1 flower: bound 2 above the 1 used"}},
		{"the parts of a proof do not add up", func(s *site) { s.proof("circulation").Choices[0].Bound = 2 },
			[]string{"proof for LP1 flower: parts add up to 1, not 2"}},
		{"the weights of a proof do not give its bound", func(s *site) {
			c := &s.proof("circulation").Choices[0]
			c.Bound, c.Parts[0].Bound = 2, 2
		}, []string{"proof for LP1 flower: weights of"}},
		{"a circuit holds a tenth more than a proof allows it", func(s *site) {
			part := &s.proof("circulation").Choices[0].Parts[0]
			for i := range part.Items {
				part.Items[i].Weight *= 100
			}
			part.Z, part.Spared = 100*part.Z*10/11, 100*part.Spared
		}, []string{"proof for LP1 flower: a circuit of 20 A at 120 V holds a weight of"}},
		{"a circuit holds more than a proof allows it", func(s *site) { s.proof("circulation").Choices[0].Parts[0].Z /= 2 },
			[]string{"proof for LP1 flower: a circuit of 20 A at 120 V holds a weight of"}},

		{"a pole has no space", func(s *site) {
			c := s.circuit("LP1-3")
			c.Spaces, c.Legs = c.Spaces[:1], c.Legs[:1]
			s.panel("LP1").SpacesUsed -= 2
		}, []string{"circuit LP1-3: 2 poles on 1 spaces and 1 legs"}},
		{"a leg current is wrong", func(s *site) { s.panel("LP1").Legs[0] += 50 * units.Ampere }, []string{"panel LP1: the day's waveforms reach"}},
		{"volt-amperes are miscounted", func(s *site) { s.panel("LP1").ConnectedVA *= 1.1 }, []string{"VA connected, the plan says"}},
		{"a unit draws half of what its item says", func(s *site) { s.circuit("LP1-3").Loads[0].Draw.Amps /= 2 }, []string{"draws"}},
		{"a load of many hours is not continuous", func(s *site) { s.circuit("LP1-3").Loads[0].Continuous = false }, []string{"continuous by its hours"}},
		{"more is free than the breaker leaves", func(s *site) { s.circuit("LP1-3").Free += units.Ampere }, []string{"free behind"}},
		{"the conductor is too small for the load", func(s *site) { s.circuit("LP1-3").Conductor.Ampacity = units.Is(units.Ampere) }, []string{"its conductor carries"}},
	} {
		s := laidOut(t)
		row.wreck(&s)
		got := s.complaints()
		// A break may show on more than one road; the one meant must be among them.
		for _, says := range row.says {
			assert.Truef(t, slices.ContainsFunc(got, func(c string) bool { return strings.Contains(c, says) }), "%s: %q is not among %q", row.why, says, got)
		}
		assert.LessOrEqual(t, len(got), len(row.says)+3, "%s: %q", row.why, got)
	}
}

// A conductor that the tables do not reach is unknown with the reason: that is no
// contradiction. Without a reason it is.
func TestAConductorThatIsNotKnownNeedsAReason(t *testing.T) {
	s := planOf(t, "bay.toml", []byte(bay))
	why := units.Unknown[units.Current]("no correction for an ambient of 95 C")
	c := &s.plan.Circuits[0]
	c.Conductor = circuits.Wire{Ampacity: why, ProtectedAt: why}
	assert.Empty(t, s.complaints())
	c.Conductor.Ampacity = units.Unknown[units.Current]("")
	assert.Len(t, s.complaints(), 1)
}

// Fans of which an interlock lets one run at a time: their circuit is sized for the
// larger, and the verifier finds that on its own.
func TestInterlockedLoadsOfACircuitAreWalkedToo(t *testing.T) {
	fan := func(name, power, group string) string {
		return "\n[fans." + name + "]\nroom = \"flower\"\ncount = 1\npower = \"" + power + "\"\nvoltage = \"120 V\"\nhours = \"always\"\nwired = true\n" + group
	}
	s := planOf(t, "held.toml", []byte("[site]\nname = \"Invented\"\nuse = \"commercial\"\n\n[panels.LP1]\nsystem = \"208Y/120 V 3ph\"\nmain = \"200 A\"\nspaces = 42\n\n"+
		"[rooms.flower]\npanel = \"LP1\"\nlights = \"18:00-06:00\"\n"+
		fan("intake", "240 W", "interlock = \"one\"\n")+fan("exhaust", "480 W", "interlock = \"one\"\n")+fan("circulation", "60 W", "")))
	require.Len(t, s.plan.Circuits, 1)
	require.Len(t, s.plan.Circuits[0].Loads, 3)
	assert.Empty(t, s.complaints())
	c := &s.plan.Circuits[0]
	amps := map[string]units.Current{}
	for _, l := range c.Loads {
		require.True(t, l.Continuous)
		amps[l.Item] = l.Amps()
	}
	require.InDelta(t, 1.25*float64(amps["exhaust"]+amps["circulation"]), float64(c.Required), 1e-9)
	c.Required = units.Times(amps["intake"]+amps["circulation"], 1.25)
	assert.Contains(t, strings.Join(s.complaints(), "\n"), "circuit "+c.Name+": the day asks for")
}

// A figure that is no number is the same as nothing.
func TestNoNumberIsNeverTheSame(t *testing.T) {
	s := laidOut(t)
	s.circuit("LP1-4").Required = units.Current(math.NaN())
	s.panel("LP1").Required = units.Current(math.NaN())
	says := strings.Join(s.complaints(), "\n")
	assert.Contains(t, says, "circuit LP1-4: the day asks for")
	assert.Contains(t, says, "panel LP1: waveforms ask for")
}

// Of units that the file lists one by one each name is on one circuit.
func TestANameOnTwoCircuitsIsNoticed(t *testing.T) {
	var b strings.Builder
	b.WriteString("[site]\nname = \"Invented bay\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"120/240 V 1ph\"\nmain = \"100 A\"\nspaces = 24\n[rooms.r1]\npanel = \"LP1\"\nrun = \"40 ft\"\n")
	for i := range 10 {
		fmt.Fprintf(&b, "[fixtures.bar-%d]\nroom = \"r1\"\ncount = 1\npower = \"640 W\"\nvoltage = \"240 V\"\n", i+1)
	}
	s := planOf(t, "list.toml", []byte(b.String()))
	assert.Empty(t, s.complaints())
	l := &s.plan.Circuits[1].Loads[0]
	assert.Greater(t, l.First, 1)
	l.First--
	assert.Contains(t, strings.Join(s.complaints(), "\n"), "is on circuits LP1-1 and LP1-2")
	l.First++
	l.Listed = slices.Clone(l.Listed)
	l.Listed[l.First-1] = "bar-11"
	assert.Contains(t, strings.Join(s.complaints(), "\n"), "bar-11 is on circuit LP1-2 and not in the file")
}
