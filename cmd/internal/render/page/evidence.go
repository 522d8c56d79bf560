package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Evidence lays out how the program's figures were verified.
func Evidence(d document.Evidence) Page {
	var p Page
	c := d.Counts
	p.add(Heading{1, "How the figures were verified"},
		Text{Text: fmt.Sprintf("The tests work %d cases from %d sources and compare %d figures. Each lies within the tolerance of its case, as a rule half a unit of the last digit printed; %d are exactly what is wanted. In %d cases the test wants what the program computes and not what the source prints; the reasons are listed. On drawn cases the program runs beside %s.",
			c.Computed, c.Sources, c.Figures, c.Same, len(d.Differ), plural(c.Tools, "general-purpose tool", "general-purpose tools"))},
		Fields{[]Field{
			{"answers published", plural(c.Published, "case", "cases")},
			{"answers worked out from a source", plural(c.Worked, "case", "cases")},
			{"facts of the trade, no source", plural(c.Practice, "case", "cases")},
			{"answers from memory", plural(c.Memory, "case", "cases")},
			{"kept, not computed by the program", plural(c.NotComputed, "case", "cases")},
			{"from memory in " + d.CodeTitle, fmt.Sprintf("%d of %d table rows, clauses of %d of %d rules", d.Memory.RowCount, d.Memory.OfRows, len(d.Memory.Rules), d.Memory.OfRules)},
		}},
		Text{Text: "One subject case by case, with its sources: branchwork tables --evidence SUBJECT. Cases and figures are those that the tests read and wrote down; a test fails where it computes another figure."})
	p.add(Heading{2, "By subject"}, evidenceSubjects(d))
	p.add(Heading{2, "Beside general-purpose tools"}, Text{Text: "The continuous integration draws new cases at every run and prints the worst difference. Here: the run that was written down."}, evidenceCompared(d))
	p.add(Heading{2, "From memory in " + d.CodeTitle}, Text{Text: "No source was read for these; check them in the code itself before you rely on them."})
	memory(&p, "memory", d.Memory)
	p.add(Heading{2, "Common practice, no source"})
	memory(&p, "practice", d.Practice)
	p.add(Heading{2, "Verified by nothing outside"}, List{d.NotVerified})
	if len(d.Differ) > 0 {
		p.add(Heading{2, "Where a source answers differently"}, evidenceDiffer(d))
	}
	p.add(Heading{2, "Sources of the cases"}, evidenceSources(d))
	return p
}

func evidenceSubjects(d document.Evidence) Table {
	t := Table{ID: "subjects", Columns: []Column{{Name: "subject"}, {Name: "of", Part: 1}, {Name: "cases", Part: 1}, {Name: "published", Part: 1},
		{Name: "worked out", Part: 1}, {Name: "practice", Part: 1}, {Name: "figures", Part: 1},
		{Name: "names", Part: 2}, {Name: "loosest tolerance", Unit: "%", Part: 2}, {Name: "worst off", Unit: "%", Part: 2}, {Name: "in case", Part: 2}, {Name: "of its tolerance", Unit: "%", Part: 2},
		{Name: "tests", DataOnly: true}}}
	for _, s := range d.Subjects {
		t.Rows = append(t.Rows, []Cell{text(s.Name), text(s.Title), whole(s.Cases), whole(s.Published), whole(s.Worked), whole(s.Practice), whole(s.Figures),
			whole(s.Names), percent(s.Within), percent(s.Worst), text(orNone(s.WorstCase)), percent(s.Of), words(s.Tests)})
	}
	return t
}

func evidenceCompared(d document.Evidence) Table {
	t := Table{ID: "compared", Columns: []Column{{Name: "subject"}, {Name: "what", Part: 1}, {Name: "with", Part: 1}, {Name: "cases", Part: 1},
		{Name: "allowed", Part: 1}, {Name: "worst", Part: 1}, {Name: "unit", Part: 1}, {Name: "test", DataOnly: true}}}
	for _, c := range d.Compared {
		t.Rows = append(t.Rows, []Cell{text(c.Subject), text(c.What), text(strings.TrimSpace(c.Tool + " " + c.Version)), whole(c.Cases),
			short(c.Most), short(c.Worst), text(c.Unit), text(c.Test)})
	}
	return t
}

func evidenceDiffer(d document.Evidence) Table {
	t := Table{ID: "differ", Columns: []Column{{Name: "case"}, {Name: "subject", Part: 1}, {Name: "case with what the program computes", Part: 1}, {Name: "why", Part: 2}, {Name: "source", Part: 3}, {Name: "at", Part: 3}}}
	for _, x := range d.Differ {
		t.Rows = append(t.Rows, []Cell{text(x.Case), text(x.Subject), text(x.Says), text(x.Why), text(x.Source), text(x.At)})
	}
	return t
}

