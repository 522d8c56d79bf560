package document

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"branchwork/codes"
	"branchwork/loads/steps"
)

// EvidenceMemory is what a code profile holds that no source was read for.
type EvidenceMemory struct {
	RowCount int             `json:"row_count" jsonschema_description:"rows of tables"`
	OfRows   int             `json:"of_rows" jsonschema_description:"rows in all tables of the profile"`
	Tables   []EvidenceTable `json:"tables"`
	OfRules  int             `json:"of_rules" jsonschema_description:"rules of the profile"`
	Rules    []EvidenceRule  `json:"rules"`
	Values   []EvidenceValue `json:"values" jsonschema_description:"values of the profile outside tables and rules"`
}

// EvidenceTable is a table with the rows concerned.
type EvidenceTable struct {
	ID    string   `json:"id"`
	Title string   `json:"title"`
	Cite  string   `json:"cite"`
	Of    int      `json:"of" jsonschema_description:"rows of the table"`
	Rows  []string `json:"rows" jsonschema_description:"keys of the rows"`
}

// EvidenceRule is a rule with the clauses concerned.
type EvidenceRule struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Clauses []string `json:"clauses"`
}

// EvidenceValue is a value of the profile with its clause.
type EvidenceValue struct {
	Name   string `json:"name"`
	Clause string `json:"clause"`
}

// restsOn lists what a profile has by one way of knowing.
func restsOn(p *codes.Profile, how steps.How) EvidenceMemory {
	m := EvidenceMemory{Tables: []EvidenceTable{}, Rules: []EvidenceRule{}, Values: []EvidenceValue{}}
	for _, t := range p.Tables {
		t = t.In(p.Edition)
		out := EvidenceTable{ID: t.ID, Title: t.Title, Cite: t.Cite(p.Edition, "").String(), Of: len(t.Rows)}
		m.OfRows += len(t.Rows)
		for _, r := range t.Rows {
			if r.How == how {
				out.Rows = append(out.Rows, r.Key)
			}
		}
		if len(out.Rows) > 0 {
			m.Tables = append(m.Tables, out)
			m.RowCount += len(out.Rows)
		}
	}
	for _, r := range p.Rules {
		cites, ok := r.In(p.Edition)
		if !ok {
			continue
		}
		m.OfRules++
		out := EvidenceRule{ID: r.ID, Title: r.Title}
		for _, c := range cites {
			if c.How == how {
				out.Clauses = append(out.Clauses, clauseOf(c))
			}
		}
		if len(out.Clauses) > 0 {
			m.Rules = append(m.Rules, out)
		}
	}
	v := reflect.ValueOf(*p)
	for i := range v.NumField() {
		if name := v.Type().Field(i).Name; name != "Tables" && name != "Rules" {
			values(v.Field(i), name, func(name string, c steps.Cite) {
				x := EvidenceValue{spoken(name), clauseOf(c)}
				if c.How == how && !slices.Contains(m.Values, x) {
					m.Values = append(m.Values, x)
				}
			})
		}
	}
	return m
}

// clauseOf is a clause without the mark of memory, which the list as a whole has.
func clauseOf(c steps.Cite) string { return strings.TrimSuffix(c.String(), " (from memory)") }

// values visits every clause that a part of a profile holds, with the way to it.
func values(v reflect.Value, name string, visit func(string, steps.Cite)) {
	switch v.Kind() {
	case reflect.Struct:
		if c, ok := v.Interface().(steps.Cite); ok {
			visit(strings.TrimSuffix(strings.TrimSuffix(name, "Cite"), " "), c)
			return
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				values(v.Field(i), name+" "+f.Name, visit)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			values(v.Index(i), name, visit)
		}
	}
}

// spoken writes the way to a value as words: "Transformers PrimaryCite" as
// "transformers primary".
func spoken(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 && name[i-1] != ' ' {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return strings.TrimSpace(b.String())
}

// gaps says what nothing outside the project verifies.
func (d *Evidence) gaps(e evidence) {
	for _, s := range e.subjects {
		for _, u := range s.Unchecked {
			d.NotVerified = append(d.NotVerified, s.Name+": "+u)
		}
	}
	d.NotVerified = append(d.NotVerified,
		fmt.Sprintf("how each of the %d rules judges: inventories of our own, with one fault each, show that a rule finds its fault and nothing else", d.Memory.OfRules),
		"lengths of runs over a floor plan, lists of materials and drawings: tests of our own",
		"what the file says: a wrong inventory gives a wrong plan")
}
