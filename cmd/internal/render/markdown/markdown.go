// Package markdown prints a page as Markdown with pipe tables.
package markdown

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"branchwork/cmd/internal/render/page"
)

// Render prints the page.
func Render(w io.Writer, p page.Page) error {
	var b bytes.Buffer
	for i, block := range p.Blocks {
		if t, ok := block.(page.Table); ok && (t.DataOnly || len(t.Rows) == 0) {
			continue
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		if err := write(&b, block); err != nil {
			return err
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func write(b *bytes.Buffer, block page.Block) error {
	switch x := block.(type) {
	case page.Heading:
		fmt.Fprintf(b, "%s %s\n", strings.Repeat("#", x.Level), escape(x.Text))
	case page.Text:
		fmt.Fprintln(b, escape(x.Text))
	case page.Fields:
		for _, f := range x.Rows {
			fmt.Fprintf(b, "- %s: %s\n", escape(f.Name), escape(f.Value))
		}
	case page.List:
		for _, item := range x.Items {
			fmt.Fprintf(b, "- %s\n", escape(item))
		}
	case page.Finding:
		rest := strings.TrimPrefix(x.Head, x.Severity)
		fmt.Fprintf(b, "- **%s**%s: %s\n", x.Severity, escape(rest), escape(x.Message))
		fmt.Fprintf(b, "  - clause: %s\n  - remedy: %s\n", escape(x.Clause), escape(x.Remedy))
	case page.Chart:
		fmt.Fprintf(b, "```text\n%s\n```\n", strings.Join(x.Plain(plainWidth), "\n"))
	case page.Table:
		table(b, x)
	default:
		return fmt.Errorf("markdown: no way to print %T", block)
	}
	return nil
}

// plainWidth is how wide a chart in plain digits may be.
const plainWidth = 80

func table(b *bytes.Buffer, t page.Table) {
	columns, rows := t.Readable()
	heads, rules := make([]string, len(columns)), make([]string, len(columns))
	numeric := page.Numeric(columns, rows)
	for i, c := range columns {
		heads[i], rules[i] = escape(c.Head()), "---"
		if numeric[i] {
			rules[i] = "---:"
		}
	}
	line(b, heads)
	line(b, rules)
	for _, r := range rows {
		cells := make([]string, len(r))
		for i, c := range r {
			cells[i] = escape(c.Shown())
		}
		line(b, cells)
	}
}

func line(b *bytes.Buffer, cells []string) { b.WriteString("| " + strings.Join(cells, " | ") + " |\n") }

// special are the characters that could open or close something in Markdown
// where a name stands in the middle of a line.
const special = "\\`*_[]<>|&#~!"

// escape keeps a text from being read as Markdown or HTML, and shows what does
// not print.
func escape(s string) string {
	var b strings.Builder
	for i, c := range page.Printable(s) {
		switch {
		case strings.ContainsRune(special, c), i == 0 && strings.ContainsRune("-+=", c):
			b.WriteByte('\\')
			b.WriteRune(c)
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}
