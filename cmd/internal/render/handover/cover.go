package handover

import (
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
)

// Cover is the first page: what this is, of what, and how it came out.
type Cover struct {
	Site    []Span
	What    string
	Facts   []Field
	Verdict Verdict
	Figures []KeyFigure
	Assumed []Span
	Missing []Span
	Caution string
	Unknown string
}

// Verdict is the outcome in words and counts.
type Verdict struct {
	Class  string // of the gravest finding: violation, cannot, warning, advice, none
	Says   string
	Counts []Field
}

// KeyFigure is one of the figures that the cover shows large.
type KeyFigure struct {
	Value []Span
	Unit  string
	What  []Span
}

// strap names the document at the head of each part.
func (p *page) strap() []Span {
	s := spans(name(p.d.Plan.Site))
	if p.d.Date != "" {
		s = append(s, text(" · "), name(p.d.Date))
	}
	return append(s, text(" · "+p.d.Plan.CodeTitle))
}

func (p *page) cover() Cover {
	d := p.d.Plan
	c := Cover{Site: spans(name(d.Site)), What: "Planned circuits", Verdict: p.verdict(), Caution: p.d.Caution, Figures: p.keyFigures(),
		Unknown: "? = not known, – = does not apply. What cannot be told counts as not met."}
	switch {
	case d.AsBuilt:
		c.What = "Circuits as they are"
	case d.NothingPlanned():
		c.What = "Circuits that exist, nothing is planned"
	}
	date := spans(text("not given"))
	if p.d.Date != "" {
		date = spans(name(p.d.Date))
	}
	c.Facts = []Field{
		{"Date", date},
		{"Code profile", spans(text(d.CodeTitle + " (" + d.Code + ")"))},
		{"Use", spans(text(d.Use))},
		{"Prepared for", spans(text(readers(p.d.Parts)))},
		{"Checked", spans(count(d.Checked.Rules, "plan.checked.rules"), text(" rules, those of the profile and "), count(d.Checked.Practice, "plan.checked.practice_rules"), text(" of good practice"))},
	}
	for i, s := range p.d.Services {
		key := path("services", i, "main_amps")
		c.Facts = append(c.Facts, Field{"Service", append(spans(text("panel "), p.panel(s.Panel), text(", "+s.System+", main ")), maybeAmount(s.MainAmps, 2, key), text(" A"))})
	}
	c.Assumed = spans(text(plural(len(p.d.Assumed), "assumption", "assumptions")), text(": values that the file does not give and that were taken in their place. "),
		p.link(text("Read and confirm them"), atQuestions, "assumed"), text("."))
	c.Missing = spans(text("Nothing that a rule asks for is missing from the file."))
	if n := len(p.d.Unknown); n > 0 {
		c.Missing = spans(text(plural(n, "fact is", "facts are")+" not known. "), p.link(text("See the open questions"), atQuestions, "unknown"), text("."))
	}
	return c
}

// readers writes who the document is for.
func readers(list []string) string {
	if len(list) == len(document.Readers()) {
		return "all readers: " + strings.Join(list, ", ")
	}
	return strings.Join(list, ", ")
}

func (p *page) verdict() Verdict {
	v := p.d.Plan.Verdict
	out := Verdict{Class: "none", Says: sentence(v.Says)}
	for _, x := range []struct {
		class, one, many string
		n                int
		key              string
	}{
		{"violation", "rule broken", "rules broken", v.Violations, "violations"}, {"cannot", "cannot be told", "cannot be told", v.CannotTell, "cannot_tell"},
		{"warning", "warning", "warnings", v.Warnings, "warnings"}, {"advice", "piece of advice", "pieces of advice", v.Advice, "advice"},
	} {
		if x.n > 0 && out.Class == "none" {
			out.Class = x.class
		}
		word := x.many
		if x.n == 1 {
			word = x.one
		}
		out.Counts = append(out.Counts, Field{word, spans(count(x.n, "plan.verdict."+x.key))})
	}
	return out
}

// keyFigures are the few figures that every reader asks for first.
func (p *page) keyFigures() []KeyFigure {
	d := p.d.Plan
	existing := 0
	for _, c := range d.Circuits {
		if c.Existing {
			existing++
		}
	}
	circuits := "circuits"
	if len(d.Circuits) == 1 {
		circuits = "circuit"
	}
	if existing > 0 {
		circuits += ", " + strconv.Itoa(existing) + " there already"
	}
	out := []KeyFigure{{spans(count(len(d.Circuits), "")), "", spans(text(circuits + ", on " + plural(len(d.Panels), "panel", "panels")))}}
	for i, s := range p.d.Services {
		out = append(out, KeyFigure{spans(number(s.RequiredAmps, 1, path("services", i, "required_amps"))), "A",
			append(spans(text(orMore(s.LeastLoad)+"asked of the fullest leg of "), name(s.Panel), text(", main ")), maybeAmount(s.MainAmps, 2, path("services", i, "main_amps")), text(" A"))})
		if i == 2 {
			break
		}
	}
	out = append(out,
		KeyFigure{spans(scaled(p.d.Day.Demand.Watts, 0.001, 1, "day.demand.watts")), "kW", spans(text(orMore(p.d.Day.AtLeast) + "largest quarter-hour, all cycling loads on"))},
		KeyFigure{spans(number(p.d.Day.EnergyDay, 0, "day.energy_kwh_per_day")), "kWh", spans(text(orMore(p.d.Day.AtLeast) + "a day"))})
	if len(p.d.Heat.Rooms) > 0 {
		b := p.d.Heat.Block
		what := spans(text(orMore(b.AtLeast)+"of heat at the worst hour, "), number(b.Tons, 2, "heat.block.tons"), text(" tons"))
		if b.AtLeast {
			what = append(what, text(": "+b.LeastTitle()))
		}
		out = append(out, KeyFigure{spans(p.heat(b.TotalBTUH, "heat.block.total_btuh")), p.m.HeatUnit(), what})
	}
	return out
}

// orMore marks a figure of which a part is not known.
func orMore(least bool) string {
	if least {
		return "or more "
	}
	return ""
}
