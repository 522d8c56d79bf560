package handover

// Layout is the whole page as its template reads it.
type Layout struct {
	Title    string
	Strap    []Span // stands over every part, so that each can be printed alone
	Cover    Cover
	Sections []Section
}

// Section is a numbered part of the page.
type Section struct {
	ID, Number, Title string
	For               string // the readers it is for
	Blocks            []Block
}

// Block is a part of a section: heading, paragraph, fields, list, table,
// directory, drawing, findings, steps, form.
type Block interface{ Kind() string }

// Span is a piece of a line.
type Span struct {
	Text  string
	Name  bool   // from the file: its direction must not turn the text around it
	Href  string // within the page
	Key   string // where the figure stands in the document
	Scale string // what it was multiplied with for display; empty: nothing
	Class string
}

type Heading struct {
	ID    string
	Level int // 3 or 4
	Spans []Span
}

type Paragraph struct {
	Class string
	Spans []Span
}

type Fields struct{ Rows []Field }

type Field struct {
	Name  string
	Spans []Span
}

type List struct {
	Ordered bool
	Items   []Item
}

type Item struct {
	ID    string
	Spans []Span
}

type Table struct {
	ID, Caption string
	Class       string
	Columns     []Column
	Rows, Foot  []Row
}

type Column struct {
	Head, Unit string
	Num        bool
}

// Label is the column's name where a row stands alone.
func (c Column) Label() string {
	if c.Unit == "" {
		return c.Head
	}
	return c.Head + ", " + c.Unit
}

type Row struct {
	ID, Class string
	Cells     []Cell
}

type Cell struct {
	Spans []Span
	Key   string // of a cell that is one figure
	Scale string
	Text  string
	Num   bool
	Class string
}

// Directory is the odd/even Directory of a panel.
type Directory struct {
	Caption string
	Rows    []DirectoryRow
	Foot    []DirectoryFoot
	Sum     []Span
}

type DirectoryRow struct {
	Leg         string
	Left, Right Slot
}

type Slot struct {
	Number  Cell
	Text    []Span
	Breaker []Span
	VA      Cell
	Vacant  bool
}

type DirectoryFoot struct {
	Leg   string
	Spans []Span
}

type Drawing struct {
	ID     string
	Markup string
	Key    []KeyItem
	Row    bool // the key in one row
	Spans  []Span
}

// KeyItem explains a hatch, a letter or a line of a drawing.
type KeyItem struct {
	ID     string
	Swatch string
	Spans  []Span
}

type Findings struct{ Items []FindingItem }

type FindingItem struct {
	ID, Severity, Word string
	Head               []Span
	Message            string
	Clause, Remedy     string
	Line               string
}

// Steps is one worked question.
type Steps struct {
	Title string
	Lines []StepLine
	Notes []string
}

type StepLine struct{ Text, Note, Source string }

// Form is lines for a hand to fill in.
type Form struct{ Lines []string }

// Signature is the block that the licensed professional signs, with the table of
// revisions.
type Signature struct {
	Date      string
	Revisions []int
}

func (Heading) Kind() string   { return "heading" }
func (Paragraph) Kind() string { return "paragraph" }
func (Fields) Kind() string    { return "fields" }
func (List) Kind() string      { return "list" }
func (Table) Kind() string     { return "table" }
func (Directory) Kind() string { return "directory" }
func (Drawing) Kind() string   { return "drawing" }
func (Findings) Kind() string  { return "findings" }
func (Steps) Kind() string     { return "steps" }
func (Form) Kind() string      { return "form" }
func (Signature) Kind() string { return "signature" }
