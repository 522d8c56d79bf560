// Package page lays a document out as blocks: headings, sentences, tables,
// findings. It holds the words, the rounding and the unit system that the
// terminal, Markdown and CSV have in common; each of those then adds only its
// own layout and its own way of keeping names from the file harmless.
//
// Text in a block is raw: it may hold anything that a user wrote.
package page

// Page is one answer, ready for any format that people read.
type Page struct {
	Blocks []Block
}

// Block is a part of a page: Heading, Text, Fields, List, Table, Chart or Finding.
type Block interface{ block() }

// Heading opens a part of the page. Level 1 is the page's own title.
type Heading struct {
	Level int
	Text  string
}

// Text is a paragraph. ID names it where it belongs in a data format too.
type Text struct {
	ID   string
	Text string
}

// Fields are names with values, one a line.
type Fields struct {
	Rows []Field
}

// Field is one of them.
type Field struct {
	Name, Value string
}

// List is items of one line or more each.
type List struct {
	Items []string
}

// Table is rows of cells. Tables of one ID have the same columns.
type Table struct {
	ID       string
	Columns  []Column
	Rows     [][]Cell
	DataOnly bool // for data formats; what it holds stands elsewhere for readers
	ReadOnly bool // for readers; what it groups stands elsewhere for data formats
}

// Column is a column of a table.
type Column struct {
	Name     string
	Unit     string
	Part     int // where the table is too wide it is split: part 0 is repeated, each other part is a table
	DataOnly bool
	ReadOnly bool // for readers; data formats have what it joins in columns of their own
}

// Head returns the column's heading: "load A".
func (c Column) Head() string {
	if c.Unit == "" {
		return c.Name
	}
	return c.Name + " " + c.Unit
}

// Finding is a rule that is broken or cannot be told.
type Finding struct {
	Severity string // the word that Head begins with
	Head     string
	Message  string
	Clause   string
	Remedy   string
}

func (Heading) block() {}
func (Text) block()    {}
func (Fields) block()  {}
func (List) block()    {}
func (Table) block()   {}
func (Finding) block() {}

func (p *Page) add(b ...Block) { p.Blocks = append(p.Blocks, b...) }

// Readable returns the columns and rows that are meant for readers.
func (t Table) Readable() ([]Column, [][]Cell) {
	return t.without(func(c Column) bool { return c.DataOnly })
}

// Data returns the columns and rows that are meant for programs.
func (t Table) Data() ([]Column, [][]Cell) {
	return t.without(func(c Column) bool { return c.ReadOnly })
}

func (t Table) without(dropped func(Column) bool) ([]Column, [][]Cell) {
	var columns []Column
	rows := make([][]Cell, len(t.Rows))
	for i, c := range t.Columns {
		if dropped(c) {
			continue
		}
		columns = append(columns, c)
		for k, r := range t.Rows {
			rows[k] = append(rows[k], r[i])
		}
	}
	return columns, rows
}

// Numeric reports of each column whether it holds figures, which stand to the
// right.
func Numeric(columns []Column, rows [][]Cell) []bool {
	out := make([]bool, len(columns))
	for i := range columns {
		figures, words := false, false
		for _, r := range rows {
			figures = figures || r[i].numeric
			words = words || !r[i].IsNumber() && r[i].text != ""
		}
		out[i] = figures && !words
	}
	return out
}
