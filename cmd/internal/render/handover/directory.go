package handover

import (
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// directories are, panel by panel, what it is, its directory, and the schedule of
// its circuits.
func (p *page) directories() []Block {
	out := []Block{p.panels()}
	for i, x := range p.d.Plan.Panels {
		title := spans(text("Panel "), name(x.Name), text(", "+x.System))
		if p.at.working[id("wp", i)] {
			title = append(title, span(" · ", Nav), p.link(span("working", Nav), atWorking, id("wp", i)))
		}
		out = append(out, Heading{ID: id("p", i), Level: 3, Class: "sheet-top", Spans: title}, p.panelFields(i, x), p.directory(i, x))
		out = appendTable(out, p.schedule(x))
	}
	return out
}

// panels are all of them at a glance.
func (p *page) panels() Table {
	t := Table{Name: "panels", Sheet: "Panels", Caption: "Panels at a glance", Columns: []Column{col("Panel"), col("System"), col("Fed from"), fig("Main", "A"), fig("Bus", "A"),
		fig("Fullest leg needs", "A"), fig("Imbalance (most − least) / mean", "%"), fig("Neutral", "A"), fig("Spaces", ""), fig("Used", ""), fig("Connected", "VA"), fig("Calculated load", "VA"), data("Complete"), data("Findings")}}
	for i, x := range p.d.Plan.Panels {
		key := func(k string) string { return path("plan.panels", i, k) }
		from := cellText("the service")
		if x.Feeder != nil {
			from = in(p.panel(x.Feeder.From))
		}
		called := strong(x.Name)
		called.Href = "#" + id("p", i)
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(append(append(spans(called), atLeast(x)...), p.findingLinks("panel", x.Name)...)...), cellText(x.System), from, figure(maybeAmount(x.MainAmps, 2, key("main_amps"))), figure(maybeAmount(x.BusAmps, 2, key("bus_amps"))),
			figure(number(x.RequiredAmps, 1, key("required_amps"))), figure(maybe(x.ImbalancePercent, 1, key("imbalance_percent"))), figure(maybe(x.NeutralAmps, 1, key("neutral_amps"))), figure(maybeCount(x.Spaces, key("spaces"))),
			figure(count(x.SpacesUsed, key("spaces_used"))), figure(connectedVA(x, key("connected_va"))), figure(number(x.DemandVA, 0, key("demand_va"))), cellText(complete(lacking(x.LeastLoad))), p.found("panel", x.Name)}})
	}
	return t
}

// atLeast says that the figures of a panel are least values.
func atLeast(x document.Panel) []Span {
	if !x.LeastLoad {
		return nil
	}
	return spans(span(", at least: the current of a load is not known", Aside))
}

func (p *page) panelFields(i int, x document.Panel) Fields {
	key := func(k string) string { return path("plan.panels", i, k) }
	f := []Field{{"Fed from", p.fedFrom(i, x)}}
	main := spans(maybeAmount(x.MainAmps, 2, key("main_amps")), text(" A"))
	if x.BusAmps != nil {
		main = append(main, text("; bus "), amount(*x.BusAmps, 2, key("bus_amps")), text(" A"))
	}
	f = append(f, Field{"Main", main}, Field{"Fullest leg needs", spans(number(x.RequiredAmps, 2, key("required_amps")), text(" A with the allowance for continuous load"))})
	spaces := spans(count(x.SpacesUsed, key("spaces_used")), text(" used; how many there are is not known"))
	if x.Spaces != nil {
		spaces = spans(count(x.SpacesUsed, key("spaces_used")), text(" of "), count(*x.Spaces, key("spaces")), text(" used"))
	}
	spaces = append(spaces, text(x.Provisional()))
	f = append(f, Field{"Spaces", spaces}, Field{"Operating current", p.legAmps(i, x)})
	f = append(f, Field{"Neutral", spans(maybe(x.NeutralAmps, 2, key("neutral_amps")), text(" A, the most in any state, third harmonic of electronic supplies included"))},
		Field{"Imbalance", spans(maybe(x.ImbalancePercent, 1, key("imbalance_percent")), text(" % of their mean between the fullest and the emptiest leg"))})
	if x.LeastLoad {
		f = append(f, Field{"Caution", leastSays()})
	}
	if x.OtherLoadAmps != nil {
		f = append(f, Field{"Other load", spans(amount(*x.OtherLoadAmps, 2, key("other_load_amps")), text(" A per leg, not listed in the file"))})
	}
	if x.MeasuredPeakAmps != nil {
		f = append(f, Field{"Measured peak", spans(amount(*x.MeasuredPeakAmps, 2, key("measured_peak_amps")), text(" A per leg"))})
	}
	if see := p.findingLinks("panel", x.Name); len(see) > 0 {
		f = append(f, Field{"See", see})
	}
	open := spans(span("to be filled in", "quiet"))
	return Fields{Name: "panel-facts", Of: x.Name, OfHead: "Panel", Rows: append(f, Field{"Location", open}, Field{"Interrupting rating", open})}
}

