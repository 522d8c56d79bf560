package cec_test

import (
	"os"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// small is an invented greenhouse on 600Y/347 V with a few outlets behind a
// transformer.
const small = `
[site]
name = "small greenhouse"
use  = "commercial"
code = "cec-2024"

[panels.L1]
system = "600Y/347 V 3ph"
main   = "100 A"
bus    = "100 A"
spaces = 24

[panels.P1]
system = "208Y/120 V 3ph"
main   = "50 A"
spaces = 12
fed_by = "L1"
feeder = { length = "10 m", breaker = "20 A" }
transformer = "15 kVA"

[rooms.bay]
panel   = "L1"
lights  = "03:00-09:00"
run     = "25 m"
spacing = "3 m"

[fixtures.toplight]
room = "bay"
count = 12
power = "1000 W"
power_factor = 0.95
voltage = "347 V"
wired = true
max_per_breaker = 8

[equipment.pump]
kind = "pump"
room = "bay"
current = "5 A"
power_factor = 0.95
voltage = "600 V"
phases = 3
wired = true
hours = "06:00-10:00"

[equipment.outlets]
kind = "outlet"
room = "bay"
count = 20
voltage = "120 V"
panel = "P1"
hours = "08:00-17:00"
`

// planned plans a site under the profile as the command does, or takes it as it
// is; the verifier must have nothing to say.
func planned(t *testing.T, text string, decide func(*inventory.Inventory, loads.Set, *codes.Profile) (circuits.Plan, error)) (circuits.Plan, []codes.Finding) {
	p, ok := book.Profile("cec-2024")
	require.True(t, ok)
	words := inventory.Vocabulary{Codes: book.Names(), Sizes: p.Wires.Sizes, Raceways: p.Wires.Raceways}
	for m := range p.Wires.Ampacity {
		words.Materials = append(words.Materials, m)
	}
	sort.Strings(words.Materials)
	for _, i := range p.Wires.Insulations {
		words.Insulations = append(words.Insulations, i.Name)
	}
	for _, r := range p.Receptacles {
		words.Receptacles = append(words.Receptacles, r.Name)
	}
	inv, problems := inventory.Read("site.toml", []byte(text), words)
	require.Empty(t, problems)
	set := loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})
	plan, err := decide(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan))
	return plan, judge.Plan(inv, set, p, &plan)
}

func feeding(plan circuits.Plan, item string) []circuits.Circuit {
	var out []circuits.Circuit
	for _, c := range plan.Circuits {
		if c.Loads[0].Item == item {
			out = append(out, c)
		}
	}
	return out
}

func said(list []codes.Finding) []string {
	var out []string
	for _, f := range list {
		out = append(out, f.Severity.String()+" "+f.State.String()+" "+f.Rule+": "+f.Message)
	}
	return out
}

// By hand. One luminaire draws 1000 W / (347 V · 0.95) = 3.0335 A. On 20 A at 80 %
// stand 16 A: five of them, so twelve take three circuits, one on each leg. The
// pump's 5 A is continuous: 6.25 A. An outlet is 120 VA, 1 A; 16 of them stand on
// 20 A, so twenty take two circuits.
func TestGreenhouseAt347V(t *testing.T) {
	plan, findings := planned(t, small, assign.Plan)
	assert.Empty(t, plan.Unfed)

	lights := feeding(plan, "toplight")
	require.Len(t, lights, 3)
	legs := map[int]bool{}
	units_ := 0
	for _, c := range lights {
		n := c.Loads[0].Count
		units_ += n
		legs[c.Legs[0]] = true
		assert.Equal(t, 347*units.Volt, c.Supply.Volts)
		assert.True(t, c.Supply.Neutral)
		assert.Equal(t, 20*units.Ampere, c.Breaker.Or(0))
		assert.InDelta(t, 3.0335*float64(n), float64(c.Load), 0.001)
		assert.InDelta(t, 1.25*3.0335*float64(n), float64(c.Required), 0.001)
		// 12 AWG: 20 A in the 60 °C column, for terminations that are not marked; 30 A
		// in the 90 °C column of T90, which nothing corrects: two conductors, 30 °C.
		assert.Equal(t, "12 AWG", c.Conductor.Size)
		assert.Equal(t, 20*units.Ampere, c.Conductor.TerminalAmps.Or(0))
		assert.Equal(t, 30*units.Ampere, c.Conductor.CorrectedAmps.Or(0))
		assert.Equal(t, "14 AWG", c.Ground.Size, "Table 16 at 20 A; the American table has 12 AWG")
		assert.False(t, c.Protection.Needed)
	}
	assert.Equal(t, 12, units_)
	assert.Len(t, legs, 3)

	pump := feeding(plan, "pump")
	require.Len(t, pump, 1)
	assert.Equal(t, 3, pump[0].Supply.Poles)
	assert.Equal(t, 600*units.Volt, pump[0].Supply.Volts)
	assert.InDelta(t, 6.25, float64(pump[0].Required), 1e-9)

	outlets := feeding(plan, "outlets")
	require.Len(t, outlets, 2)
	for _, c := range outlets {
		assert.LessOrEqual(t, c.Loads[0].Count, 16)
		assert.InDelta(t, 1.25*float64(c.Loads[0].Count), float64(c.Required), 1e-9)
		assert.Equal(t, "5-20R", c.Receptacle)
	}

	// 15 kVA / (√3 · 600 V) = 14.43 A ahead of the transformer, behind 20 A.
	for _, x := range plan.Panels {
		if x.Name == "P1" {
			assert.InDelta(t, 14.434, float64(x.Feeder.Required), 0.001)
			assert.Equal(t, "12 AWG", x.Feeder.Conductor.Size)
		}
	}
	assert.True(t, codes.Passed(findings), "%s", strings.Join(said(findings), "\n"))
	told := ""
	for _, f := range findings {
		if f.Severity == codes.Warning {
			told += f.Rule + " " + f.State.String() + "\n"
		}
	}
	assert.Equal(t, "ground-fault-receptacle cannot tell\ntransformer-device cannot tell\n", told, "what is not held is said")
}

