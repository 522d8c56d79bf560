package codes_test

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/published"
)

// runner is a test that runs published cases: all of a file, those with an input
// or an expectation of some name, or those it names.
type runner struct {
	test        string // package and function
	all         bool
	in, want    string // keys, separated by spaces
	ids         string // separated by spaces
	notComputed string // instead of a test: why no code of ours answers the ids
}

// runners tells for each file of cases who runs its rows.
func runners() map[string][]runner {
	whole := func(test string) []runner { return []runner{{test: test, all: true}} }
	return map[string][]runner{
		"air.toml":        whole("loads/air TestPublishedValuesOfMoistAir"),
		"heat.toml":       whole("loads/heat TestPublishedExamplesOfHeat"),
		"currents.toml":   whole("loads TestPublishedCurrentsOfOneFixture"),
		"threephase.toml": whole("circuits/panel TestPublishedLineAndNeutralCurrents"),
		"conduit.toml":    whole("circuits/conductor TestPublishedRaceways"),
		"derating.toml":   whole("circuits/conductor TestPublishedDerating"),
		"drop.toml":       whole("circuits/conductor TestPublishedDrop"),
		"grounding.toml":  whole("circuits/conductor TestPublishedGrounding"),
		"cec.toml":        whole("codes/cec TestPublishedExamples"),
		"bills.toml":      whole("loads/day TestPublishedBills"),
		"capacity.toml": {
			{test: "codes/nec TestPublishedCapacities", all: true},
			{test: "circuits/assign TestPublishedCapacitiesDecideCircuits", all: true},
		},
		"conductors.toml": {
			{test: "circuits/conductor TestPublishedConductors", all: true},
			{test: "circuits/assign TestPublishedBranchCircuits", ids: "F06 F07 F08"},
			{test: "circuits/assign TestPublishedLightingBesideFastenedEquipment", ids: "F09"},
		},
		"motors.toml": {
			{test: "circuits/conductor TestPublishedMotors", all: true},
			{test: "circuits/assign TestPublishedMotorCircuits", ids: "F22 F23-60 F23-75 F23-breaker F26b F26c"},
			{test: "circuits/assign TestPublishedMotorConductorInAHotPlace", ids: "F26a"},
		},
		"assignment.toml": {
			{test: "circuits/assign TestPublishedFixturesPerCircuit", want: "fit"},
			{test: "circuits/assign TestPublishedCircuitsOfWholeFixtures", want: "circuits"},
			{test: "circuits/assign TestPublishedFixturesAt208AreNotThoseAt240", ids: "fit-208-for-240"},
			{test: "circuits/panel TestPublishedLegsOfSpaces", ids: "F42-24 F42-11 F42-17"},
		},
		"loadcalc.toml": {
			{test: "circuits/conductor TestPublishedFeeders", in: "continuous_va required_va load_va size"},
			{test: "circuits/assign TestPublishedStoreFeeder", ids: "D3-total D3-feeder"},
			{test: "circuits/assign TestPublishedNoncoincidentLoads", ids: "F26e"},
			{test: "loads TestPublishedLoadsTurnIntoAmperes", ids: "D1a-amps D1a-neutral D2a-amps D2a-neutral D2b-amps"},
			{notComputed: "demand factors of dwellings and receptacles are never applied to grow equipment", ids: "D1a D2a D2b D3-other"},
		},
	}
}

// takes reports whether a runner takes a case.
func (r runner) takes(c published.Case) bool {
	has := func(keys string, v *published.Values) bool { return slices.ContainsFunc(strings.Fields(keys), v.Has) }
	return r.all || has(r.in, c.In) || has(r.want, c.Want) || slices.Contains(strings.Fields(r.ids), c.ID)
}

// sourceOf returns the text of the test file that declares a runner's function.
func (r runner) sourceOf(t *testing.T) string {
	dir, name, ok := strings.Cut(r.test, " ")
	require.True(t, ok, r.test)
	files, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(dir), "*_test.go"))
	require.NoError(t, err)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		if strings.Contains(string(text), "func "+name+"(") {
			return string(text)
		}
	}
	require.Fail(t, "no such test", r.test)
	return ""
}

