package document

import (
	"math"
	"slices"
	"sort"

	"branchwork/codes"
	"branchwork/loads/steps"
)

// Schemas of the answers of tables.
const (
	TablesSchema = "branchwork/tables/1"
	TableSchema  = "branchwork/table/1"
)

// Tables lists the tables of a code profile.
type Tables struct {
	Schema    string         `json:"schema" jsonschema:"enum=branchwork/tables/1"`
	Code      string         `json:"code"`
	CodeTitle string         `json:"code_title"`
	Tables    []TableSummary `json:"tables"`
}

// TableSummary is a table with where it comes from.
type TableSummary struct {
	ID       string         `json:"id"`
	Title    string         `json:"title"`
	Standard string         `json:"standard"`
	Edition  string         `json:"edition,omitempty"`
	Number   string         `json:"number,omitempty"`
	Cite     string         `json:"cite"`
	Range    string         `json:"range,omitempty"`
	RowCount int            `json:"row_count"`
	Checked  map[string]int `json:"checked" jsonschema_description:"rows by how they were checked"`
	Shown    []string       `json:"shown_editions,omitempty" jsonschema_description:"editions that the sources of rows show, where it is another one; the rows are taken as unchanged"`
}

// Table is one table with the provenance of each row.
type Table struct {
	Schema    string `json:"schema" jsonschema:"enum=branchwork/table/1"`
	Code      string `json:"code"`
	CodeTitle string `json:"code_title"`
	TableSummary
	RowsAre string     `json:"rows_are"`
	Columns []Column   `json:"columns"`
	Lookup  string     `json:"lookup"`
	Note    string     `json:"note,omitempty"`
	Rows    []TableRow `json:"rows"`
	Sources []Source   `json:"sources"`
}

// Column is a column with the unit of its cells.
type Column struct {
	Name string `json:"name"`
	Unit string `json:"unit,omitempty"`
}

// TableRow is a row; a cell is a number, a name, or null where the table has none.
type TableRow struct {
	Key     string   `json:"key"`
	Cells   []any    `json:"cells"`
	Checked string   `json:"checked"`
	From    []string `json:"from" jsonschema_description:"keys of sources"`
	Shown   string   `json:"shown_edition,omitempty" jsonschema_description:"edition that its sources show, where it is another one"`
	Note    string   `json:"note,omitempty"`
}

// Source is a source that a table or a rule cites.
type Source struct {
	Key   string `json:"key"`
	Title string `json:"title"`
	By    string `json:"by,omitempty"`
	URL   string `json:"url,omitempty"`
	Note  string `json:"note,omitempty"`
}

// NewTables returns the list of a profile's tables.
func NewTables(p *codes.Profile) Tables {
	d := Tables{Schema: TablesSchema, Code: p.Name, CodeTitle: p.Title, Tables: []TableSummary{}}
	for _, t := range p.Tables {
		d.Tables = append(d.Tables, tableSummary(t.In(p.Edition), p.Edition))
	}
	return d
}

func tableSummary(t codes.Table, edition string) TableSummary {
	cite := t.Cite(edition, "")
	s := TableSummary{ID: t.ID, Title: t.Title, Standard: t.Ref, Edition: cite.Edition, Number: cite.At, Cite: cite.String(), Range: t.Range, RowCount: len(t.Rows), Checked: map[string]int{}}
	if ref, ok := steps.Lookup(t.Ref); ok {
		s.Standard = ref.Title
	}
	for _, r := range t.Rows {
		s.Checked[r.How.String()]++
		if other := shown(r, edition); other != "" && !slices.Contains(s.Shown, other) {
			s.Shown = append(s.Shown, other)
		}
	}
	sort.Strings(s.Shown)
	return s
}

// shown is the edition that the sources of a row show where it is another one than
// the profile's; empty where one of them shows that, or does not say.
func shown(r codes.Row, edition string) string {
	other := ""
	if r.How != steps.Seen {
		return "" // what is not seen is not seen in any edition
	}
	for _, key := range r.From {
		ref, _ := steps.Lookup(key)
		if ref.Edition == "" || ref.Edition == edition {
			return ""
		}
		other = max(other, ref.Edition)
	}
	return other
}

// NewTable returns one table of a profile.
func NewTable(p *codes.Profile, t codes.Table) Table {
	t = t.In(p.Edition)
	d := Table{Schema: TableSchema, Code: p.Name, CodeTitle: p.Title, TableSummary: tableSummary(t, p.Edition),
		RowsAre: t.RowsAre, Columns: []Column{}, Lookup: string(t.Lookup), Note: t.Note, Rows: []TableRow{}}
	for i, name := range t.Columns {
		unit := t.Unit
		if i < len(t.Units) {
			unit = t.Units[i]
		}
		d.Columns = append(d.Columns, Column{Name: name, Unit: unit})
	}
	used := map[string]bool{}
	for _, r := range t.Rows {
		d.Rows = append(d.Rows, TableRow{Key: r.Key, Cells: cells(r), Checked: r.How.String(), From: list(r.From), Shown: shown(r, p.Edition), Note: r.Note})
		for _, f := range r.From {
			used[f] = true
		}
	}
	d.Sources = sources(used)
	return d
}

func cells(r codes.Row) []any {
	out := []any{}
	for _, v := range r.Values {
		if math.IsNaN(v) {
			out = append(out, nil)
		} else {
			out = append(out, v)
		}
	}
	for _, s := range r.Text {
		out = append(out, s)
	}
	return out
}

func sources(keys map[string]bool) []Source {
	out := []Source{}
	for k := range keys {
		if r, ok := steps.Lookup(k); ok {
			out = append(out, reference(r))
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Key < out[j].Key })
	return out
}

func reference(r steps.Reference) Source {
	return Source{Key: r.Key, Title: r.Title, By: r.By, URL: r.URL, Note: r.Note}
}