// A longer run must be wired larger: the drop is a rule. By hand, four luminaires at
// 12 AWG, 1.970 ohm per 1,000 ft, 80 m to the first and 3 m apart:
//
//	2 · 1.970 / 1000 · 4 · 3.0335 A · 0.95 · (262.5 + 1.5 · 9.84) ft = 12.6 V, 3.6 %
//
// and at 10 AWG, 1.239 ohm, 7.9 V, 2.3 %, a little more as the current rises. The
// bonding conductor grows from 14 AWG by the same factor, 10380 / 6529, to 10 AWG.
func TestALongerRunIsWiredLarger(t *testing.T) {
	plan, findings := planned(t, strings.Replace(small, `"25 m"`, `"80 m"`, 1), assign.Plan)
	for _, c := range feeding(plan, "toplight") {
		require.Equal(t, 4, c.Loads[0].Count)
		assert.Equal(t, "10 AWG", c.Conductor.Size)
		assert.Equal(t, "12 AWG", c.Conductor.BeforeDrop)
		assert.InDelta(t, 0.0228, float64(c.Drop.Or(0)), 0.0007)
		assert.Equal(t, "10 AWG", c.Ground.Size)
	}
	assert.True(t, codes.Passed(findings), "%s", strings.Join(said(findings), "\n"))

	// Without the run, nobody can tell, and a rule that cannot be told is not passed.
	_, findings = planned(t, strings.Replace(small, `run     = "25 m"`, "", 1), assign.Plan)
	assert.False(t, codes.Passed(findings))
}

// The invented site beside the tests is planned without a violation.
func TestTheInventedGreenhouse(t *testing.T) {
	text, err := os.ReadFile("../../testdata/canada/greenhouse-347.toml")
	require.NoError(t, err)
	plan, findings := planned(t, string(text), assign.Plan)
	assert.Empty(t, plan.Unfed)
	assert.True(t, codes.Passed(findings), "%s", strings.Join(said(findings), "\n"))
	assert.Len(t, feeding(plan, "toplight"), 15, "75 luminaires of 3.03 A, five to a circuit")
	for _, c := range plan.Circuits {
		assert.LessOrEqual(t, float64(c.Drop.Or(1)), 0.03, c.Name)
	}
}

// What stands in a wall is judged by the Canadian rules: a motor given by its
// horsepower has no current here, a 15 A receptacle is not connected to 20 A.
func TestCircuitsInTheWall(t *testing.T) {
	_, findings := planned(t, `
[site]
name = "shop"
use  = "commercial"
code = "cec-2024"

[panels.LP1]
system = "120/240 V 1ph"
main   = "100 A"
spaces = 12

[rooms.shop]
panel = "LP1"
run   = "5 m"

[equipment.pump]
kind = "pump"
room = "shop"
hp = "1 hp"
voltage = "240 V"
wired = true

[fans.fan]
room = "shop"
count = 2
power = "100 W"
power_factor = 0.7
voltage = "120 V"
plug = true

[circuits.LP1-1]
panel   = "LP1"
spaces  = [1, 3]
breaker = "15 A"
conductor = "14 AWG copper NMD90"
ground  = "14 AWG copper"
feeds   = { "pump" = 1 }

[circuits.LP1-5]
panel   = "LP1"
spaces  = [5]
breaker = "20 A"
conductor = "12 AWG copper NMD90"
ground  = "14 AWG copper"
receptacle = "5-15"
feeds   = { "fan" = 2 }
`, assign.AsBuilt)
	rules := map[string]codes.State{}
	for _, f := range findings {
		if f.Severity == codes.Violation {
			for _, id := range append([]string{f.Rule}, f.Also...) {
				rules[id] = f.State
			}
		}
	}
	assert.Equal(t, map[string]codes.State{"load-current": codes.CannotTell, "voltage-drop-branch": codes.CannotTell,
		"continuous-load": codes.CannotTell, "conductor-ampacity": codes.CannotTell, "panel-main": codes.CannotTell,
		"outlet-count": codes.CannotTell, "receptacle-rating": codes.Broken}, rules, "%s", strings.Join(said(findings), "\n"))
}
