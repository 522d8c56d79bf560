package codes

import (
	"fmt"
	"io/fs"
	"math"
	"slices"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Table is a table of a code or a standard with the provenance of each row.
type Table struct {
	ID      string            `toml:"id"`
	Title   string            `toml:"title"`
	Ref     string            `toml:"ref"` // key in references.toml
	At      map[string]string `toml:"at"`  // table number by edition; "" for all
	RowsAre string            `toml:"rows"`
	Columns []string          `toml:"columns"`
	Unit    string            `toml:"unit"`
	Units   []string          `toml:"units"`  // per column, where they differ
	Lookup  Lookup            `toml:"lookup"` // how a value between rows is taken
	Range   string            `toml:"range"`
	Note    string            `toml:"note"`
	Rows    []Row             `toml:"row"`
}

// Lookup is the direction in which a table may be read between its rows. No
// table of a code is interpolated.
type Lookup string

const (
	Exact    Lookup = "exact"     // the key must be there
	NextUp   Lookup = "next-up"   // the first row whose key is not below
	NextDown Lookup = "next-down" // the last row whose key is not above
)

// Row is one row: its key, a value per column and how the row was checked.
type Row struct {
	Key      string    `toml:"key"`
	Values   []float64 `toml:"values"` // nan where the table has none
	Text     []string  `toml:"text"`   // instead of values, where the cells are names
	How      steps.How `toml:"how"`
	From     []string  `toml:"from"`     // keys in references.toml; empty only for recalled
	Editions []string  `toml:"editions"` // empty: all
	Note     string    `toml:"note"`
}

// ReadTables reads every table file of a folder of an embedded file system. A
// file holds one table or several under [[table]]. A table that does not hold
// together is our own fault and is returned as an error for the start-up to
// stop on.
func ReadTables(files fs.FS) ([]Table, error) {
	names, err := fs.Glob(files, "*.toml")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	var out []Table
	for _, name := range names {
		var doc struct {
			Table []Table `toml:"table"`
		}
		md, err := toml.DecodeFS(files, name, &doc)
		if err == nil && len(md.Undecoded()) > 0 {
			err = fmt.Errorf("unknown key %s", md.Undecoded()[0])
		}
		for i := range doc.Table {
			if err == nil {
				err = doc.Table[i].check()
			}
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, doc.Table...)
	}
	ids := map[string]bool{}
	for _, t := range out {
		if ids[t.ID] {
			return nil, fmt.Errorf("table %q is there twice", t.ID)
		}
		ids[t.ID] = true
	}
	return out, nil
}

func (t Table) check() error {
	if t.ID == "" || t.Title == "" || t.Ref == "" || len(t.Columns) == 0 || t.Lookup == "" {
		return fmt.Errorf("table %q: id, title, ref, columns and lookup are needed", t.ID)
	}
	switch t.Lookup {
	case Exact, NextUp, NextDown:
	default:
		return fmt.Errorf("table %q: lookup %q is not exact, next-up or next-down; no table is interpolated", t.ID, t.Lookup)
	}
	if len(t.Rows) == 0 {
		return fmt.Errorf("table %q has no rows", t.ID)
	}
	for i, c := range t.Columns {
		if slices.Contains(t.Columns[:i], c) {
			return fmt.Errorf("table %q: column %q is there twice", t.ID, c)
		}
	}
	if _, ok := steps.Lookup(t.Ref); !ok {
		return fmt.Errorf("table %q: no reference %q", t.ID, t.Ref)
	}
	seen := map[string]bool{}
	for _, r := range t.Rows {
		key := r.Key + " " + strings.Join(r.Editions, " ")
		if r.Key == "" || seen[key] {
			return fmt.Errorf("table %q: row %q is empty or there twice", t.ID, r.Key)
		}
		seen[key] = true
		if len(r.Values)+len(r.Text) != len(t.Columns) {
			return fmt.Errorf("table %q, row %q: %d cells for %d columns", t.ID, r.Key, len(r.Values)+len(r.Text), len(t.Columns))
		}
		switch r.How {
		case steps.Seen, steps.Derived, steps.Practice:
			if len(r.From) == 0 {
				return fmt.Errorf("table %q, row %q: no source", t.ID, r.Key)
			}
		case steps.Recalled:
		default:
			return fmt.Errorf("table %q, row %q: how it was checked is missing", t.ID, r.Key)
		}
		for _, f := range r.From {
			if _, ok := steps.Lookup(f); !ok {
				return fmt.Errorf("table %q, row %q: no reference %q", t.ID, r.Key, f)
			}
		}
	}
	return nil
}

// Column returns the index of a column, -1 where there is none.
func (t Table) Column(name string) int {
	for i, c := range t.Columns {
		if c == name {
			return i
		}
	}
	return -1
}

// Value returns the value of a row by its exact key and a column by its name,
// with how it was checked. ok is false where the table has none.
func (t Table) Value(key, column string) (v float64, how steps.How, ok bool) {
	c := t.Column(column)
	if c < 0 {
		return 0, "", false
	}
	for _, r := range t.Rows {
		if r.Key == key && len(r.Values) > c && !math.IsNaN(r.Values[c]) {
			return r.Values[c], r.How, true
		}
	}
	return 0, "", false
}

// Cite returns the cite of the table in an edition, marked with how the row
// used was checked.
func (t Table) Cite(edition string, how steps.How) steps.Cite {
	at := t.At[edition]
	if at == "" {
		at = t.At["all"]
	}
	if strings.TrimSpace(at) == "" {
		edition = ""
	}
	return steps.Cite{Ref: t.Ref, Edition: edition, At: at, How: how}
}

// Keys returns the keys of the rows, in their order.
func (t Table) Keys() []string {
	out := make([]string, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = r.Key
	}
	return out
}

// Ratings returns the first column as currents in amperes, in the order of the rows.
func (t Table) Ratings() []units.Current {
	out := make([]units.Current, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = units.Current(r.Values[0])
	}
	return out
}

// In returns the table as it stands in an edition: rows of other editions left out.
func (t Table) In(edition string) Table {
	rows := t.Rows[:0:0]
	for _, r := range t.Rows {
		keep := len(r.Editions) == 0
		for _, e := range r.Editions {
			keep = keep || e == edition
		}
		if keep {
			rows = append(rows, r)
		}
	}
	t.Rows = rows
	return t
}

// TableSet is the tables of one edition by id.
type TableSet map[string]Table

// TablesIn returns the tables as they stand in an edition: by id, and in order.
func TablesIn(edition string, tables []Table) (TableSet, []Table) {
	set := TableSet{}
	list := make([]Table, len(tables))
	for i, t := range tables {
		list[i] = t.In(edition)
		set[t.ID] = list[i]
	}
	return set, list
}

// Get returns a table of the profile's own; it panics where there is none.
func (s TableSet) Get(id string) Table {
	t, ok := s[id]
	if !ok {
		panic("codes: no table " + id)
	}
	return t
}
