package handover

import (
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// workedFor reports whether the working of a subject is printed: circuits and
// panels for those who build and inspect them, rooms for those who cool them.
func (p *page) workedFor(s document.Subject) bool {
	if !p.has[atWorking] {
		return false
	}
	if s.Kind == "room" {
		return p.d.For("hvac")
	}
	return p.d.For("electrician", "inspector")
}

// anchorOf is where the working of a subject stands.
func (p *page) anchorOf(s document.Subject) string {
	switch s.Kind {
	case "panel":
		return id("wp", p.at.panels[s.Name])
	case "room":
		return id("wr", p.at.rooms[s.Name])
	}
	return id("wc", p.at.circuits[s.Name])
}

// anchorWorking notes which working is printed, so that others can link to it.
func (p *page) anchorWorking() {
	for _, s := range p.d.Working.Subjects {
		if p.workedFor(s) {
			p.at.working[p.anchorOf(s)] = true
		}
	}
}

// working is every figure of every circuit, panel and room, step by step.
func (p *page) working() []Block {
	out := []Block{Paragraph{Spans: spans(text("What was computed, in the order in which it was computed: formula, numbers put in, result, and the clause or source of each step."))}}
	if p.d.For("electrician", "inspector") {
		out = append(out, Paragraph{Class: "quiet", Spans: spans(text("Ic continuous current, In other, Im of loads marked with their circuit (MCA); k allowance for continuous load; I load; Ireq, Imin ampacity asked for; " +
			"It, Ii ampacity in the columns of the terminations and of the insulation, Icorr corrected; fa, fb factors for ambient temperature and for current-carrying conductors; " +
			"Ip, Iq parts of a current in phase with the voltage and at right angles; d distance, Mp, Mq current times distance; R, X ohms per 1,000 ft; V volts, S volt-amperes, P watts, pf power factor, n number."))})
	}
	for _, s := range p.d.Working.Subjects {
		if !p.workedFor(s) {
			continue
		}
		out = append(out, Heading{ID: p.anchorOf(s), Level: 3, Spans: p.subject(s)})
		for _, x := range s.Sections {
			if len(x.Steps)+len(x.Notes) > 0 {
				out = append(out, p.question(x, s.Kind+" "+s.Name))
			}
		}
	}
	return out
}

func (p *page) subject(s document.Subject) []Span {
	switch s.Kind {
	case "panel":
		return append(spans(text("Panel "), p.panel(s.Name)), p.findingLinks("panel", s.Name)...)
	case "room":
		return append(spans(text("Room "), p.room(s.Name)), p.findingLinks("room", s.Name)...)
	}
	return append(spans(text("Circuit "), p.circuit(s.Name), span(" · ", Nav)), append(p.see(s.Name, atWorking), p.findingLinks("circuit", s.Name)...)...)
}

func (p *page) question(x document.Section, title string) Steps {
	out := Steps{Of: title, Title: svg.Plain(x.Title)}
	if x.Title == title || x.Title == "heat of "+title {
		out.Title = ""
	}
	for _, w := range x.Steps {
		out.Lines = append(out.Lines, StepLine{svg.Plain(w.Line), svg.Plain(w.Note), svg.Plain(w.Source)})
	}
	for _, n := range x.Notes {
		out.Notes = append(out.Notes, svg.Plain(n))
	}
	return out
}
