// Package csv prints the tables of a page as comma-separated values.
//
// Each record begins with the name of its table; each table begins with a record
// whose first field is "table" and whose other fields are the headings. All
// records have the same number of fields, so that any reader takes the file.
package csv

import (
	"encoding/csv"
	"io"
	"strings"
	"unicode/utf8"

	"branchwork/cmd/internal/render/page"
)

// Render prints the tables of the page, and its named sentences.
func Render(w io.Writer, p page.Page) error {
	var records [][]string
	add := func(fields ...string) {
		records = append(records, fields)
	}
	headed := ""
	for _, block := range p.Blocks {
		switch b := block.(type) {
		case page.Text:
			if b.ID != "" {
				add(b.ID, guard(b.Text))
				headed = ""
			}
		case page.Table:
			if len(b.Rows) == 0 || b.ReadOnly {
				continue
			}
			columns, rows := b.Data()
			if headed != b.ID {
				add(heads(columns)...)
				headed = b.ID
			}
			for _, r := range rows {
				add(fields(b.ID, r)...)
			}
		}
	}
	return write(w, records)
}

func heads(columns []page.Column) []string {
	out := []string{"table"}
	for _, c := range columns {
		out = append(out, guard(c.Head()))
	}
	return out
}

func fields(id string, cells []page.Cell) []string {
	out := []string{id}
	for _, c := range cells {
		if c.IsNumber() {
			out = append(out, c.Data())
		} else {
			out = append(out, guard(c.Data()))
		}
	}
	return out
}

func write(w io.Writer, records [][]string) error {
	most := 0
	for _, r := range records {
		most = max(most, len(r))
	}
	out := csv.NewWriter(w)
	for _, r := range records {
		for len(r) < most {
			r = append(r, "")
		}
		if err := out.Write(r); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// guard puts an apostrophe before a text that a spreadsheet would take for a
// formula, and shows tabs and other control characters instead of printing them.
func guard(s string) string {
	s = page.Printable(s)
	if s != "" && strings.ContainsRune("=+-@＝＋－＠", first(s)) {
		return "'" + s
	}
	return s
}

func first(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}
