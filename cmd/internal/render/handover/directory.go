package handover

import (
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
	"branchwork/loads/units"
)

// directories are, panel by panel, what it is, its directory, and the schedule of
// its circuits.
func (p *page) directories() []Block {
	var out []Block
	for i, x := range p.d.Plan.Panels {
		title := spans(text("Panel "), name(x.Name), text(", "+x.System))
		out = append(out, Heading{ID: id("p", i), Level: 3, Spans: title}, p.panelFields(i, x))
		out = appendTable(append(out, p.directory(i, x)), p.schedule(x))
	}
	return out
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
	f = append(f, Field{"Spaces", spaces}, Field{"Operating current", p.legAmps(i, x)})
	if x.NeutralAmps != nil {
		f = append(f, Field{"Neutral", spans(number(*x.NeutralAmps, 2, key("neutral_amps")), text(" A, the most in any state"))})
	}
	f = append(f, Field{"Imbalance", spans(number(x.ImbalancePercent, 1, key("imbalance_percent")), text(" % between the legs"))})
	if x.OtherLoadAmps != nil {
		f = append(f, Field{"Other load", spans(amount(*x.OtherLoadAmps, 2, key("other_load_amps")), text(" A per leg, not listed in the file"))})
	}
	if x.MeasuredPeakAmps != nil {
		f = append(f, Field{"Measured peak", spans(amount(*x.MeasuredPeakAmps, 2, key("measured_peak_amps")), text(" A per leg"))})
	}
	see := p.findingLinks("panel", x.Name)
	if p.at.working[id("wp", i)] {
		see = append(spans(p.link(text("working"), atWorking, id("wp", i))), see...)
	}
	if len(see) > 0 {
		f = append(f, Field{"See", see})
	}
	open := spans(Span{Text: "to be filled in", Class: "quiet"})
	return Fields{append(f, Field{"Location", open}, Field{"Interrupting rating", open})}
}

