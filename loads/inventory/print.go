package inventory

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"

	"branchwork/loads/units"
)

// How problems are printed.
const (
	maxPrinted = 50 // problems
	tabStop    = 4  // cells
	indent     = 8  // of a remedy
	narrowest  = 40 // cells; nothing is laid out for less
)

// Print writes problems for a person: where, what, the line with a caret below
// it, and a way out. width is the terminal's, in cells; 0 or less is unlimited.
// src is what Read was given. Control characters of the file are escaped.
func Print(w io.Writer, file string, src []byte, problems []Problem, width int) error {
	var b strings.Builder
	if width > 0 {
		width = max(width, narrowest)
	}
	for i, p := range problems {
		if i == maxPrinted {
			fmt.Fprintf(&b, "and %s more\n", units.Round(float64(len(problems)-i), 0))
			break
		}
		printOne(&b, file, src, p, width)
	}
	switch n := len(problems); n {
	case 0:
	case 1:
		b.WriteString("1 problem; nothing was written\n")
	default:
		fmt.Fprintf(&b, "%s problems; nothing was written\n", units.Round(float64(n), 0))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func printOne(b *strings.Builder, file string, src []byte, p Problem, width int) {
	fmt.Fprintf(b, "%s:%d:%d: %s\n", printable(file), p.At.Line, p.At.Column, p.Says)
	gutter := fmt.Sprintf("%5d | ", p.At.Line)
	text, from, to := shownLine(src, p.At)
	if text.width() > 0 {
		text, from, to = text.around(from, to, width-len(gutter))
		b.WriteString(gutter + text.String() + "\n")
		fmt.Fprintf(b, "%s| %s%s\n", strings.Repeat(" ", len(gutter)-2), strings.Repeat(" ", from), strings.Repeat("^", max(1, to-from)))
	}
	for _, line := range strings.Split(p.Remedy, "\n") {
		for _, part := range wrap(line, width-indent) {
			if part != "" {
				b.WriteString(strings.Repeat(" ", indent) + part + "\n")
			}
		}
	}
}

// cells is a line of text as a terminal shows it: what each character becomes,
// and how wide that is.
type cells []struct {
	text  string
	width int
}

func (c cells) String() string {
	var b strings.Builder
	for _, x := range c {
		b.WriteString(x.text)
	}
	return strings.TrimRight(b.String(), " ")
}

func (c cells) width() int {
	n := 0
	for _, x := range c {
		n += x.width
	}
	return n
}

// Of a line, no more than so many bytes on either side of a problem are laid
// out, so that a line of megabytes costs no more than a page.
const sideways = 2000

// shownLine returns the line of a place with tabs expanded and control
// characters escaped, and the cells between which the place lies.
func shownLine(src []byte, at Place) (line cells, from, to int) {
	start := bytes.LastIndexByte(src[:at.Start], '\n') + 1
	end := len(src)
	if n := bytes.IndexByte(src[at.Start:], '\n'); n >= 0 {
		end = at.Start + n
	}
	start, end = max(start, at.Start-sideways), min(end, at.Start+sideways)
	for start < at.Start && !utf8.RuneStart(src[start]) {
		start++
	}
	if end > start && src[end-1] == '\r' {
		end--
	}
	stop := min(max(at.End, at.Start), end)
	col := 0
	from, to = -1, -1
	for i := start; i < end; {
		c, n := utf8.DecodeRune(src[i:end])
		if i >= at.Start && from < 0 {
			from = col
		}
		if i >= stop && to < 0 {
			to = col
		}
		text, width := shownRune(c, src[i:i+n], col)
		line = append(line, struct {
			text  string
			width int
		}{text, width})
		col += width
		i += n
	}
	if from < 0 {
		from = col
	}
	if to < 0 {
		to = col
	}
	return line, from, to
}

func shownRune(c rune, raw []byte, col int) (string, int) {
	switch {
	case c == '\t':
		n := tabStop - col%tabStop
		return strings.Repeat(" ", n), n
	case c == '\ufeff':
		return "", 0
	case c == utf8.RuneError && len(raw) == 1:
		return fmt.Sprintf(`\x%02x`, raw[0]), 4
	case !unicode.IsPrint(c):
		s := strings.Trim(strconv.QuoteRune(c), "'")
		return s, len(s)
	}
	return string(c), terminal().RuneWidth(c)
}

// terminal measures characters the same way on every machine, whatever the
// locale says.
func terminal() *runewidth.Condition { return &runewidth.Condition{} }

// around cuts a line that is wider than the terminal to what lies around the
// place, marking each cut with "…".
func (c cells) around(from, to, width int) (cells, int, int) {
	if width <= 0 || c.width() <= width {
		return c, from, to
	}
	first := 0 // cell at which the shown part begins
	if to > width-1 {
		first = max(0, min(from-width/3, c.width()-width+1))
	}
	type cell = struct {
		text  string
		width int
	}
	var out cells
	col, shown := 0, 0
	if first > 0 {
		out, shown = append(out, cell{"…", 1}), 1
	}
	left := -1
	for _, x := range c {
		at := col
		col += x.width
		if first > 0 && at <= first { // its place is the mark's
			continue
		}
		if shown+x.width > width-1 && col < c.width() {
			out = append(out, cell{"…", 1})
			shown++
			break
		}
		if left < 0 {
			left = at - shown
		}
		out = append(out, x)
		shown += x.width
	}
	left = max(left, 0)
	from = max(0, min(from-left, shown-1))
	return out, from, max(from+1, min(to-left, shown))
}

// wrap breaks a text at spaces so that no line is wider than width, where it
// can.
func wrap(s string, width int) []string {
	if width <= 0 || terminal().StringWidth(s) <= width {
		return []string{s}
	}
	var out []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		switch {
		case line == "":
			line = word
		case terminal().StringWidth(line)+1+terminal().StringWidth(word) <= width:
			line += " " + word
		default:
			out = append(out, line)
			line = "  " + word
		}
	}
	return append(out, line)
}
