package assign_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// What was planned, written into the file as built, breaks nothing that the plan
// did not.
func TestAPlanWrittenAsBuiltIsJudgedTheSame(t *testing.T) {
	p := profile()
	texts(t, func(name string, src []byte) {
		inv := taken(t, name, src)
		planned := plan(t, inv)
		before := broken(judge.Plan(inv, build(inv, p), p, &planned))

		out, err := inventory.Rewrite(src, circuits.Adopt(planned))
		require.NoError(t, err, name)
		inv = taken(t, name, out)
		set := build(inv, p)
		built, err := assign.AsBuilt(inv, set, p)
		require.NoError(t, err)
		assert.Empty(t, verify.Plan(inv, set, p, built))
		assert.Equal(t, len(planned.Circuits), len(built.Circuits), name)
		assert.Empty(t, built.Unfed, name)
		assert.Subset(t, before, broken(judge.Plan(inv, set, p, &built)), name)
	})
}

func broken(list []codes.Finding) []string {
	out := []string{}
	for _, f := range list {
		if f.Severity == codes.Violation {
			out = append(out, f.Rule+" "+f.Subject)
		}
	}
	return out
}

// Nine lights of 2.72 A: five and four on two circuits in the wall with room for
// five each; a tenth goes where there is room, an eleventh takes a new circuit.
func TestPlanFillsWhatExistsFirst(t *testing.T) {
	feeds := func(n int) []inventory.Fed { return []inventory.Fed{{Item: "bar", Count: n}} }
	at := func(name string, spaces []int, n int) inventory.Circuit {
		c := wired(name, spaces[0], 20, "12 AWG", feeds(n)...)
		c.Spaces, c.Receptacle = spaces, units.Unknown[string]("")
		return c
	}
	site := func(n int, reuse bool) circuits.Plan {
		inv := room(t, "120/240 V 1ph", bars(n, 640, 0.98))
		inv.Plan.Voltage, inv.Plan.Reuse = units.Is(240*units.Volt), units.Is(reuse)
		inv.Circuits = []inventory.Circuit{at("LP1-1", []int{1, 3}, 5), at("LP1-2", []int{2, 4}, 4)}
		return plan(t, inv)
	}
	p := site(10, true)
	require.Len(t, p.Circuits, 2)
	assert.True(t, p.Circuits[1].Changed)
	assert.False(t, p.Circuits[0].Changed)
	assert.Equal(t, []int{5, 1}, []int{p.Circuits[1].Loads[0].Count, p.Circuits[1].Loads[0].Added})
	assert.Equal(t, []int{2, 4}, p.Circuits[1].Spaces)
	p = site(11, true)
	require.Len(t, p.Circuits, 3)
	assert.True(t, p.Circuits[1].Changed && !p.Circuits[2].Existing)
	assert.Len(t, site(10, false).Circuits, 3, "unless the file says so, what exists stays as it is")
}

// A transformer that a plan chose is written with its feeder, so that the device
// ahead of it is judged against the one it was chosen for.
func TestAPlannedTransformerIsWritten(t *testing.T) {
	src := []byte("[site]\nname = \"a\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"480Y/277 V 3ph\"\nmain = \"400 A\"\nspaces = 42\n" +
		"[panels.LP2]\nsystem = \"208Y/120 V 3ph\"\nmain = \"100 A\"\nspaces = 42\nfed_by = \"LP1\"\nmeasured_peak = { peak = \"9 A\", months = 12 }\n" +
		"[rooms.r]\npanel = \"LP2\"\n[equipment.heater]\nkind = \"heater\"\nroom = \"r\"\nvoltage = \"208 V\"\nphases = 3\npower = \"9 kW\"\nwired = true\n")
	inv := taken(t, "a.toml", src)
	planned := plan(t, inv)
	rating := planned.Panels[1].Feeder.Transformer.Rating
	out, err := inventory.Rewrite(src, circuits.Adopt(planned))
	require.NoError(t, err)
	inv = taken(t, "a.toml", out)
	p := profile()
	built, err := assign.AsBuilt(inv, build(inv, p), p)
	require.NoError(t, err)
	tr := built.Panels[1].Feeder.Transformer
	assert.True(t, tr.Given)
	assert.Equal(t, rating, tr.Rating)
}