func (p *page) fedFrom(i int, x document.Panel) []Span {
	f := x.Feeder
	if f == nil {
		return spans(text("the service"))
	}
	key := func(k string) string { return path("plan.panels", i, "feeder."+k) }
	s := spans(text("panel "), p.panel(f.From), textf(", spaces %s, ", numbersText(f.Spaces)), maybeAmount(f.BreakerAmps, 2, key("breaker_amps")), textf(" A %d-pole; ", f.Poles), text(wire(f.Conductor)+"; "+p.d.Plan.GroundCalled+" "+orUnknown(f.Ground.Size)+"; "))
	if f.Transformer != nil {
		s = append(s, text("to the transformer's primary, "))
	}
	s = append(s, p.length(f.Conductor.LengthFeet, key("conductor.length_ft")), text(" "+p.m.LengthUnit()+"; drop "), maybe(f.Conductor.DropPercent, 2, key("conductor.drop_percent")), text(" %"))
	if t := f.Transformer; t != nil {
		s = append(s, text("; transformer "), scaled(t.VA, 0.001, 1, key("transformer.va")), text(" kVA, "),
			amount(t.PrimaryVolts, 0, key("transformer.primary_volts")), text(" to "), amount(t.SecondaryVolts, 0, key("transformer.secondary_volts")), text(" V; secondary "+t.Secondary))
	}
	return s
}

func (p *page) legAmps(i int, x document.Panel) []Span {
	var s []Span
	for k, l := range x.Legs {
		if k > 0 {
			s = append(s, text(", "))
		}
		s = append(s, text("leg "+l+" "), number(x.LegAmps[l], 2, path("plan.panels", i, "leg_amps."+l)), text(" A"))
	}
	return append(s, text(" in the worst state of the day, "+x.State))
}

// schedule is what every circuit of a panel carries and is made of.
func (p *page) schedule(x document.Panel) Table {
	t := Table{Name: "circuits", Of: x.Name, OfHead: "Panel", Sheet: "Circuits", Caption: "Circuits of panel " + svg.Plain(x.Name), Columns: []Column{col("Circuit"), col("Spaces"), fig("Supply", "V"), fig("Breaker", "A"),
		fig("Load", "A"), fig("Required", "A"), fig("Free", "A"), col("Conductor, " + p.d.Plan.GroundCalled + ", raceway"), col("Outlet, ground-fault protection"), col("Governing limit"), fig("Used", "%"), nav(), data("Standing"), data("Findings")}}
	for i, c := range p.d.Plan.Circuits {
		if c.Panel != x.Name {
			continue
		}
		key := func(k string) string { return path("plan.circuits", i, k) }
		binds, used := cellText(none), blank()
		if len(c.Limits) > 0 {
			binds, used = cellText(strings.ReplaceAll(c.Limits[0].Rule, "-", " ")), figure(number(c.Limits[0].UsedPercent, 1, key("limits.0.used_percent")))
		}
		t.Rows = append(t.Rows, Row{ID: id("c", i), Cells: []Cell{
			p.called(c), in(Span{Text: numbersText(c.Spaces), Class: "nb"}, text(" "), Span{Text: strings.Join(c.Legs, "-"), Class: "nb"}), figure(amount(c.Volts, 0, key("volts"))), figure(maybeAmount(c.BreakerAmps, 2, key("breaker_amps"))),
			figure(maybe(c.LoadAmps, 2, key("load_amps"))), figure(maybe(c.RequiredAmps, 2, key("required_amps"))), free(c, key("free_amps")),
			wide(wire(c.Conductor) + "; " + orUnknown(c.Ground.Size) + " " + p.d.Plan.GroundCalled + p.racewayOf(i) + unheld(c)), in(Span{Text: c.Outlet(), Class: "nb"}, text(", "+c.GroundFault())), binds, used, in(p.see(c.Name, atDirectories)...), stands(c), p.found("circuit", c.Name)}})
	}
	return t
}

func (p *page) racewayOf(circuit int) string {
	h := p.d.HomeRuns[circuit]
	if h.Raceway == nil || h.Raceway.Trade == "" {
		return ""
	}
	return "; " + racewayText(h)
}

// unheld says which rules on what a circuit feeds were not applied.
func unheld(c document.Circuit) string {
	if c.NotApplied == "" {
		return ""
	}
	return "; " + c.NotApplied
}

// standing says what is not new.
func standing(c document.Circuit) []Span {
	switch {
	case c.Changed:
		return spans(span(" existing, changed", Aside))
	case c.Existing:
		return spans(span(" existing", Aside))
	}
	return nil
}

// stands says for programs what is new and what is not.
func stands(c document.Circuit) Cell {
	if s := standing(c); s != nil {
		return cellText(strings.TrimSpace(s[0].Text))
	}
	return cellText("new")
}

// wire writes a conductor: "12 AWG copper THHN".
func wire(c document.Conductor) string {
	s := c.Words()
	if c.SizeBeforeDrop != "" {
		s += " (" + c.SizeBeforeDrop + " before voltage drop)"
	}
	return s
}

// lacking says what is missing from what a panel carries, empty where nothing is.
func lacking(leastLoad bool) string {
	if leastLoad {
		return "the current of a load is not known"
	}
	return ""
}
