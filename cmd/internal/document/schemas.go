package document

import (
	"embed"
	"strings"
)

// schemas are generated from the structs of this package; see schemas_test.go.
//
//go:embed schema/*.json
var schemas embed.FS

// SchemaNames returns the answers that have a JSON Schema.
func SchemaNames() []string {
	return []string{"plan", "add", "diff", "heat", "day", "amps", "explain", "report", "tables", "table", "rules", "rule", "evidence", "evidence-cases"}
}

// Schema returns the JSON Schema, draft 2020-12, of an answer.
func Schema(name string) ([]byte, bool) {
	if strings.ContainsAny(name, `/\`) {
		return nil, false
	}
	b, err := schemas.ReadFile("schema/" + name + ".json")
	return b, err == nil
}
