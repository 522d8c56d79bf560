package inventory

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// compiled is the schema as a validator has it that knows nothing of ours.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	raw, err := JSONSchema(testWords())
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(raw)))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("inventory.json", doc))
	s, err := c.Compile("inventory.json")
	require.NoError(t, err)
	return s
}

// asJSON turns decoded TOML into what a JSON decoder would have made.
func asJSON(v any) any {
	switch x := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, e := range x {
			out[k] = asJSON(e)
		}
		return out
	case []map[string]any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = asJSON(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = asJSON(e)
		}
		return out
	case time.Time:
		return x.Format(time.RFC3339)
	}
	return v
}

func valuesOf(src string) (any, error) {
	var v map[string]any
	_, err := toml.Decode(src, &v)
	return asJSON(v), err
}

// What the reader takes the schema takes: every inventory of the project, the starter
// with all its keys in use, and the example of every key.
func TestTheSchemaTakesWhatTheReaderTakes(t *testing.T) {
	s := compiled(t)
	tried := 0
	require.NoError(t, filepath.WalkDir("../../testdata", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".toml" || strings.Contains(path, "/published/") || strings.Contains(path, "/broken/") {
			return err
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if _, problems := Read(path, src, Vocabulary{}); len(problems) > 0 {
			return nil
		}
		tried++
		v, err := valuesOf(string(src))
		require.NoError(t, err, path)
		assert.NoError(t, s.Validate(v), path)
		return nil
	}))
	require.Greater(t, tried, 150)
}

func TestTheSchemaTakesEveryExample(t *testing.T) {
	s := compiled(t)
	for _, table := range Schema() {
		head := "[" + dotted(table, "x") + "]\n"
		for _, k := range table.Keys {
			src := head + k.Name + " = " + k.Example + "\n"
			for _, r := range table.Keys {
				if r.Required && r.Name != k.Name {
					src += r.Name + " = " + r.Example + "\n"
				}
			}
			if table.Name != "site" {
				src = "[site]\nname = \"A\"\nuse = \"dwelling\"\n" + src
			}
			v, err := valuesOf(src)
			require.NoError(t, err, src)
			assert.NoError(t, s.Validate(v), src)
		}
	}
}

// beyond are the broken files whose mistake lies between values, which only the
// reader can tell.
func beyond() []string {
	return strings.Fields(`
		current-without-one-voltage feeder-without-a-source feeders-in-a-circle feeds-more-than-there-are
		keys-against-each-other listed-twice missing-power one-name-for-two-items reference-to-nothing
		reference-with-none-there spaces-not-adjacent spaces-taken-twice three-phases-from-one too-many-in-all
		voltage-not-supplied window-of-no-length`)
}

// Every other broken file that is TOML at all is refused by the schema too.
func TestTheSchemaRefusesBrokenFiles(t *testing.T) {
	s := compiled(t)
	files, err := filepath.Glob(brokenFolder + "/*.toml")
	require.NoError(t, err)
	refused := 0
	for _, path := range files {
		src, err := os.ReadFile(path)
		require.NoError(t, err)
		v, err := valuesOf(strings.TrimPrefix(string(src), "\ufeff"))
		if err != nil {
			continue // no TOML: an editor says so without a schema
		}
		name := strings.TrimSuffix(filepath.Base(path), ".toml")
		if slices.Contains(beyond(), name) {
			assert.NoError(t, s.Validate(v), "%s: a schema can tell it after all", name)
			continue
		}
		refused++
		assert.Error(t, s.Validate(v), "%s", name)
	}
	require.Greater(t, refused, 25)
}

func TestTheSchemaIsTheSameEveryTime(t *testing.T) {
	first, err := JSONSchema(testWords())
	require.NoError(t, err)
	for range 5 {
		again, err := JSONSchema(testWords())
		require.NoError(t, err)
		require.Equal(t, string(first), string(again))
	}
}
