package xlsx

import (
	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/xlsx/ooxml"
)

// book is a workbook under way.
type book struct {
	file  ooxml.Book
	paper Paper
	looks looks
	strap string
}

// page is a sheet under way.
type page struct {
	*book
	out *ooxml.Sheet
	row int // last written
}

// sheet writes a sheet: its title, the strap, then its blocks.
func (b *book) sheet(s sheetPlan) {
	p := page{book: b, out: b.file.Add(s.title)}
	p.setUp(s)
	p.line(ooxml.Cell{Style: b.looks.title, Value: s.title})
	p.line(ooxml.Cell{Style: b.looks.strap, Value: b.strap})
	for _, x := range s.blocks {
		p.block(x)
	}
}

// titleRows stand over every sheet: title, strap and an empty one.
const titleRows = 3

// setUp sets a sheet up for its paper and repeats what heads it on every page. The
// headings and the first column of a sheet that is one table stay in sight,
// otherwise the title.
func (p *page) setUp(s sheetPlan) {
	p.out.Paper, p.out.Side, p.out.Edge = int(p.paper), 0.45, 0.6
	p.out.Footer = "&L&8Planning aid, not a permit drawing. A licensed electrician reviews it before any of it is built.&R&8&P / &N"
	p.out.Widths = widths(s.blocks)
	p.out.FrozenRows = titleRows - 1
	if len(s.blocks) == 1 {
		if t, ok := s.blocks[0].(handover.Table); ok {
			p.out.FrozenRows, p.out.FrozenColumns = titleRows+1, 1
			if t.Caption != "" {
				p.out.FrozenRows++
			}
		}
	}
	p.out.Repeated = p.out.FrozenRows
}

func (p *page) line(cells ...ooxml.Cell) {
	p.row++
	p.out.Row(p.row, p.high(cells), cells...)
}

// across writes words over the width of the sheet.
func (p *page) across(words string, style int) {
	p.row++
	p.out.Row(p.row, height(linesOf(words, sum(p.out.Widths))), ooxml.Cell{Style: style, Value: words})
	if last := len(p.out.Widths); last > 1 {
		p.out.Merge(p.row, 1, last)
	}
}

func (p *page) block(b handover.Block) {
	switch x := b.(type) {
	case handover.Heading:
		p.row++
		p.line(ooxml.Cell{Style: p.looks.heading, Value: handover.Plain(x.Spans)})
	case handover.Paragraph:
		p.row++
		p.across(handover.Plain(x.Spans), p.looks.says)
	case handover.List:
		for _, i := range x.Items {
			p.across("• "+handover.Plain(i.Spans), p.looks.says)
		}
	case handover.Table:
		p.table(x)
	} // a drawing, a form: not for a workbook
}

func (p *page) table(t handover.Table) {
	p.row++
	if t.Caption != "" {
		p.line(ooxml.Cell{Style: p.looks.caption, Value: t.Caption})
	}
	at := map[int]int{} // columns of the table that are shown
	heads := []ooxml.Cell{}
	for i, c := range t.Columns {
		if c.Nav {
			continue
		}
		at[i] = len(heads) + 1
		style := p.looks.head
		if c.Num {
			style = p.looks.headFigure
		}
		heads = append(heads, ooxml.Cell{Style: style, Value: c.Label()})
	}
	p.line(heads...)
	first := p.row + 1
	for i, r := range append(append([]handover.Row{}, t.Rows...), t.Foot...) {
		cells := []ooxml.Cell{}
		for k, c := range r.Cells {
			if _, shown := at[k]; !shown {
				continue
			}
			x := p.cell(c, i >= len(t.Rows) || r.Class == handover.Total)
			if c.Formula != nil {
				x.Formula = formula(*c.Formula, at, first)
			}
			cells = append(cells, x)
		}
		p.line(cells...)
	}
}

func (p *page) cell(c handover.Cell, total bool) ooxml.Cell {
	words, figures := p.looks.words, p.looks.figures
	if total {
		words, figures = p.looks.wordsTotal, p.looks.totals
	}
	switch {
	case c.Empty():
		return ooxml.Cell{Style: words}
	case c.Number != nil:
		return ooxml.Cell{Style: figures[min(c.Number.Digits, mostDigits)], Value: c.Number.Value}
	case c.Num:
		return ooxml.Cell{Style: p.looks.unknown, Value: c.Text}
	}
	return ooxml.Cell{Style: words, Value: c.Data()}
}