// No row of testdata/published may lie there unseen: each is run by a test, or
// named with the reason why none can.
func TestEveryPublishedRowIsRunByATest(t *testing.T) {
	files := os.DirFS("../testdata/published")
	names, err := published.Names(files)
	require.NoError(t, err)
	list := runners()
	for _, file := range names {
		require.NotEmpty(t, list[file], "%s: a file of cases that no test runs", file)
		cases, err := published.Load(files, file)
		require.NoError(t, err)
		for _, c := range cases {
			computed, not := 0, 0
			for _, r := range list[file] {
				switch {
				case !r.takes(c):
				case r.test == "":
					not++
				default:
					computed++
				}
			}
			assert.True(t, computed > 0 || not == 1, "%s, case %s: run by no test: %s", file, c.ID, c.Says)
			assert.False(t, computed > 0 && not > 0, "%s, case %s: run by a test and said not to be", file, c.ID)
		}
	}
	assert.Len(t, list, len(names), "files that are not there")
}

// A runner does what is said of it: it exists, opens the file, and picks rows by
// the keys and names given here.
func TestRunnersOfPublishedRowsPickWhatIsSaid(t *testing.T) {
	files := os.DirFS("../testdata/published")
	for file, list := range runners() {
		cases, err := published.Load(files, file)
		require.NoError(t, err)
		for _, r := range list {
			for _, id := range strings.Fields(r.ids) {
				assert.True(t, slices.ContainsFunc(cases, func(c published.Case) bool { return c.ID == id }), "%s has no case %s", file, id)
			}
			if r.test == "" {
				assert.NotEmpty(t, r.notComputed)
				continue
			}
			source := r.sourceOf(t)
			assert.Contains(t, source, strconv.Quote(file), r.test)
			for _, literal := range strings.Fields(r.ids + " " + r.in + " " + r.want) {
				assert.Contains(t, source, strconv.Quote(literal), "%s does not name it", r.test)
			}
		}
	}
}

// What the page of evidence says was computed is of cases that are there, written
// by tests that are there, and leaves out no case that a test runs.
func TestWhatIsWrittenDownIsOfTheCasesThatTestsRun(t *testing.T) {
	files := os.DirFS("../testdata/published")
	figures, err := published.Figures(files, published.Measured)
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, f := range figures {
		seen[f.File+" "+f.Case] = true
		require.True(t, slices.ContainsFunc(runners()[f.File], func(r runner) bool { return r.test == f.Test }), "%s is written down of %s", f.Test, f.File)
	}
	for file, list := range runners() {
		cases, err := published.Load(files, file)
		require.NoError(t, err)
		for _, c := range cases {
			run := slices.ContainsFunc(list, func(r runner) bool { return r.test != "" && r.takes(c) })
			assert.Equal(t, run, seen[file+" "+c.ID], "%s, case %s: run by a test, and written down", file, c.ID)
			delete(seen, file+" "+c.ID)
		}
	}
	assert.Empty(t, seen, "figures of cases that are not there")
	compared, err := published.Comparisons(files, published.Compared)
	require.NoError(t, err)
	for _, c := range compared {
		dir, name, _ := strings.Cut(c.Test, " ")
		name, _, _ = strings.Cut(name, "/") // of a tool
		runner{test: dir + " " + name}.sourceOf(t)
	}
}

// The worked examples that were collected for the American code, by the number
// they are known by here. Each has a row, or several that begin with it.
const examples = "F01 F02 F03 F04 F06 F07 F08 F09 F10 F12 F13 F14 F15 F16 F17 F18 F19 F20 F22 F23 F24 F26a F26b F26c F26d F26e " +
	"F27a F27b F28a F28b F29 F30 F31 F31b F32 F34 F35 F37 F38 F40 F41 F42 D1a D2a D2b D3 D3a"

func TestEveryCollectedExampleHasARow(t *testing.T) {
	files := os.DirFS("../testdata/published")
	names, err := published.Names(files)
	require.NoError(t, err)
	var ids []string
	for _, file := range names {
		if file == "cec.toml" || file == "bills.toml" { // numbered by themselves
			continue
		}
		cases, err := published.Load(files, file)
		require.NoError(t, err)
		for _, c := range cases {
			ids = append(ids, c.ID)
		}
	}
	for _, example := range strings.Fields(examples) {
		assert.True(t, slices.ContainsFunc(ids, func(id string) bool { return id == example || strings.HasPrefix(id, example+"-") }), "no row of %s", example)
	}
}
