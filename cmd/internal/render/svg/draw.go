package svg

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Figure is a drawing with what is said about it.
type Figure struct {
	ID     string
	Title  string
	Desc   string
	Markup string
	Unit   [2]float64 // width and height of a hatched rectangle, where it has any
}

// canvas collects the elements of a drawing.
type canvas struct {
	b  strings.Builder
	id string // prefix of every id in the drawing
}

// figure closes the drawing.
func (c *canvas) figure(title, desc string, width, height float64) Figure {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="drawing" viewBox="0 0 %s %s" width="%s" height="%s" role="img" aria-labelledby="%s-title %s-desc">`,
		n(width), n(height), n(width), n(height), c.id, c.id)
	fmt.Fprintf(&b, `<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`, c.id, escape(title), c.id, escape(desc))
	b.WriteString(c.b.String())
	b.WriteString("\n</svg>")
	return Figure{ID: c.id, Title: title, Desc: desc, Markup: b.String()}
}

func (c *canvas) printf(format string, a ...any) { fmt.Fprintf(&c.b, "\n"+format, a...) }

func (c *canvas) line(class string, x1, y1, x2, y2 float64) {
	c.printf(`<path class="%s" d="M%s %sL%s %s"/>`, class, n(x1), n(y1), n(x2), n(y2))
}

func (c *canvas) path(class, d string) { c.printf(`<path class="%s" d="%s"/>`, class, d) }

func (c *canvas) rect(class string, x, y, w, h float64) {
	c.printf(`<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`, class, n(x), n(y), n(w), n(h))
}

func (c *canvas) circle(class string, x, y, r float64) {
	c.printf(`<circle class="%s" cx="%s" cy="%s" r="%s"/>`, class, n(x), n(y), n(r))
}

// The classes of text by where it is anchored.
const (
	left   = ""
	middle = " m"
	right  = " e"
)

func (c *canvas) text(class, anchor string, x, y float64, s string) {
	c.printf(`<text class="%s%s" x="%s" y="%s">%s</text>`, class, anchor, n(x), n(y), escape(s))
}

// figureText writes a number of the document, marked with where it stands there.
func (c *canvas) figureText(class, anchor string, x, y float64, number, key, after string) {
	c.printf(`<text class="%s%s" x="%s" y="%s"><tspan data-key="%s">%s</tspan>%s</text>`, class, anchor, n(x), n(y), escape(key), escape(number), escape(after))
}

// n writes a coordinate with at most two decimals, the same on every machine.
func n(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// escape makes any text harmless between tags and in quoted attributes.
func escape(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;").Replace(Plain(s))
}

// Plain shows what would not print: a name from the file must not break a line
// or turn the direction of the text.
func Plain(s string) string {
	if strings.IndexFunc(s, hidden) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if !hidden(r) {
			b.WriteRune(r)
			continue
		}
		q := strconv.QuoteRuneToASCII(r)
		b.WriteString(q[1 : len(q)-1])
	}
	return b.String()
}

func hidden(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }

// Short cuts a text to so many characters, with an ellipsis where some are lost.
func Short(s string, most int) string {
	r := []rune(Plain(s))
	if len(r) <= most {
		return string(r)
	}
	return string(r[:most-1]) + "…"
}
