package page

import (
	"fmt"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Explanation lays out the working of circuits, panels and rooms.
func Explanation(d document.Explanation) Page {
	var p Page
	p.add(Heading{1, d.Site}, Text{Text: "working, step by step; code: " + d.CodeTitle})
	steps := Table{ID: "steps", DataOnly: true, Columns: []Column{{Name: "kind"}, {Name: "name"}, {Name: "section"}, {Name: "step"}, {Name: "working"}, {Name: "source"}, {Name: "checked"}, {Name: "note"}}}
	for _, s := range d.Subjects {
		p.add(Heading{2, s.Kind + " " + s.Name})
		for _, section := range s.Sections {
			p.add(sectionBlocks(section, s.Kind+" "+s.Name)...)
			for _, w := range section.Steps {
				steps.Rows = append(steps.Rows, []Cell{text(s.Kind), text(s.Name), text(section.Title), text(w.Name), text(w.Line), text(w.Source), text(w.Checked), text(w.Note)})
			}
		}
		p.add(limitBlocks(s)...)
		for _, b := range findingBlocks(s.Findings) {
			if h, ok := b.(Heading); ok {
				h.Level = 3
				b = h
			}
			p.add(b)
		}
	}
	p.add(steps, Text{ID: "caution", Text: d.Caution})
	return p
}

// sectionBlocks are the steps of one question, under their title where it says
// more than the heading above.
func sectionBlocks(s document.Section, heading string) []Block {
	if len(s.Steps) == 0 && len(s.Notes) == 0 {
		return nil
	}
	var l List
	for _, w := range s.Steps {
		l.Items = append(l.Items, stepText(w))
	}
	l.Items = append(l.Items, s.Notes...)
	if s.Title == heading {
		return []Block{l}
	}
	return []Block{Heading{3, s.Title}, l}
}

func stepText(w document.Worked) string {
	s := w.Line
	if w.Note != "" {
		s += "; " + w.Note
	}
	if w.Source != "" {
		s += " [" + w.Source + "]"
	}
	return s
}

func limitBlocks(s document.Subject) []Block {
	if len(s.Limits) == 0 {
		return nil
	}
	t := Table{ID: "limits", Columns: []Column{{Name: "of", DataOnly: true}, {Name: "limit"}, {Name: "is"}, {Name: "may be"}, {Name: "unit"}, {Name: "used", Unit: "%"}}}
	for _, l := range s.Limits {
		actual, limit := units.Against(l.Actual, l.Limit)
		t.Rows = append(t.Rows, []Cell{text(s.Name), text(fmt.Sprintf("%s (%s)", l.Title, l.Rule)), text(actual), text(limit), text(l.Unit), number(l.UsedPercent, 1)})
	}
	return []Block{Heading{3, "limits, the governing one first"}, t}
}
