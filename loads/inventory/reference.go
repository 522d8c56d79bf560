package inventory

import (
	"fmt"
	"strings"
)

// Reference returns every table and key as markdown, made from the schema.
func Reference() string {
	var b strings.Builder
	b.WriteString("# Keys of the inventory\n\nKeys in bold are required.\n")
	for _, t := range Schema() {
		fmt.Fprintf(&b, "\n## [%s]: %s\n\n", dotted(t, "NAME"), t.Help)
		b.WriteString("| key | what it means | written as | example | where it is left out |\n|---|---|---|---|---|\n")
		referenceKeys(&b, "", t.Keys)
	}
	return b.String()
}

func referenceKeys(b *strings.Builder, above string, keys []Key) {
	for _, k := range keys {
		name := "`" + above + k.Name + "`"
		if k.Required {
			name = "**" + name + "**"
		}
		form := k.Form
		if len(k.Words) > 0 && !strings.Contains(form, `"`) {
			form += ": " + quoted(k.Words)
		}
		fmt.Fprintf(b, "| %s | %s | %s | `%s` | %s |\n", name, k.Help, form, k.Example, k.Default)
		referenceKeys(b, above+k.Name+".", k.Keys)
	}
}
