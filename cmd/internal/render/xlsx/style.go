package xlsx

import (
	"strings"

	"github.com/xuri/excelize/v2"
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

func (b *book) styles() error {
	var err error
	style := func(s excelize.Style) int {
		if err != nil {
			return 0
		}
		var id int
		id, err = b.file.NewStyle(&s)
		return id
	}
	font := func(size float64, bold bool, colour string) *excelize.Font {
		return &excelize.Font{Family: "Arial", Size: size, Bold: bold, Color: colour}
	}
	top := func(horizontal string) *excelize.Alignment {
		return &excelize.Alignment{Vertical: "top", Horizontal: horizontal, WrapText: horizontal != "right"}
	}
	aside := func(vertical string) *excelize.Alignment { // kept off a figure to its left
		return &excelize.Alignment{Vertical: vertical, Horizontal: "left", WrapText: true, Indent: 1}
	}
	under := []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	over := []excelize.Border{{Type: "top", Color: "000000", Style: 1}, {Type: "bottom", Color: hairline, Style: 1}}
	fill := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{pale}}
	ruled := []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}
	b.looks = looks{
		title: style(excelize.Style{Font: font(15, true, "")}), strap: style(excelize.Style{Font: font(9, false, grey)}),
		heading: style(excelize.Style{Font: font(12, true, "")}), caption: style(excelize.Style{Font: font(10, true, "")}),
		says:       style(excelize.Style{Font: font(10, false, ""), Alignment: top("left")}),
		head:       style(excelize.Style{Font: font(10, true, ""), Fill: fill, Border: ruled, Alignment: aside("bottom")}),
		headFigure: style(excelize.Style{Font: font(10, true, ""), Fill: fill, Border: ruled, Alignment: &excelize.Alignment{Vertical: "bottom", Horizontal: "right", WrapText: true}}),
		words:      style(excelize.Style{Font: font(10, false, ""), Alignment: aside("top"), Border: under}), wordsTotal: style(excelize.Style{Font: font(10, true, ""), Alignment: aside("top"), Border: over}),
		unknown: style(excelize.Style{Font: font(10, true, ""), Alignment: top("right"), Border: under}),
	}
	for digits := range b.looks.figures {
		format := "#,##0"
		if digits > 0 {
			format += "." + strings.Repeat("0", digits)
		}
		b.looks.figures[digits] = style(excelize.Style{Font: font(10, false, ""), Alignment: top("right"), Border: under, CustomNumFmt: &format})
		b.looks.totals[digits] = style(excelize.Style{Font: font(10, true, ""), Alignment: top("right"), Border: over, CustomNumFmt: &format})
	}
	return err
}
