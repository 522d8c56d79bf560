package verify_test

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
)

// sites calls run for every invented site of testdata.
func sites(t *testing.T, run func(t *testing.T, name string, text []byte)) {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 6)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		t.Run(strings.TrimSuffix(filepath.Base(f), ".toml"), func(t *testing.T) { run(t, filepath.Base(f), text) })
	}
}

func TestPlansOfAllSitesHoldByAnotherRoad(t *testing.T) {
	sites(t, func(t *testing.T, name string, text []byte) {
		s := planOf(t, name, text)
		assert.Empty(t, s.complaints())
		assert.NotEmpty(t, s.plan.Circuits)
	})
}

func TestSitesAsTheyAreHoldByAnotherRoad(t *testing.T) {
	sites(t, func(t *testing.T, name string, text []byte) {
		s := read(t, name, text)
		var err error
		s.plan, err = assign.AsBuilt(s.inv, s.set, profile())
		require.NoError(t, err)
		assert.Empty(t, s.complaints())
		assert.Len(t, s.plan.Circuits, len(s.inv.Circuits), "nothing is planned")
	})
}

// reversed turns the order of a file's tables round and leaves what stands
// before the first of them.
func reversed(text []byte) []byte {
	parts := strings.Split(string(text), "\n[")
	head, tables := parts[0], parts[1:]
	slices.Reverse(tables)
	return []byte(strings.Join(append([]string{head}, tables...), "\n["))
}

// Nothing that is planned may depend on the order in which a file lists things.
func TestOrderOfTablesChangesNothing(t *testing.T) {
	sites(t, func(t *testing.T, name string, text []byte) {
		other := reversed(text)
		require.Len(t, other, len(text))
		require.NotEqual(t, text, other)
		a, b := planOf(t, name, text).plan, planOf(t, name, other).plan
		require.Equal(t, len(a.Circuits), len(b.Circuits))
		for i := range a.Circuits {
			assert.True(t, reflect.DeepEqual(a.Circuits[i], b.Circuits[i]), "circuit %s against %s", a.Circuits[i].Name, b.Circuits[i].Name)
		}
		for i := range a.Panels {
			assert.True(t, reflect.DeepEqual(a.Panels[i], b.Panels[i]), "panel %s", a.Panels[i].Name)
		}
		assert.Equal(t, a.Unfed, b.Unfed)
		assert.Equal(t, a.Assumptions, b.Assumptions)
		assert.Equal(t, a.Optimality, b.Optimality)
		assert.Equal(t, a.Choices, b.Choices)
		assert.True(t, reflect.DeepEqual(a, b), "the whole plan")
	})
}
