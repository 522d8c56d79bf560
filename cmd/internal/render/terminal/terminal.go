// Package terminal prints a page on a screen of a given width. It never cuts a
// text: what does not fit is wrapped, and a table that does not fit is split.
package terminal

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"branchwork/cmd/internal/render/page"
)

// Screen is what the page is printed on.
type Screen struct {
	Width  int
	Colour bool // marks severity, and carries no meaning alone
	Blocks bool // charts may be drawn with block characters
}

// Prose wider than this is hard to read on a wide screen.
const proseWidth = 100

// indent is how far the lines under a heading of a list item stand in.
const indent = "    "

// Render prints the page.
func Render(w io.Writer, p page.Page, s Screen) error {
	var b bytes.Buffer
	r := printer{&b, s}
	var before page.Block
	for _, block := range p.Blocks {
		if t, ok := block.(page.Table); ok && (t.DataOnly || len(t.Rows) == 0) {
			continue
		}
		if apart(before, block) {
			b.WriteByte('\n')
		}
		if err := r.block(block); err != nil {
			return err
		}
		before = block
	}
	_, err := w.Write(b.Bytes())
	return err
}

type printer struct {
	out    *bytes.Buffer
	screen Screen
}

// apart reports whether an empty line stands between two blocks: not under a
// heading or a line that announces what follows, and not among findings, of which
// as many as can be should stay on the screen.
func apart(before, b page.Block) bool {
	switch x := before.(type) {
	case nil, page.Heading:
		return false
	case page.Text:
		return !strings.HasSuffix(x.Text, ":")
	case page.Finding:
		_, another := b.(page.Finding)
		return !another
	}
	return true
}

func (r printer) block(b page.Block) error {
	switch b := b.(type) {
	case page.Heading:
		r.heading(b)
	case page.Text:
		r.lines("", "", b.Text)
	case page.Fields:
		r.fields(b)
	case page.List:
		for _, item := range b.Items {
			r.lines("- ", "  ", item)
		}
	case page.Finding:
		r.finding(b)
	case page.Chart:
		r.chart(b)
	case page.Table:
		return r.table(b)
	default:
		return fmt.Errorf("terminal: no way to print %T", b)
	}
	return nil
}

func (r printer) heading(h page.Heading) {
	lines := wrap(page.Printable(h.Text), r.prose())
	longest := 0
	for _, l := range lines {
		longest = max(longest, width(l))
		r.out.WriteString(l + "\n")
	}
	switch h.Level {
	case 1:
		r.out.WriteString(strings.Repeat("=", longest) + "\n")
	case 2:
		r.out.WriteString(strings.Repeat("-", longest) + "\n")
	}
}

func (r printer) prose() int { return min(r.screen.Width, proseWidth) }

// lines prints a text wrapped, its first line after one lead and the others
// after another.
func (r printer) lines(lead, rest, text string) {
	for i, l := range wrap(page.Printable(text), r.prose()-width(lead)) {
		if i > 0 {
			lead = rest
		}
		r.out.WriteString(strings.TrimRight(lead+l, " ") + "\n")
	}
}

func (r printer) fields(f page.Fields) {
	longest := 0
	for _, x := range f.Rows {
		longest = max(longest, width(x.Name))
	}
	for _, x := range f.Rows {
		lead := x.Name + strings.Repeat(" ", longest-width(x.Name)+2)
		r.lines(lead, strings.Repeat(" ", width(lead)), x.Value)
	}
}

func (r printer) finding(f page.Finding) {
	for i, l := range wrap(page.Printable(f.Head), r.prose()) {
		if i == 0 {
			l = strings.Replace(l, f.Severity, r.paint(f.Severity), 1)
		}
		r.out.WriteString(l + "\n")
	}
	r.lines(indent, indent, f.Message)
	r.lines(indent+"clause: ", indent+"        ", f.Clause)
	r.lines(indent+"remedy: ", indent+"        ", f.Remedy)
}

// paint colours a severity with the terminal's own palette.
func (r printer) paint(severity string) string {
	colour := map[string]string{"violation": "31;1", "warning": "33", "advice": "36"}[severity]
	if !r.screen.Colour || colour == "" {
		return severity
	}
	return "\x1b[" + colour + "m" + severity + "\x1b[0m"
}
