package xlsx

import (
	"math"
	"strings"

	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/xlsx/ooxml"
)

// Widths of columns, in characters.
const (
	narrowest = 7.0
	widest    = 44.0
	wrapped   = 18.0  // a column of words is not made narrower to fit the paper
	onPaper   = 170.0 // of a sheet that can be read in print
	sentences = 100.0 // of a sheet that has any
)

// Heights of rows, in points.
const (
	lineHigh = 13.5
	highest  = 409.0
)

// widths chooses the columns' widths by what stands in them.
func widths(blocks []handover.Block) []float64 {
	out, said := []float64{narrowest}, false
	for _, b := range blocks {
		t, ok := b.(handover.Table)
		if !ok {
			said = true
			continue
		}
		column := 0
		for i, c := range t.Columns {
			if c.Nav {
				continue
			}
			if column == len(out) {
				out = append(out, narrowest)
			}
			w := longestWord(c.Label())
			for _, r := range append(append([]handover.Row{}, t.Rows...), t.Foot...) {
				w = max(w, float64(len([]rune(r.Cells[i].Data()))))
			}
			out[column] = min(widest, max(out[column], w+2.5))
			column++
		}
	}
	narrow(out)
	if all := sum(out); said && all < sentences {
		out = append(out, sentences-all)
	}
	return out
}

// narrow takes width from wide columns, alike in proportion, until the sheet fits
// its paper or no column can give more.
func narrow(list []float64) {
	over, give := sum(list)-onPaper, 0.0
	for _, w := range list {
		give += max(0, w-wrapped)
	}
	if over <= 0 || give == 0 {
		return
	}
	share := min(1, over/give)
	for i, w := range list {
		list[i] -= share * max(0, w-wrapped)
	}
}

func sum(list []float64) float64 {
	var all float64
	for _, w := range list {
		all += w
	}
	return all
}

// longestWord is the width of the longest word of a heading, which may be broken
// between words.
func longestWord(s string) float64 {
	most := 0
	for _, w := range strings.Fields(s) {
		most = max(most, len([]rune(w)))
	}
	return float64(most) * 1.15
}

// high is the height of a row whose words are wrapped in their columns.
func (p *page) high(cells []ooxml.Cell) float64 {
	lines := 1.0
	for i, c := range cells {
		s, is := c.Value.(string)
		if !is || i >= len(p.out.Widths) || c.Style == p.looks.title || c.Style == p.looks.strap || c.Style == p.looks.heading || c.Style == p.looks.caption {
			continue
		}
		lines = max(lines, linesOf(s, p.out.Widths[i]))
	}
	if first := cells[0].Style; first == p.looks.title || first == p.looks.heading {
		return 22
	}
	return height(lines)
}

func height(lines float64) float64 { return min(highest, lines*lineHigh+2) }

// linesOf counts the lines that words take in a width: they are broken between
// words, so that a line holds a little less than its width.
func linesOf(s string, width float64) float64 {
	return max(1, math.Ceil(float64(len([]rune(s)))*0.96/width))
}
