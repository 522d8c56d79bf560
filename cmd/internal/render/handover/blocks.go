package handover

import (
	"slices"
	"strings"
)

// Layout is the whole document.
type Layout struct {
	Title    string
	Strap    []Span // stands over every section, so that each can be printed alone
	Cover    Cover
	Sections []Section
}

// Section is a numbered part of the document.
type Section struct {
	ID, Number, Title string
	For               string // the readers it is for
	Blocks            []Block
}

// Block is a part of a section.
type Block interface{ Kind() string }

// Span is a piece of a line.
type Span struct {
	Text   string
	Name   bool    // from the file: its direction must not turn the text around it
	Href   string  // an anchor of the document, with #
	Key    string  // where the figure stands in the report
	Scale  string  // what it was multiplied with for display; empty: nothing
	Class  string  // how a page shows it; Nav: only a page does
	Number *Number // the figure itself, in the unit that is shown
}

// Number is a figure before rounding, and the decimals that it is shown with.
type Number struct {
	Value  float64
	Digits int
}

// Nav is the class of what leads about the document and tells nothing. Aside is
// that of words beside a name, and Finding that of links to findings: tables for
// programs have both in columns of their own.
const (
	Nav     = "nav"
	Aside   = "aside"
	Finding = "to-finding"
)

// Heading stands over what follows it. Level 3 stands under the title of a
// section, level 4 under that.
type Heading struct {
	ID    string
	Level int
	Class string
	Spans []Span
}

// Paragraph is a paragraph.
type Paragraph struct {
	Class string
	Spans []Span
}

// Fields are names with what is to be said of each. Name and Of are those of the
// table that they make.
type Fields struct {
	Name, Of, OfHead string
	Rows             []Field
}

// Field is one of them.
type Field struct {
	Name  string
	Spans []Span
}

// List is items of a line or more.
type List struct{ Items []Item }

// Item is one of them.
type Item struct{ Spans []Span }

// Drawing is a figure with the key to its hatches.
type Drawing struct {
	ID          string
	Markup      string // SVG
	Description string // what it shows, in words
	Key         []KeyItem
	Row         bool // the key in one row
	Spans       []Span
}

// KeyItem explains a hatch, a letter or a line of a drawing.
type KeyItem struct {
	ID     string
	Swatch string // SVG
	Spans  []Span
}

// Findings are broken rules, and rules that cannot be told, the gravest first.
type Findings struct{ Items []FindingItem }

// FindingItem is one of them.
type FindingItem struct {
	ID, Severity, Word string
	Number             int
	Rule               string
	Place              []Span
	Message            string
	Clause, Remedy     string
	Line               int // of the file; 0 where there is none
}

// Steps is one worked question.
type Steps struct {
	Of, Title string
	Lines     []StepLine
	Notes     []string
}

// StepLine is one step of it.
type StepLine struct{ Text, Note, Source string }

// Form is lines for a hand to fill in.
type Form struct{ Lines []string }

// Signature is the block that the licensed professional signs, with the table of
// revisions.
type Signature struct {
	Date      string
	Revisions []int
}

// Kind names the block for a template.
func (Heading) Kind() string { return "heading" }

// Kind names the block for a template.
func (Paragraph) Kind() string { return "paragraph" }

// Kind names the block for a template.
func (Fields) Kind() string { return "fields" }

// Kind names the block for a template.
func (List) Kind() string { return "list" }

// Kind names the block for a template.
func (Table) Kind() string { return "table" }

// Kind names the block for a template.
func (Directory) Kind() string { return "directory" }

// Kind names the block for a template.
func (Drawing) Kind() string { return "drawing" }

// Kind names the block for a template.
func (Findings) Kind() string { return "findings" }

// Kind names the block for a template.
func (Steps) Kind() string { return "steps" }

// Kind names the block for a template.
func (Form) Kind() string { return "form" }

// Kind names the block for a template.
func (Signature) Kind() string { return "signature" }

// Plain is a line as words alone: what only leads about the document is left out.
func Plain(list []Span) string { return without(list, Nav) }

func without(list []Span, classes ...string) string {
	var s string
	for _, x := range list {
		if !slices.Contains(classes, x.Class) {
			s += x.Text
		}
	}
	return strings.TrimSpace(s)
}
