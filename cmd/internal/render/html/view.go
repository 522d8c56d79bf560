package html

import "html/template"

// view is the whole page as its template reads it.
type view struct {
	Title    string
	Style    template.CSS
	Strap    []span // stands over every part, so that each can be printed alone
	Cover    cover
	Sections []section
	Live     *strip // of a page that follows its file
}

// section is a numbered part of the page.
type section struct {
	ID, Number, Title string
	For               string // the readers it is for
	Blocks            []block
}

// block is a part of a section: heading, paragraph, fields, list, table,
// directory, drawing, findings, steps, form.
type block interface{ Kind() string }

// span is a piece of a line.
type span struct {
	Text  string
	Name  bool   // from the file: its direction must not turn the text around it
	Href  string // within the page
	Key   string // where the figure stands in the document
	Scale string // what it was multiplied with for display; empty: nothing
	Class string
}

type heading struct {
	ID    string
	Level int // 3 or 4
	Spans []span
}

type paragraph struct {
	Class string
	Spans []span
}

type fields struct{ Rows []field }

type field struct {
	Name  string
	Spans []span
}

type list struct {
	Ordered bool
	Items   []item
}

type item struct {
	ID    string
	Spans []span
}

type table struct {
	ID, Caption string
	Class       string
	Columns     []column
	Rows, Foot  []row
}

type column struct {
	Head, Unit string
	Num        bool
}

// Label is the column's name where a row stands alone.
func (c column) Label() string {
	if c.Unit == "" {
		return c.Head
	}
	return c.Head + ", " + c.Unit
}

type row struct {
	ID, Class string
	Cells     []cell
}

type cell struct {
	Spans []span
	Key   string // of a cell that is one figure
	Scale string
	Text  string
	Num   bool
	Class string
}

// directory is the odd/even directory of a panel.
type directory struct {
	Caption string
	Rows    []directoryRow
	Foot    []directoryFoot
	Sum     []span
}

type directoryRow struct {
	Leg         string
	Left, Right slot
}

type slot struct {
	Number  cell
	Text    []span
	Breaker []span
	VA      cell
	Vacant  bool
}

type directoryFoot struct {
	Leg   string
	Spans []span
}

type drawing struct {
	ID     string
	Markup template.HTML
	Key    []keyItem
	Row    bool // the key in one row
	Spans  []span
}

// keyItem explains a hatch, a letter or a line of a drawing.
type keyItem struct {
	ID     string
	Swatch template.HTML
	Spans  []span
}

type findings struct{ Items []findingItem }

type findingItem struct {
	ID, Severity, Word string
	Head               []span
	Message            string
	Clause, Remedy     string
	Line               string
}

// steps is one worked question.
type steps struct {
	Title string
	Lines []stepLine
	Notes []string
}

type stepLine struct{ Text, Note, Source string }

// form is lines for a hand to fill in.
type form struct{ Lines []string }

// signature is the block that the licensed professional signs, with the table of
// revisions.
type signature struct {
	Date      string
	Revisions []int
}

func (heading) Kind() string   { return "heading" }
func (paragraph) Kind() string { return "paragraph" }
func (fields) Kind() string    { return "fields" }
func (list) Kind() string      { return "list" }
func (table) Kind() string     { return "table" }
func (directory) Kind() string { return "directory" }
func (drawing) Kind() string   { return "drawing" }
func (findings) Kind() string  { return "findings" }
func (steps) Kind() string     { return "steps" }
func (form) Kind() string      { return "form" }
func (signature) Kind() string { return "signature" }
