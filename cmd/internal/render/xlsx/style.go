package xlsx

import (
	"strings"

	"branchwork/cmd/internal/render/xlsx/ooxml"
)

// mostDigits is how many decimals a figure is shown with at most.
const mostDigits = 6

// looks are the styles of a workbook.
type looks struct {
	title, strap, heading, caption, says int
	head, headFigure                     int
	words, wordsTotal                    int
	figures, totals                      [mostDigits + 1]int // by decimals
	unknown                              int
}

const (
	grey     = "595F5C"
	pale     = "EDF1EE"
	hairline = "C4CBC6"
)

func looksOf(b *ooxml.Book) looks {
	font := func(size float64, bold bool) ooxml.Style { return ooxml.Style{Font: "Arial", Size: size, Bold: bold} }
	cell := func(s ooxml.Style, horizontal, vertical string) ooxml.Style {
		s.Horizontal, s.Vertical, s.Wrap = horizontal, vertical, true
		return s
	}
	aside := func(s ooxml.Style) ooxml.Style { // kept off a figure to its left
		s.Indent = 1
		return s
	}
	figure := func(s ooxml.Style) ooxml.Style { // never broken
		s.Horizontal, s.Vertical = "right", "top"
		return s
	}
	head := font(10, true)
	head.Fill, head.Bottom = pale, ooxml.Line{Style: "medium", Colour: "000000"}
	plain, total := font(10, false), font(10, true)
	plain.Bottom = ooxml.Line{Style: "thin", Colour: hairline}
	total.Top, total.Bottom = ooxml.Line{Style: "thin", Colour: "000000"}, plain.Bottom
	unknown := plain
	unknown.Bold = true
	strap := font(9, false)
	strap.Colour = grey
	out := looks{
		title: b.Style(font(15, true)), strap: b.Style(strap), heading: b.Style(font(12, true)), caption: b.Style(font(10, true)),
		says: b.Style(cell(font(10, false), "left", "top")),
		head: b.Style(aside(cell(head, "left", "bottom"))), headFigure: b.Style(cell(head, "right", "bottom")),
		words: b.Style(aside(cell(plain, "left", "top"))), wordsTotal: b.Style(aside(cell(total, "left", "top"))),
		unknown: b.Style(figure(unknown)),
	}
	for digits := range out.figures {
		plain, total := figure(plain), figure(total)
		plain.Format = "#,##0"
		if digits > 0 {
			plain.Format += "." + strings.Repeat("0", digits)
		}
		total.Format = plain.Format
		out.figures[digits], out.totals[digits] = b.Style(plain), b.Style(total)
	}
	return out
}
