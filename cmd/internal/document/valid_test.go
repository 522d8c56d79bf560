package document

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
)

func check(t *testing.T, name string, answer any) error {
	raw, ok := Schema(name)
	require.True(t, ok)
	schema, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("s.json", schema))
	compiled, err := c.Compile("s.json")
	require.NoError(t, err)
	b, err := json.Marshal(answer)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	require.NoError(t, err)
	return compiled.Validate(doc)
}

func TestWhatIsBuiltMeetsItsSchema(t *testing.T) {
	r := sampleResults(t)
	require.NoError(t, check(t, "plan", NewPlan(r)))
	require.NoError(t, check(t, "explain", NewExplanation(r)))
	require.NoError(t, check(t, "heat", NewHeat(r, true)))
	require.NoError(t, check(t, "tables", NewTables(r.Profile)))
	require.NoError(t, check(t, "rules", NewRules(r.Profile)))
	require.NoError(t, check(t, "evidence", NewEvidence(r.Profile)))
}

func TestASchemaRefusesWhatItMust(t *testing.T) {
	for why, spoil := range map[string]func(map[string]any){
		"a key that is missing":       func(m map[string]any) { delete(m, "circuits") },
		"another schema":              func(m map[string]any) { m["schema"] = "branchwork/plan/2" },
		"null where nothing may be":   func(m map[string]any) { m["site"] = nil },
		"a text where a number is":    func(m map[string]any) { m["circuits"].([]any)[0].(map[string]any)["load_amps"] = "13.6 A" },
		"a severity that is none":     func(m map[string]any) { m["findings"].([]any)[0].(map[string]any)["severity"] = "bad" },
		"an exit status that is none": func(m map[string]any) { m["verdict"].(map[string]any)["exit_status"] = 7 },
	} {
		m := printed(t, NewPlan(sampleResults(t)))
		spoil(m)
		require.Error(t, check(t, "plan", m), why)
	}
	more := printed(t, NewPlan(sampleResults(t)))
	more["added_later"] = 1
	require.NoError(t, check(t, "plan", more), "keys may be added")
}
