package inventory

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"strings"

	"github.com/BurntSushi/toml"
)

// JSONSchema returns the JSON Schema, draft 7, of an inventory as editors use it:
// every table and key with its meaning, the words accepted and the form of each
// value. What it refuses Read refuses too; what hangs on other values, such as a
// name of another table, only Read can tell. words offers names of a code of
// practice.
func JSONSchema(words Vocabulary) ([]byte, error) {
	tables, required := schema{}, []string{}
	for _, t := range Schema() {
		s := tableSchema(t.Keys, words)
		if t.Named {
			s = schema{"type": "object", "additionalProperties": s, "propertyNames": schema{"pattern": `\S`, "maxLength": maxName}}
		}
		s["description"] = sentence(t.Help)
		tables[t.Name] = s
		if t.Required {
			required = append(required, t.Name)
		}
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(schema{
		"$schema":              "http://json-schema.org/draft-07/schema#",
		"title":                "branchwork inventory",
		"description":          "One file that describes a site: rooms, panels, what draws power, and the circuits that exist.",
		"type":                 "object",
		"properties":           tables,
		"required":             required,
		"additionalProperties": false,
	})
	return b.Bytes(), err
}

func tableSchema(keys []Key, words Vocabulary) schema {
	properties, required := schema{}, []string{}
	for _, k := range keys {
		s := maps.Clone(k.shape(words))
		s["description"] = describe(k)
		if x, ok := exampleOf(k); ok {
			s["examples"] = []any{x}
		}
		properties[k.Name] = s
		if k.Required {
			required = append(required, k.Name)
		}
	}
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	return s
}

// describe is what an editor shows of a key.
func describe(k Key) string {
	s := sentence(k.Help) + fmt.Sprintf(" Written as %s: %s = %s.", k.Form, k.Name, k.Example)
	if k.Default != "" {
		s += " Left out: " + k.Default + "."
	}
	return s
}

func sentence(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

// exampleOf is a key's example as a value. A bare date has no form in JSON.
func exampleOf(k Key) (any, bool) {
	var m map[string]any
	if _, err := toml.Decode("x = "+k.Example, &m); err != nil {
		return nil, false
	}
	switch m["x"].(type) {
	case string, int64, float64, bool, []any, map[string]any:
		return m["x"], true
	}
	return nil, false
}