func (p *page) fedFrom(i int, x document.Panel) []Span {
	f := x.Feeder
	if f == nil {
		return spans(text("the service"))
	}
	key := func(k string) string { return path("plan.panels", i, "feeder."+k) }
	s := spans(text("panel "), p.panel(f.From), textf(", spaces %s, ", numbersText(f.Spaces)), maybeAmount(f.BreakerAmps, 2, key("breaker_amps")), textf(" A %d-pole; ", f.Poles), text(wire(f.Conductor)+"; ground "+orUnknown(f.Ground.Size)+"; "))
	s = append(s, p.length(f.Conductor.LengthFeet, key("conductor.length_ft")), text(" "+p.m.LengthUnit()+"; drop "), maybe(f.Conductor.DropPercent, 2, key("conductor.drop_percent")), text(" %"))
	if t := f.Transformer; t != nil {
		s = append(s, text("; transformer "), Span{Text: units.Round(t.VA/1000, 1), Key: key("transformer.va"), Scale: "0.001"}, text(" kVA, "),
			amount(t.PrimaryVolts, 0, key("transformer.primary_volts")), text(" to "), amount(t.SecondaryVolts, 0, key("transformer.secondary_volts")), text(" V"))
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

// directory is the odd/even directory that hangs in the door.
func (p *page) directory(i int, x document.Panel) Directory {
	d := p.d.Directories[i]
	out := Directory{Caption: "Circuit directory of panel " + svg.Plain(x.Name)}
	for k, r := range d.Rows {
		key := path(path("directories", i, "rows"), k, "")
		out.Rows = append(out.Rows, DirectoryRow{Leg: r.Leg, Left: p.slot(r.Left, key+"left."), Right: p.slot(r.Right, key+"right.")})
	}
	for k, l := range d.LegVA {
		out.Foot = append(out.Foot, DirectoryFoot{l.Leg, spans(number(l.VA, 0, path(path("directories", i, "leg_va"), k, "va")), text(" VA"))})
	}
	out.Sum = p.directorySum(i, x, d)
	return out
}

func (p *page) directorySum(i int, x document.Panel, d document.Directory) []Span {
	s := spans(text("Connected "), number(x.ConnectedVA, 0, path("plan.panels", i, "connected_va")), text(" VA; demand "),
		number(x.DemandVA, 0, path("plan.panels", i, "demand_va")), text(" VA with the allowance for continuous load"+other(x)+"; "),
		count(d.Vacant, path("directories", i, "vacant")), text(" spaces without a breaker"))
	if d.Beyond > 0 {
		s = append(s, text("; "), count(d.Beyond, path("directories", i, "beyond")), text(" spaces drawn here do not exist in the panel"))
	}
	return append(s, text("."))
}

// other says that a demand holds load that is not listed.
func other(x document.Panel) string {
	if x.OtherLoadAmps == nil && x.MeasuredPeakAmps == nil {
		return ""
	}
	return " and the load that the file does not list"
}

func (p *page) slot(s document.Slot, key string) Slot {
	out := Slot{Number: figure(count(s.Space, key+"space"))}
	switch {
	case s.Circuit == "" && s.Feeds == "":
		out.Vacant, out.Text, out.VA = true, spans(Span{Text: "space", Class: "quiet"}), blank()
		return out
	case s.Continues:
		out.Text = spans(Span{Text: "same breaker", Class: "quiet"})
	default:
		out.Breaker = append(spans(maybeAmount(s.BreakerAmps, 2, key+"breaker_amps")), text("/"), count(s.Poles, key+"poles"))
		if s.Feeds != "" {
			out.Text = spans(p.link(name(s.Description), atDirectories, id("p", p.at.panels[s.Feeds])))
		} else {
			out.Text = spans(p.circuit(s.Circuit), text(": "), name(s.Description))
		}
	}
	out.VA = figure(number(s.VA, 0, key+"va"))
	return out
}

// schedule is what every circuit of a panel carries and is made of.
func (p *page) schedule(x document.Panel) Table {
	t := Table{Caption: "Circuits of panel " + svg.Plain(x.Name), Columns: []Column{col("Circuit"), col("Spaces"), fig("Supply", "V"), fig("Breaker", "A"),
		fig("Load", "A"), fig("Needs", "A"), fig("Free", "A"), col("Conductor, ground, raceway"), col("Outlet, ground-fault protection"), col("Limit that binds"), fig("Used", "%"), col("See also")}}
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
			in(append(spans(strong(c.Name)), standing(c)...)...), in(Span{Text: numbersText(c.Spaces), Class: "nb"}, text(" "), Span{Text: strings.Join(c.Legs, "-"), Class: "nb"}), figure(amount(c.Volts, 0, key("volts"))), figure(maybeAmount(c.BreakerAmps, 2, key("breaker_amps"))),
			figure(number(c.LoadAmps, 2, key("load_amps"))), figure(number(c.RequiredAmps, 2, key("required_amps"))), figure(number(c.FreeAmps, 2, key("free_amps"))),
			wide(wire(c.Conductor) + "; " + orUnknown(c.Ground.Size) + " ground" + p.racewayOf(i)), in(Span{Text: c.Outlet(), Class: "nb"}, text(", "+c.GroundFault("no GFCI called for"))), binds, used, in(p.see(c.Name, atDirectories)...)}})
	}
	return t
}

func (p *page) racewayOf(circuit int) string {
	r := p.d.HomeRuns[circuit].Raceway
	if r == nil || r.Trade == "" {
		return ""
	}
	return "; " + r.Trade + " " + r.Kind
}

// standing says what is not new.
func standing(c document.Circuit) []Span {
	switch {
	case c.Changed:
		return spans(Span{Text: " existing, changed", Class: "quiet"})
	case c.Existing:
		return spans(Span{Text: " existing", Class: "quiet"})
	}
	return nil
}

// wire writes a conductor: "12 AWG copper THHN".
func wire(c document.Conductor) string {
	s := c.Words()
	if c.SizeBeforeDrop != "" {
		s += " (" + c.SizeBeforeDrop + " before voltage drop)"
	}
	return s
}
