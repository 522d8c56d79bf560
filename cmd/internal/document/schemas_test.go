package document

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/invopop/jsonschema"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
)

// answers is the struct behind each schema.
func answers() map[string]any {
	return map[string]any{
		"plan": Plan{}, "add": Add{}, "diff": Diff{}, "heat": Heat{}, "day": Day{}, "amps": Amps{}, "explain": Explanation{}, "report": Report{},
		"tables": Tables{}, "table": Table{}, "rules": Rules{}, "rule": Rule{}, "evidence": Evidence{}, "evidence-cases": EvidenceCases{},
	}
}

// TestSchemasAreThoseOfTheStructs compares the embedded files with what the
// structs say; BRANCHWORK_UPDATE=1 writes them anew.
func TestSchemasAreThoseOfTheStructs(t *testing.T) {
	require.Len(t, SchemaNames(), len(answers()))
	for _, name := range SchemaNames() {
		t.Run(name, func(t *testing.T) {
			want := generate(t, name, answers()[name])
			if outside.Updating() {
				require.NoError(t, os.WriteFile(filepath.Join("schema", name+".json"), want, 0o644))
				return
			}
			got, ok := Schema(name)
			require.True(t, ok)
			require.Equal(t, string(want), string(got), "BRANCHWORK_UPDATE=1 go test ./cmd/internal/document")
		})
	}
}

func generate(t *testing.T, name string, answer any) []byte {
	r := jsonschema.Reflector{
		Anonymous: true,
		// Keys may be added to a schema, so a reader must not refuse them.
		AllowAdditionalProperties: true,
		ExpandedStruct:            true,
		Mapper: func(t reflect.Type) *jsonschema.Schema {
			if t == reflect.TypeFor[Receptacle]() {
				return &jsonschema.Schema{OneOf: []*jsonschema.Schema{{Type: "string"}, {Type: "null"}}}
			}
			return nil
		},
	}
	s := r.Reflect(answer)
	s.Title = "branchwork " + name
	s.Description = "A key is absent where it has no meaning and null where its value is not known. Keys may be added, never changed or removed."
	b, err := json.MarshalIndent(s, "", "  ")
	require.NoError(t, err)
	return append(b, '\n')
}

func TestNoSchemaOutsideTheFolder(t *testing.T) {
	for _, name := range []string{"", "../plan", `..\plan`, "PLAN", "nothing"} {
		_, ok := Schema(name)
		require.False(t, ok, name)
	}
}
