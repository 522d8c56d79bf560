package page

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Tables lays out the list of a profile's tables.
func Tables(d document.Tables) Page {
	var p Page
	t := Table{ID: "tables", Columns: []Column{{Name: "name"}, {Name: "title", Part: 1}, {Name: "stands in", Part: 2},
		{Name: "rows", Part: 2}, {Name: "how checked", Part: 2}}}
	for _, x := range d.Tables {
		t.Rows = append(t.Rows, []Cell{text(x.ID), text(x.Title), text(x.Cite), whole(x.RowCount), text(how(x))})
	}
	p.add(Heading{1, "Tables of " + d.CodeTitle}, t)
	return p
}

// how says how the rows of a table were checked, and of which other edition their
// sources are.
func how(t document.TableSummary) string {
	names := make([]string, 0, len(t.Checked))
	for n := range t.Checked {
		names = append(names, n)
	}
	sort.Strings(names)
	for i, n := range names {
		names[i] = fmt.Sprintf("%d %s", t.Checked[n], n)
	}
	out := strings.Join(names, ", ")
	if len(t.Shown) > 0 {
		out += "; edition shown: " + strings.Join(t.Shown, ", ") + ", taken as unchanged"
	}
	return out
}

func rowChecked(r document.TableRow) string {
	if r.Shown != "" {
		return r.Checked + " (" + r.Shown + ")"
	}
	return r.Checked
}

// OneTable lays out one table with the provenance of each row.
func OneTable(d document.Table) Page {
	var p Page
	p.add(Heading{1, d.Title}, Fields{tableFields(d)})
	t := Table{ID: "rows", Columns: []Column{{Name: d.RowsAre}}}
	for _, c := range d.Columns {
		t.Columns = append(t.Columns, Column{Name: c.Name, Unit: c.Unit, Part: 1})
	}
	t.Columns = append(t.Columns, Column{Name: "checked", Part: 2}, Column{Name: "from", Part: 2}, Column{Name: "note", Part: 2})
	for _, r := range d.Rows {
		row := []Cell{text(r.Key)}
		for _, c := range r.Cells {
			row = append(row, tableCell(c))
		}
		t.Rows = append(t.Rows, append(row, text(rowChecked(r)), words(r.From), text(r.Note)))
	}
	p.add(t)
	if len(d.Sources) > 0 {
		p.add(Heading{2, "Sources"}, List{sourceLines(d.Sources)})
	}
	return p
}

// tableCell prints a table's value with the digits it has.
func tableCell(v any) Cell {
	switch x := v.(type) {
	case float64:
		s := units.Round(x, 6)
		_, frac, _ := strings.Cut(s, ".")
		return number(x, len(frac))
	case string:
		return text(x)
	}
	return text(none)
}

func tableFields(d document.Table) []Field {
	f := []Field{{"name", d.ID}, {"standard", d.Standard}}
	for _, x := range []Field{{"edition", d.Edition}, {"number", d.Number}, {"range", d.Range}, {"looked up", lookup(d.Lookup)}, {"rows", strconv.Itoa(d.RowCount)}, {"checked", how(d.TableSummary)}, {"note", d.Note}} {
		if x.Value != "" {
			f = append(f, x)
		}
	}
	return f
}

// lookup says how a value between two rows is taken.
func lookup(way string) string {
	switch way {
	case "next-up":
		return "between two rows the next one up counts"
	case "next-down":
		return "between two rows the next one down counts"
	}
	return "at a row alone, nothing between"
}

func sourceLines(all []document.Source) []string {
	lines := make([]string, len(all))
	for i, s := range all {
		lines[i] = s.Key + ": " + s.Title
		for _, more := range []string{s.By, s.URL, s.Note} {
			if more != "" {
				lines[i] += "; " + more
			}
		}
	}
	return lines
}

// Rules lays out the list of a profile's rules.
func Rules(d document.Rules) Page {
	var p Page
	t := Table{ID: "rules", Columns: []Column{{Name: "rule"}, {Name: "what must hold", Part: 1}, {Name: "severity", Part: 2}, {Name: "judges", Part: 2}, {Name: "clause", Part: 2}}}
	for _, r := range d.Rules {
		t.Rows = append(t.Rows, []Cell{text(r.ID), text(r.Title), text(r.Severity), text(r.Subject), text(r.Clause)})
	}
	p.add(Heading{1, "Rules of " + d.CodeTitle}, t)
	if len(d.NotCovered) > 0 {
		p.add(Heading{2, "Not covered"}, List{d.NotCovered})
	}
	return p
}

// OneRule lays out one rule with why it exists.
func OneRule(d document.Rule) Page {
	var p Page
	p.add(Heading{1, d.ID}, Text{Text: d.Title}, Text{Text: d.Why})
	f := []Field{{"severity", d.Severity}, {"judges", d.Subject}}
	if len(d.Needs) > 0 {
		f = append(f, Field{"needs to know", strings.Join(d.Needs, ", ")})
	}
	if len(d.Remedies) > 0 {
		f = append(f, Field{"remedies", strings.Join(d.Remedies, "; ")})
	}
	if d.Retired != "" {
		f = append(f, Field{"retired", d.Retired})
	}
	p.add(Fields{f})
	t := Table{ID: "clauses", Columns: []Column{{Name: "edition"}, {Name: "clause"}, {Name: "checked"}}}
	for _, c := range d.Clauses {
		edition := c.Edition
		if edition == "" {
			edition = "all"
		}
		t.Rows = append(t.Rows, []Cell{text(edition), text(c.At), text(c.Checked)})
	}
	p.add(t)
	return p
}
