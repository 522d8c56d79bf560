package terminal

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/render/page"
)

// rows is how many lines a chart is high. Each tells eight steps apart.
const (
	rows   = 6
	eighth = 8
)

// chart draws columns of block characters, or the plain digits of a screen that has none.
func (r printer) chart(c page.Chart) {
	if !r.screen.Blocks {
		for i, l := range c.Plain(r.screen.Width) {
			if i == 0 {
				r.lines("", "", l)
				continue
			}
			r.out.WriteString(strings.TrimRight(l, " ") + "\n")
		}
		return
	}
	levels, cell := c.Levels(rows*eighth), c.Cell(r.screen.Width)
	head := c.Title + ": the highest column is " + c.Name(c.Largest())
	for _, l := range levels {
		if l < 0 {
			head += "; what is below zero is not drawn"
			break
		}
	}
	r.lines("", "", head)
	for row := rows - 1; row >= 0; row-- {
		name := ""
		switch row {
		case rows - 1:
			name = "100 %"
		case 0:
			name = "0"
		}
		line := fmt.Sprintf("%*s |", page.Margin-2, name)
		for _, l := range levels {
			line += column8(l-row*eighth, cell)
		}
		r.out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	r.out.WriteString(c.Hours(cell) + "\n")
}

// column8 is one cell of a column of which so many eighths are filled, with a gap to its
// neighbour where there is room for one.
func column8(eighths, cell int) string {
	const blocks = " ▁▂▃▄▅▆▇█"
	filled := []rune(blocks)[max(0, min(eighth, eighths))]
	wide := max(1, cell-1)
	return strings.Repeat(string(filled), wide) + strings.Repeat(" ", cell-wide)
}