func evidenceSources(d document.Evidence) Table {
	t := Table{ID: "sources", Columns: []Column{{Name: "source"}, {Name: "title", Part: 1}, {Name: "cases", Part: 1}, {Name: "figures", Part: 1},
		{Name: "worst off", Unit: "%", Part: 1}, {Name: "by", DataOnly: true}, {Name: "url", DataOnly: true}}}
	for _, s := range d.Sources {
		t.Rows = append(t.Rows, []Cell{text(s.Key), text(s.Title), whole(s.Cases), whole(s.Figures), percent(s.Worst), text(orNone(s.By)), text(orNone(s.URL))})
	}
	return t
}

// memory adds what a profile holds without a source that was read.
func memory(p *Page, id string, m document.EvidenceMemory) {
	if m.RowCount+len(m.Rules)+len(m.Values) == 0 {
		p.add(Text{Text: "Nothing."})
		return
	}
	if len(m.Tables) > 0 {
		t := Table{ID: id + "-tables", Columns: []Column{{Name: "table"}, {Name: "stands in", Part: 1}, {Name: "rows", Part: 1}, {Name: "of", Part: 1}, {Name: "which", Part: 1}}}
		for _, x := range m.Tables {
			which := strings.Join(x.Rows, ", ")
			if len(x.Rows) == x.Of {
				which = "all: " + which
			}
			t.Rows = append(t.Rows, []Cell{text(x.ID), text(x.Cite), whole(len(x.Rows)), whole(x.Of), text(which)})
		}
		p.add(t)
	}
	if len(m.Rules) > 0 {
		t := Table{ID: id + "-rules", Columns: []Column{{Name: "rule"}, {Name: "what must hold", Part: 1}, {Name: "clause", Part: 1}}}
		for _, x := range m.Rules {
			t.Rows = append(t.Rows, []Cell{text(x.ID), text(x.Title), words(x.Clauses)})
		}
		p.add(t)
	}
	if len(m.Values) > 0 {
		t := Table{ID: id + "-values", Columns: []Column{{Name: "value"}, {Name: "clause", Part: 1}}}
		for _, x := range m.Values {
			t.Rows = append(t.Rows, []Cell{text(x.Name), text(x.Clause)})
		}
		p.add(t)
	}
}

// EvidenceCases lays out one subject case by case.
func EvidenceCases(d document.EvidenceCases) Page {
	var p Page
	p.add(Heading{1, "Published cases: " + d.Title})
	t := Table{ID: "cases", Columns: []Column{{Name: "case"}, {Name: "what the source says", Part: 1}, {Name: "source", Part: 2}, {Name: "at", Part: 2}, {Name: "answer", Part: 2}}}
	f := Table{ID: "figures", Columns: []Column{{Name: "case"}, {Name: "figure", Part: 1}, {Name: "wanted", Part: 1}, {Name: "computed", Part: 1}, {Name: "off", Unit: "%", Part: 1}, {Name: "tolerance", Part: 1}, {Name: "test", DataOnly: true}}}
	differ := Table{ID: "differ", Columns: []Column{{Name: "case"}, {Name: "why the program computes something else", Part: 1}}}
	for _, c := range d.Cases {
		t.Rows = append(t.Rows, []Cell{text(c.Case), text(c.Says), text(c.Source), text(c.At), text(c.Checked)})
		for _, x := range c.Figures {
			f.Rows = append(f.Rows, []Cell{text(c.Case), text(x.Name), text(x.Wanted), text(x.Computed), percent(x.Off), short(c.Tolerance), text(x.Test)})
		}
		if len(c.Figures) == 0 {
			f.Rows = append(f.Rows, []Cell{text(c.Case), text("not computed by the program"), text(none), text(none), text(none), text(none), text(none)})
		}
		if c.Differs != "" {
			differ.Rows = append(differ.Rows, []Cell{text(c.Case), text(c.Differs)})
		}
	}
	p.add(Heading{2, "Wanted and computed"}, f, Heading{2, "Cases"}, t)
	if len(differ.Rows) > 0 {
		p.add(Heading{2, "Where the source answers differently"}, differ)
	}
	p.add(Heading{2, "Sources"}, List{sourceLines(d.Sources)})
	return p
}

// percent prints a share with two digits that count: differences run from
// millionths to percents.
func percent(share float64) Cell { return short(100 * share) }

// short prints a number with two digits that count.
func short(x float64) Cell {
	if x == 0 {
		return number(0, 0)
	}
	digits := 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if digits > 6 {
		return text(strconv.FormatFloat(x, 'g', 2, 64))
	}
	s := units.Round(x, max(0, digits))
	_, frac, _ := strings.Cut(s, ".")
	return number(x, len(frac))
}

func orNone(s string) string {
	if s == "" {
		return none
	}
	return s
}
