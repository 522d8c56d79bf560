package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"branchwork/cmd/internal/render/handover"
)

// book is a workbook under way.
type book struct {
	file         *excelize.File
	paper        Paper
	looks        looks
	strap, title string
}

// page is a sheet under way.
type page struct {
	*book
	out    *excelize.StreamWriter
	name   string
	row    int // last written
	widths []float64
	header int // row of the headings, where the sheet is one table
}

// sheet writes a sheet: its title, the strap, then its blocks.
func (b *book) sheet(name string, s sheetPlan) error {
	p := page{book: b, name: name, widths: widths(s.blocks)}
	if err := p.setUp(s); err != nil {
		return err
	}
	var err error
	if p.out, err = b.file.NewStreamWriter(name); err != nil {
		return err
	}
	for i, w := range p.widths {
		if err := p.out.SetColWidth(i+1, i+1, w); err != nil {
			return err
		}
	}
	if err := p.freeze(); err != nil {
		return err
	}
	if err := p.line(excelize.Cell{StyleID: b.looks.title, Value: s.title}); err != nil {
		return err
	}
	if err := p.line(excelize.Cell{StyleID: b.looks.strap, Value: b.strap}); err != nil {
		return err
	}
	for _, x := range s.blocks {
		if err := p.block(x); err != nil {
			return err
		}
	}
	return p.out.Flush()
}

// titleRows stand over every sheet: title, strap and an empty one.
const titleRows = 3

// setUp fits the sheet to the width of its paper and repeats its first rows on
// every page.
func (p *page) setUp(s sheetPlan) error {
	rows := titleRows - 1
	if len(s.blocks) == 1 {
		if t, ok := s.blocks[0].(handover.Table); ok {
			p.header = titleRows + 1
			rows = p.header
			if t.Caption != "" {
				p.header++
				rows = p.header
			}
		}
	}
	landscape, one, none, yes := "landscape", 1, 0, true
	paper := int(p.paper)
	if err := p.file.SetPageLayout(p.name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &one, FitToHeight: &none}); err != nil {
		return err
	}
	if err := p.file.SetSheetProps(p.name, &excelize.SheetPropsOptions{FitToPage: &yes}); err != nil {
		return err
	}
	side, edge := 0.45, 0.6
	if err := p.file.SetPageMargins(p.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &edge, Bottom: &edge}); err != nil {
		return err
	}
	if err := p.file.SetHeaderFooter(p.name, &excelize.HeaderFooterOptions{OddFooter: "&L&8Planning aid, not a permit drawing. A licensed electrician reviews it before any of it is built.&R&8&P / &N"}); err != nil {
		return err
	}
	return p.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: p.name,
		RefersTo: fmt.Sprintf("'%s'!$1:$%d", strings.ReplaceAll(p.name, "'", "''"), rows)})
}

// freeze keeps what heads the sheet in sight: the headings and the first column
// of a sheet that is one table, otherwise the title.
func (p *page) freeze() error {
	panes := excelize.Panes{Freeze: true, YSplit: titleRows - 1, TopLeftCell: "A" + strconv.Itoa(titleRows), ActivePane: "bottomLeft"}
	if p.header > 0 {
		panes = excelize.Panes{Freeze: true, XSplit: 1, YSplit: p.header, TopLeftCell: "B" + strconv.Itoa(p.header+1), ActivePane: "bottomRight"}
	}
	return p.out.SetPanes(&panes)
}

func (p *page) line(cells ...any) error {
	p.row++
	return p.out.SetRow("A"+strconv.Itoa(p.row), cells, excelize.RowOpts{Height: p.high(cells)})
}

// across writes words over the width of the sheet.
func (p *page) across(words string, style int) error {
	p.row++
	lines := linesOf(words, sum(p.widths))
	at := "A" + strconv.Itoa(p.row)
	if err := p.out.SetRow(at, []any{excelize.Cell{StyleID: style, Value: words}}, excelize.RowOpts{Height: height(lines)}); err != nil {
		return err
	}
	last, err := excelize.CoordinatesToCellName(len(p.widths), p.row)
	if err != nil || len(p.widths) < 2 {
		return err
	}
	return p.out.MergeCell(at, last)
}

func (p *page) block(b handover.Block) error {
	switch x := b.(type) {
	case handover.Heading:
		p.row++
		return p.line(excelize.Cell{StyleID: p.looks.heading, Value: handover.Plain(x.Spans)})
	case handover.Paragraph:
		p.row++
		return p.across(handover.Plain(x.Spans), p.looks.says)
	case handover.List:
		for _, i := range x.Items {
			if err := p.across("• "+handover.Plain(i.Spans), p.looks.says); err != nil {
				return err
			}
		}
	case handover.Table:
		return p.table(x)
	}
	return nil // a drawing, a form: not for a workbook
}

func (p *page) table(t handover.Table) error {
	p.row++
	if t.Caption != "" {
		if err := p.line(excelize.Cell{StyleID: p.looks.caption, Value: t.Caption}); err != nil {
			return err
		}
	}
	at := map[int]int{} // columns of the table that are shown
	heads := []any{}
	for i, c := range t.Columns {
		if c.Nav {
			continue
		}
		at[i] = len(heads) + 1
		style := p.looks.head
		if c.Num {
			style = p.looks.headFigure
		}
		heads = append(heads, excelize.Cell{StyleID: style, Value: c.Label()})
	}
	if err := p.line(heads...); err != nil {
		return err
	}
	first := p.row + 1
	for i, r := range append(append([]handover.Row{}, t.Rows...), t.Foot...) {
		cells := []any{}
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
		if err := p.line(cells...); err != nil {
			return err
		}
	}
	return nil
}

func (p *page) cell(c handover.Cell, total bool) excelize.Cell {
	words, figures := p.looks.words, p.looks.figures
	if total {
		words, figures = p.looks.wordsTotal, p.looks.totals
	}
	switch {
	case c.Empty():
		return excelize.Cell{StyleID: words}
	case c.Number != nil:
		return excelize.Cell{StyleID: figures[min(c.Number.Digits, mostDigits)], Value: c.Number.Value}
	case c.Num:
		return excelize.Cell{StyleID: p.looks.unknown, Value: c.Text}
	}
	return excelize.Cell{StyleID: words, Value: c.Data()}
}
