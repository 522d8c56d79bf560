package html

import (
	"html/template"
	"strings"

	"branchwork/cmd/internal/render/page"
)

// liveFunctions let the template see the blocks of a page of words as they are.
func liveFunctions() template.FuncMap {
	return template.FuncMap{"plain": page.Printable, "kind": kindOf, "grid": gridOf, "chart": func(c page.Chart) string { return strings.Join(c.Plain(chartWidth), "\n") },
		"after": func(whole, lead string) string { return strings.TrimPrefix(whole, lead) }}
}

// chartWidth is how many characters a chart of digits may be wide.
const chartWidth = 72

func kindOf(b page.Block) string {
	switch x := b.(type) {
	case page.Heading:
		return "heading"
	case page.Text:
		return "text"
	case page.Fields:
		return "fields"
	case page.List:
		return "list"
	case page.Finding:
		return "finding"
	case page.Chart:
		return "chart"
	case page.Table:
		if !x.DataOnly && len(x.Rows) > 0 {
			return "table"
		}
	}
	return ""
}

// grid is a table as its reader sees it.
type grid struct {
	Heads []gridHead
	Rows  [][]string
}

type gridHead struct {
	Name, Unit string
	Num        bool
}

// Label is a column's name where a row stands alone.
func (h gridHead) Label() string { return strings.TrimSpace(h.Name + " " + h.Unit) }

func gridOf(t page.Table) grid {
	columns, rows := t.Readable()
	numeric := page.Numeric(columns, rows)
	var g grid
	for i, c := range columns {
		g.Heads = append(g.Heads, gridHead{c.Name, c.Unit, numeric[i]})
	}
	for _, r := range rows {
		var shown []string
		for _, c := range r {
			shown = append(shown, c.Shown())
		}
		g.Rows = append(g.Rows, shown)
	}
	return g
}
