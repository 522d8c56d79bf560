package handover

import (
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
)

// findings are the verdict and every finding, the gravest first.
func (p *page) findings() []Block {
	d := p.d.Plan
	out := []Block{Paragraph{Class: "says", Spans: spans(text(sentence(d.Verdict.Says)))}}
	var list Findings
	for i := len(d.Findings) - 1; i >= 0; i-- {
		list.Items = append(list.Items, p.finding(i))
	}
	if len(list.Items) > 0 {
		out = append(out, list)
	}
	if slices.ContainsFunc(d.Findings, func(f document.Finding) bool { return strings.Contains(f.Remedy, "another circuit") }) {
		out = append(out, Paragraph{Spans: spans(text(document.AnotherCircuit))})
	}
	out = append(out, Heading{Level: 3, Spans: spans(text("What was checked, and what was not"))},
		Paragraph{Spans: spans(count(d.Checked.Rules, "plan.checked.rules"), text(" rules, those of "+d.Checked.CodeTitle+" and "), count(d.Checked.Practice, "plan.checked.practice_rules"), text(" of good practice. Not checked:"))})
	return append(out, bullets(d.Checked.NotCovered))
}

func bullets(items []string) List {
	var l List
	for _, s := range items {
		l.Items = append(l.Items, Item{Spans: spans(text(s))})
	}
	return l
}

func (p *page) finding(i int) FindingItem {
	f := p.d.Plan.Findings[i]
	word := f.Severity
	if f.Verdict == "cannot tell" {
		word += ", cannot be told"
	}
	return FindingItem{ID: id("n", i), Severity: f.Severity, Word: word, Number: p.findingNumber(i), Rule: f.Rule, Place: p.place(p.d.About[i]),
		Message: text(bare(f.Message, p.d.About[i])).Text, Clause: text(f.Clause).Text, Remedy: text(f.Remedy).Text, Line: f.Line}
}

// bare is a finding's message without the subject at its head, which stands before
// it already.
func bare(message string, about document.Place) string {
	return strings.TrimPrefix(message, about.Kind+" "+about.Name+": ")
}

// questions are what has to be found out, on site and about the file.
func (p *page) questions() []Block {
	out := []Block{Heading{ID: "unknown", Level: 3, Spans: spans(text("Not known"))}}
	if len(p.d.Unknown) == 0 {
		out = append(out, Paragraph{Spans: spans(text("No rule waits for a fact."))})
	} else {
		out = append(out, p.unknown())
	}
	out = append(out, Heading{Level: 3, Spans: spans(text("To be settled on site"))}, bullets(onSite()))
	out = append(out, Heading{ID: "assumed", Level: 3, Spans: spans(text("Assumed, because it was not given"))})
	if len(p.d.Assumed) == 0 {
		return append(out, Paragraph{Spans: spans(text("Nothing was assumed."))})
	}
	t := Table{Name: "assumptions", Sheet: "Assumptions", Caption: "Assumptions, to be confirmed", Columns: []Column{col("Of"), col("What"), col("Taken"), col("Why"), col("Source")}}
	for _, a := range p.d.Assumed {
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(each(a.Subjects, name)...), cellText(a.Key), cellName(a.Value), cellText(a.Why), cellText(a.Source)}})
	}
	return append(out, t)
}

func (p *page) unknown() Table {
	t := Table{Name: "questions", Sheet: "Open questions", Caption: "Facts to be found out", Columns: []Column{fig("No.", ""), col("What"), col("Of"), col("What waits for it")}}
	for i, q := range p.d.Unknown {
		t.Rows = append(t.Rows, Row{Cells: []Cell{figure(count(i+1, "")), in(span(q.Ask, "strong")), in(p.place(q.Place)...), cellText(strings.Join(q.Because, "; "))}})
	}
	return t
}

// onSite is what no file can tell. It asks and answers nothing.
func onSite() []string {
	return []string{
		"voltage at the panel, measured under load, and whether it is within what the equipment accepts",
		"fault current available at the service, and the interrupting rating of the devices",
		"condition of the panel: bus, neutral, terminals, working space, and whether every space can take the breaker shown",
		"route and true length of each home run; lengths here come from the file and from rows drawn at its spacing",
		"temperature along the route, and other circuits in the same raceway",
		"labels of the equipment delivered against the equipment schedule: amperes at the voltage served, power factor, limit per breaker",
		"whose contactors, timers and controls switch the lighting, and what happens after a power failure",
		"the edition of the code adopted here, its local amendments, and who holds the permit",
	}
}
