package cli

import (
	"bytes"
	"encoding/json"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/svg"
)

// TestFiguresOfEveryTableAreThoseOfTheReport compares each figure that the page,
// Markdown, CSV and the workbook print with the JSON.
func TestFiguresOfEveryTableAreThoseOfTheReport(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		raw, err := json.Marshal(d)
		require.NoError(t, err)
		var doc any
		require.NoError(t, json.Unmarshal(raw, &doc))
		compared := 0
		for _, s := range handover.Of(d, svg.Measure{}).Sections {
			for _, table := range s.All() {
				wellMade(t, table)
				for _, r := range append(append([]handover.Row{}, table.Rows...), table.Foot...) {
					for i, c := range r.Cells {
						if c.Number == nil {
							continue
						}
						if c.Key == "" { // a place in a list, a line of the file
							require.Contains(t, []string{"No.", "Line of the file"}, table.Columns[i].Head, table.Name)
							continue
						}
						scale := 1.0
						if c.Scale != "" {
							scale, err = strconv.ParseFloat(c.Scale, 64)
							require.NoError(t, err)
						}
						want := figureAt(t, doc, c.Key)
						require.NotNil(t, want, c.Key)
						value := want.(float64) * scale
						if strings.HasSuffix(c.Key, "_c") {
							value = value*9/5 + 32
						}
						require.InDelta(t, value, c.Number.Value, 1e-9*math.Max(1, math.Abs(c.Number.Value)), c.Key)
						compared++
					}
				}
			}
		}
		require.Greater(t, compared, 200)
	})
}

// wellMade demands a stable name, headings that tell columns apart, and as many
// cells as columns.
func wellMade(t *testing.T, table handover.Table) {
	require.Regexp(t, `^[a-z][a-z-]*$`, table.Name)
	heads := map[string]bool{}
	for _, c := range table.Columns {
		require.NotEmpty(t, c.Head, table.Name)
		require.False(t, heads[c.Label()], "%s has %q twice", table.Name, c.Label())
		heads[c.Label()] = true
	}
	for _, r := range append(append([]handover.Row{}, table.Rows...), table.Foot...) {
		require.Len(t, r.Cells, len(table.Columns), "%s", table.Name)
	}
}

func figureAt(t *testing.T, doc any, key string) any {
	for _, p := range strings.Split(key, ".") {
		switch x := doc.(type) {
		case map[string]any:
			require.Contains(t, x, p, key)
			doc = x[p]
		case []any:
			i, err := strconv.Atoi(p)
			require.NoError(t, err, key)
			require.Less(t, i, len(x), key)
			doc = x[i]
		}
	}
	return doc
}

// TestTotalsFollowFromTheirTables works out every formula, as the tables stand and
// joined, in both unit systems.
func TestTotalsFollowFromTheirTables(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		for _, metric := range []bool{false, true} {
			var all []handover.Table
			for _, s := range handover.Of(d, svg.Measure{Metric: metric}).Sections {
				all = append(all, s.All()...)
			}
			for _, table := range append(handover.Together(all), all...) {
				rows := append(append([]handover.Row{}, table.Rows...), table.Foot...)
				for i, r := range rows {
					for _, c := range r.Cells {
						if c.Formula != nil && c.Number != nil {
							got := worked(rows, *c.Formula)
							require.InDelta(t, c.Number.Value, got, 1e-6*math.Max(1, math.Abs(got)), "%s %s, row %d", table.Name, table.Of, i)
						}
					}
				}
			}
		}
	})
}

func worked(rows []handover.Row, f handover.Formula) float64 {
	sum := func(term handover.Term) float64 {
		var x float64
		for _, r := range rows[term.From : term.To+1] {
			if n := r.Cells[term.Column].Number; n != nil && (term.Is == "" || r.Cells[term.Where].Plain() == term.Is) {
				x += n.Value
			}
		}
		return x
	}
	var out float64
	for _, term := range f.Terms {
		out += sum(term)
	}
	if f.Times != 0 {
		out *= f.Times
	}
	if f.By != nil {
		out *= sum(*f.By)
	}
	return out
}

// Tables alone are written without a page that nobody asked for.
func TestTablesAloneNeedNoPage(t *testing.T) {
	_, d := reportOn(t, filepath.Join(top, "testdata", "sites", "garage.toml"))
	o := reportOptions{tables: "tables"}
	o.format, o.units = "html", "us"
	answer, tables, err := o.printed(silent(), d)
	require.NoError(t, err)
	require.Nil(t, answer)
	o.file = "page.html"
	answer, beside, err := o.printed(silent(), d)
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, answer(&page))
	require.Contains(t, page.String(), "</html>")
	require.NotEmpty(t, tables)
	require.Equal(t, tables, beside)
}
