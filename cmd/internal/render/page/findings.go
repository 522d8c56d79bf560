package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
)

func assumptionBlocks(all []document.Assumption) []Block {
	if len(all) == 0 {
		return nil
	}
	t := Table{ID: "assumptions", DataOnly: true, Columns: []Column{{Name: "subject"}, {Name: "value"}, {Name: "why"}, {Name: "source"}}}
	for _, a := range all {
		t.Rows = append(t.Rows, []Cell{text(a.Subject), text(a.Value), text(a.Why), text(a.Source)})
	}
	return []Block{Heading{2, "Assumed, because it was not given"}, List{grouped(all)}, t}
}

// grouped writes what was assumed alike of several things in one item.
func grouped(all []document.Assumption) []string {
	type alike struct{ key, value, why, source string }
	var order []alike
	subjects := map[alike][]string{}
	for _, a := range all {
		i := strings.LastIndex(a.Subject, ".")
		g := alike{a.Subject[i+1:], a.Value, a.Why, a.Source}
		if subjects[g] == nil {
			order = append(order, g)
		}
		subjects[g] = append(subjects[g], a.Subject[:max(i, 0)])
	}
	items := make([]string, len(order))
	for i, g := range order {
		what := g.key
		switch of := subjects[g]; {
		case len(of) > 1:
			what = g.key + " of " + strings.Join(of, ", ")
		case of[0] != "":
			what = of[0] + "." + g.key
		}
		items[i] = fmt.Sprintf("%s = %s: %s [%s]", what, g.value, g.why, g.source)
	}
	return items
}

func findingBlocks(all []document.Finding) []Block {
	if len(all) == 0 {
		return nil
	}
	blocks := []Block{Heading{2, "Findings"}}
	t := Table{ID: "findings", DataOnly: true, Columns: []Column{{Name: "severity"}, {Name: "verdict"}, {Name: "rule"}, {Name: "subject"}, {Name: "line"},
		{Name: "message"}, {Name: "clause"}, {Name: "remedy"}}}
	for _, f := range all {
		blocks = append(blocks, Finding{Severity: f.Severity, Head: findingHead(f), Message: f.Message + alsoOpen(f), Clause: f.Clause, Remedy: f.Remedy})
		line := text("")
		if f.Line > 0 {
			line = whole(f.Line)
		}
		t.Rows = append(t.Rows, []Cell{text(f.Severity), text(f.Verdict), text(f.Rule), text(f.Subject), line, text(f.Message), text(f.Clause), text(f.Remedy)})
	}
	if slices.ContainsFunc(all, func(f document.Finding) bool { return strings.Contains(f.Remedy, "another circuit") }) {
		blocks = append(blocks, Text{Text: document.AnotherCircuit})
	}
	return append(blocks, t)
}

// checkedBlocks say what was looked at and what was not. They stand before the
// findings, which end the page.
func checkedBlocks(c document.Checked) []Block {
	blocks := []Block{Heading{2, "What was checked"}, Text{Text: fmt.Sprintf("%s, those of %s and %d of good practice; branchwork rules NAME explains one.", plural(c.Rules, "rule", "rules"), c.CodeTitle, c.Practice)}}
	if len(c.NotCovered) > 0 {
		t := Table{ID: "not checked", DataOnly: true, Columns: []Column{{Name: "what"}}}
		for _, n := range c.NotCovered {
			t.Rows = append(t.Rows, []Cell{text(n)})
		}
		blocks = append(blocks, Text{Text: "Not checked:"}, List{c.NotCovered}, t)
	}
	return blocks
}

// findingHead names what a finding is about: its severity first.
func findingHead(f document.Finding) string {
	s := f.Severity
	if f.Verdict == "cannot tell" {
		s = "not known, " + f.Severity + " if it fails:"
	}
	s += " " + f.Rule + ", " + f.Subject
	if f.Line > 0 {
		s += ", line " + strconv.Itoa(f.Line)
	}
	return s
}

// alsoOpen names the further rules that one missing fact leaves open.
func alsoOpen(f document.Finding) string {
	if len(f.Also) == 0 {
		return ""
	}
	return "; this leaves open too: " + strings.Join(f.Also, ", ")
}
