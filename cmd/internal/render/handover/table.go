package handover

import (
	"math"
	"strconv"
)

// Table is rows of cells under headings. Tables of one name have the same
// columns: where they stand together, what each is of goes into a first column.
type Table struct {
	Name        string // stable: of a file, of a sheet
	Of, OfHead  string // what it is of, and what that is: "LP1", "Panel"
	ID, Caption string
	Class       string
	Sheet       string // of a workbook; empty: that of the section
	Columns     []Column
	Rows, Foot  []Row
}

// Column is a column of a table.
type Column struct {
	Head, Unit string
	Num        bool
	Nav        bool // leads about a page and tells nothing
	DataOnly   bool // for programs; readers have it beside another column's words
}

// Label is the column's name where it stands alone.
func (c Column) Label() string {
	if c.Unit == "" {
		return c.Head
	}
	return c.Head + ", " + c.Unit
}

// Row is a row of a table.
type Row struct {
	ID, Class string
	Cells     []Cell
}

// Cell is one figure, or words.
type Cell struct {
	Spans   []Span
	Key     string // of a cell that is one figure
	Scale   string
	Text    string
	Num     bool
	Class   string
	Number  *Number
	Formula *Formula // how it follows from others, for forms that calculate
}

// Plain is the cell as words.
func (c Cell) Plain() string {
	if c.Spans != nil {
		return Plain(c.Spans)
	}
	return c.Text
}

// Data is the cell as words for a program: the name alone where something is said
// beside it.
func (c Cell) Data() string {
	if c.Spans != nil {
		return without(c.Spans, Nav, Aside, Finding)
	}
	return c.Text
}

// Empty reports a cell without meaning in its row.
func (c Cell) Empty() bool { return c.Class == "none" }

// Formula is a sum of figures of the same table, times a factor, times another
// figure of it.
type Formula struct {
	Terms []Term
	Times float64 // 0: once
	By    *Term
}

// Term is the figures of a column from one row to another, the body's rows first,
// then the foot's, from 0; where Is is given, only those of rows in which column
// Where reads so.
type Term struct {
	Column, From, To int
	Where            int
	Is               string
}

// at is one figure.
func at(column, row int) Term { return Term{Column: column, From: row, To: row} }

// body is the formula of a column's total.
func (t Table) body(column int) *Formula {
	return &Formula{Terms: []Term{{Column: column, To: len(t.Rows) - 1}}}
}

// across is the formula of a figure that others of its row add up to.
func across(row int, columns ...int) *Formula {
	f := &Formula{}
	for _, c := range columns {
		f.Terms = append(f.Terms, at(c, row))
	}
	return f
}

// following gives a cell its formula.
func following(c Cell, f *Formula) Cell {
	if c.Number != nil { // what is not known follows from nothing
		c.Formula = f
	}
	return c
}

// All lists the tables of a section as it stands: also what is no table on a
// page, where it can be set out as one.
func (s Section) All() []Table {
	var out []Table
	for _, b := range s.Blocks {
		if t, ok := AsTable(b); ok && len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// AsTable sets a block out as a table.
func AsTable(b Block) (Table, bool) {
	switch x := b.(type) {
	case Table:
		return x, x.Name != ""
	case Directory:
		return x.Table(), true
	case Fields:
		return x.Table(), x.Name != ""
	case Findings:
		return x.Table(), true
	case Steps:
		return x.Table(), true
	}
	return Table{}, false
}

// Table sets fields out in three columns: what begins with a figure has it in a
// column of its own.
func (f Fields) Table() Table {
	t := Table{Name: f.Name, Of: f.Of, OfHead: f.OfHead, Columns: []Column{col("What"), fig("Figure", ""), col("In words")}}
	for _, r := range f.Rows {
		figures, words := blank(), r.Spans
		if len(words) > 0 && words[0].Number != nil {
			figures, words = figure(words[0]), words[1:]
		}
		if c := in(words...); !figures.Empty() || c.Data() != "" {
			t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(r.Name), figures, c}})
		}
	}
	return t
}

// Table sets findings out.
func (f Findings) Table() Table {
	t := Table{Name: "findings", Columns: []Column{fig("No.", ""), col("Severity"), col("Rule"), col("Concerns"), col("What was found"), col("Clause"), col("Remedy"), fig("Line of the file", "")}}
	for _, x := range f.Items {
		line := blank()
		if x.Line > 0 {
			line = figure(count(x.Line, ""))
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{figure(count(x.Number, "")), cellText(x.Word), cellText(x.Rule), in(x.Place...), cellText(x.Message), cellText(x.Clause), cellText(x.Remedy), line}})
	}
	return t
}

// Table sets the steps out.
func (s Steps) Table() Table {
	t := Table{Name: "working", Of: s.Of, OfHead: "Of", Sheet: "Working", Columns: []Column{col("Question"), col("Step"), col("Note"), col("Source")}}
	for _, l := range s.Lines {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(s.Title), cellText(l.Text), cellText(l.Note), cellText(l.Source)}})
	}
	for _, n := range s.Notes {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(s.Title), cellText(""), cellText(n), cellText("")}})
	}
	return t
}

// Together joins the tables of each name, in the order in which the names first
// come. What each was of stands in a first column; a foot follows its body.
func Together(list []Table) []Table {
	var out []Table
	at := map[string]int{}
	for _, t := range list {
		i, ok := at[t.Name]
		if !ok {
			i = len(out)
			at[t.Name] = i
			first := t
			first.Rows, first.Foot, first.Of = nil, nil, ""
			if t.OfHead != "" {
				first.Columns = append([]Column{col(t.OfHead)}, t.Columns...)
			}
			out = append(out, first)
		} else {
			out[i].Caption = "" // it told of the first alone
		}
		out[i].Rows = append(out[i].Rows, t.moved(len(out[i].Rows))...)
	}
	return out
}

// moved returns body and foot as they stand in a table that has rows already.
func (t Table) moved(down int) []Row {
	right := 0
	if t.OfHead != "" {
		right = 1
	}
	var out []Row
	for i, r := range append(append([]Row{}, t.Rows...), t.Foot...) {
		cells := []Cell{}
		if right > 0 {
			cells = append(cells, cellName(t.Of))
		}
		for _, c := range r.Cells {
			c.Formula = c.Formula.moved(down, right)
			cells = append(cells, c)
		}
		if i >= len(t.Rows) {
			r.Class = Total
		}
		out = append(out, Row{Class: r.Class, Cells: cells})
	}
	return out
}

// Total is the class of a foot's row that stands in a body.
const Total = "total"

func (f *Formula) moved(down, right int) *Formula {
	if f == nil {
		return nil
	}
	g := Formula{Times: f.Times}
	for _, t := range f.Terms {
		g.Terms = append(g.Terms, t.moved(down, right))
	}
	if f.By != nil {
		by := f.By.moved(down, right)
		g.By = &by
	}
	return &g
}

func (t Term) moved(down, right int) Term {
	t.From, t.To, t.Column = t.From+down, t.To+down, t.Column+right
	if t.Is != "" {
		t.Where += right
	}
	return t
}

// Data is the figure for a program: rounded as it is shown, no thousands
// separators.
func (n Number) Data() string {
	x := n.Value
	if math.Abs(x) < 0.5*math.Pow10(-n.Digits) {
		x = 0
	}
	return strconv.FormatFloat(x, 'f', n.Digits, 64)
}
