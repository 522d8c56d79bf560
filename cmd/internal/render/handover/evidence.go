package handover

import (
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
)

// evidence is how the program's figures were verified, what rests on memory and
// what nothing outside verifies.
func (p *page) evidence() []Block {
	d := p.d.Evidence
	c := func(n int, key string) Span { return count(n, "evidence.counts."+key) }
	out := []Block{Paragraph{Spans: spans(text("The program's tests work "), c(d.Counts.Computed, "computed"), text(" cases from "), c(d.Counts.Sources, "sources"),
		text(" sources and compare "), c(d.Counts.Figures, "figures"), text(" figures; each lies within the tolerance of its case, as a rule half a unit of the last digit printed. The answer is published in "),
		c(d.Counts.Published, "published"), text(" cases and worked out from a source in "), c(d.Counts.Worked, "worked"), text("; "), c(d.Counts.Practice, "practice"),
		text(" are facts of the trade without a source. The command tables --evidence shows each case with its source."))}}

	subjects := Table{Name: "evidence", Caption: "Published cases by subject", Columns: []Column{col("Subject"), fig("Cases", ""), fig("Published", ""), fig("Worked out", ""), fig("Practice", ""), fig("Figures", ""), fig("Worst off", "%")}}
	for i, s := range d.Subjects {
		key := func(k string) string { return path("evidence.subjects", i, k) }
		subjects.Rows = append(subjects.Rows, Row{Cells: []Cell{cellText(s.Title), figure(count(s.Cases, key("cases"))), figure(count(s.Published, key("published"))), figure(count(s.Worked, key("worked"))),
			figure(count(s.Practice, key("practice"))), figure(count(s.Figures, key("figures"))), figure(scaled(s.Worst, 100, 3, key("worst_share")))}})
	}
	tools := Table{Name: "evidence-tools", Caption: "Beside general-purpose tools, on drawn cases", Columns: []Column{col("Subject"), col("What"), col("With"), fig("Cases", ""), col("Allowed"), col("Worst"), col("Unit")}}
	for i, x := range d.Compared {
		tools.Rows = append(tools.Rows, Row{Cells: []Cell{cellText(x.Subject), cellText(x.What), cellText(strings.TrimSpace(x.Tool + " " + x.Version)), figure(count(x.Cases, path("evidence.compared", i, "cases"))),
			cellText(strconv.FormatFloat(x.Most, 'g', 2, 64)), cellText(strconv.FormatFloat(x.Worst, 'g', 2, 64)), cellText(x.Unit)}})
	}
	out = append(out, subjects, tools)
	out = append(out, Heading{Level: 3, Spans: spans(text("From memory, to be checked in the code itself"))})
	out = appendTable(out, memoryTables(d.Memory))
	out = appendTable(out, memoryClauses(d.Memory))
	return append(out, Heading{Level: 3, Spans: spans(text("Verified by nothing outside"))}, bullets(d.NotVerified))
}

func memoryTables(m document.EvidenceMemory) Table {
	t := Table{Name: "evidence-memory-rows", Caption: "Rows of tables", Columns: []Column{col("Table"), col("Stands in"), fig("Of rows", ""), col("Rows")}}
	for i, x := range m.Tables {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(x.Title), cellText(x.Cite), figure(count(x.Of, path("evidence.memory.tables", i, "of"))), cellText(strings.Join(x.Rows, ", "))}})
	}
	return t
}

func memoryClauses(m document.EvidenceMemory) Table {
	t := Table{Name: "evidence-memory-clauses", Caption: "Clauses of rules and of single values", Columns: []Column{col("Rule or value"), col("Clause")}}
	for _, x := range m.Rules {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(x.ID), cellText(strings.Join(x.Clauses, ", "))}})
	}
	for _, x := range m.Values {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(x.Name), cellText(x.Clause)}})
	}
	return t
}
