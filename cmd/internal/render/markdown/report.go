package markdown

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"branchwork/cmd/internal/render/handover"
)

// Report prints a report: every section with its tables; of a drawing what it
// shows in words, and its key.
func Report(w io.Writer, l handover.Layout) error {
	b := &bytes.Buffer{}
	cover(b, l)
	fmt.Fprint(b, "\n## Contents\n\n")
	for _, s := range l.Sections {
		fmt.Fprintf(b, "%s. [%s](#%s)%s\n", s.Number, escape(s.Title), anchor(s), readers(s))
	}
	for _, s := range l.Sections {
		fmt.Fprintf(b, "\n## %s\n", title(s))
		for _, x := range s.Blocks {
			if err := block(b, x); err != nil {
				return err
			}
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func readers(s handover.Section) string {
	if s.For == "" {
		return ""
	}
	return ": for " + s.For
}

func title(s handover.Section) string { return s.Number + " " + escape(s.Title) }

// anchor is the name that readers of Markdown commonly give a heading: small
// letters, hyphens for spaces, other signs dropped.
func anchor(s handover.Section) string {
	var b strings.Builder
	for _, r := range strings.ToLower(s.Number + " " + s.Title) {
		switch {
		case r == ' ', r == '-':
			b.WriteByte('-')
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		}
	}
	return b.String()
}

func cover(b *bytes.Buffer, l handover.Layout) {
	c := l.Cover
	fmt.Fprintf(b, "# %s\n\n%s\n\n", words(c.Site), escape(c.What))
	pairs(b, c.Facts)
	fmt.Fprintf(b, "\n**%s**\n\n", escape(c.Verdict.Says))
	for _, f := range c.Verdict.Counts {
		fmt.Fprintf(b, "- %s: %s\n", escape(f.Name), words(f.Spans))
	}
	b.WriteByte('\n')
	for _, f := range c.Figures {
		unit := ""
		if f.Unit != "" {
			unit = " " + escape(f.Unit)
		}
		fmt.Fprintf(b, "- **%s%s** %s\n", words(f.Value), unit, words(f.What))
	}
	fmt.Fprintf(b, "\nAssumed: %s\n\nNot known: %s %s\n\n%s\n", words(c.Assumed), words(c.Missing), escape(c.Unknown), escape(c.Caution))
}

func pairs(b *bytes.Buffer, list []handover.Field) {
	for _, f := range list {
		fmt.Fprintf(b, "- %s: %s\n", escape(f.Name), words(f.Spans))
	}
}

func words(list []handover.Span) string { return escape(strings.TrimSpace(handover.Plain(list))) }

func block(b *bytes.Buffer, x handover.Block) error {
	b.WriteByte('\n')
	switch x := x.(type) {
	case handover.Heading:
		fmt.Fprintf(b, "%s %s\n", strings.Repeat("#", x.Level), words(x.Spans))
	case handover.Paragraph:
		fmt.Fprintln(b, words(x.Spans))
	case handover.Fields:
		pairs(b, x.Rows)
	case handover.List:
		for _, i := range x.Items {
			fmt.Fprintf(b, "- %s\n", words(i.Spans))
		}
	case handover.Table:
		reportTable(b, x)
	case handover.Directory:
		reportTable(b, x.Table())
	case handover.Drawing:
		fmt.Fprintf(b, "Drawing: %s %s\n", words(x.Spans), escape(x.Description))
		if len(x.Key) > 0 {
			b.WriteByte('\n')
		}
		for _, k := range x.Key {
			fmt.Fprintf(b, "- %s\n", words(k.Spans))
		}
	case handover.Findings:
		for _, f := range x.Items {
			fmt.Fprintf(b, "%d. **%s** %s, %s: %s\n", f.Number, escape(f.Word), escape(f.Rule), words(f.Place), escape(f.Message))
			for _, s := range []struct{ name, says string }{{"clause", f.Clause}, {"remedy", f.Remedy}} {
				if s.says != "" {
					fmt.Fprintf(b, "   - %s: %s\n", s.name, escape(s.says))
				}
			}
			if f.Line > 0 {
				fmt.Fprintf(b, "   - line %d of the file\n", f.Line)
			}
		}
	case handover.Steps:
		steps(b, x)
	case handover.Form:
		for _, s := range x.Lines {
			fmt.Fprintf(b, "- %s: \\_\\_\\_\\_\\_\\_\\_\\_\n", escape(s))
		}
	case handover.Signature:
		signature(b, x)
	default:
		return fmt.Errorf("markdown: no way to print %T", x)
	}
	return nil
}

func steps(b *bytes.Buffer, x handover.Steps) {
	if x.Title != "" {
		fmt.Fprintf(b, "#### %s\n\n", escape(x.Title))
	}
	for _, l := range x.Lines {
		fmt.Fprintf(b, "- %s", escape(l.Text))
		if l.Note != "" {
			fmt.Fprintf(b, "; %s", escape(l.Note))
		}
		if l.Source != "" {
			fmt.Fprintf(b, " (%s)", escape(l.Source))
		}
		b.WriteByte('\n')
	}
	for _, n := range x.Notes {
		fmt.Fprintf(b, "- %s\n", escape(n))
	}
}

func signature(b *bytes.Buffer, x handover.Signature) {
	for _, s := range []string{"Reviewed by", "License no. and state", "Date", "Signature", "Stamp"} {
		fmt.Fprintf(b, "- %s: \\_\\_\\_\\_\\_\\_\\_\\_\n", s)
	}
	b.WriteByte('\n')
	line(b, []string{"No.", "Date", "What changed", "By"})
	line(b, []string{"---:", "---", "---", "---"})
	for _, n := range x.Revisions {
		date, what := "", ""
		if n == 0 {
			date, what = escape(x.Date), "first issue, for review"
		}
		line(b, []string{fmt.Sprint(n), date, what, ""})
	}
}

func reportTable(b *bytes.Buffer, t handover.Table) {
	if t.Caption != "" {
		fmt.Fprintf(b, "**%s**\n\n", escape(t.Caption))
	}
	heads, rules := []string{}, []string{}
	for _, c := range t.Columns {
		if c.Nav || c.DataOnly {
			continue
		}
		heads = append(heads, escape(c.Label()))
		if c.Num {
			rules = append(rules, "---:")
		} else {
			rules = append(rules, "---")
		}
	}
	line(b, heads)
	line(b, rules)
	for i, r := range append(append([]handover.Row{}, t.Rows...), t.Foot...) {
		cells := []string{}
		for k, c := range r.Cells {
			if t.Columns[k].Nav || t.Columns[k].DataOnly {
				continue
			}
			s := escape(strings.TrimSpace(c.Plain()))
			if i >= len(t.Rows) && s != "" && !c.Empty() {
				s = "**" + s + "**"
			}
			cells = append(cells, s)
		}
		line(b, cells)
	}
}
