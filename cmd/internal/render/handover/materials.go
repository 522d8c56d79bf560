package handover

import (
	"strings"
)

// materials is the bill of materials of what is new.
func (p *page) materials() []Block {
	m := p.d.Materials
	unit := p.m.LengthUnit()
	out := []Block{Paragraph{Spans: spans(text("What is new only; equipment is in the equipment schedule, panelboards as the file has them. Lengths to order include "),
		amount(m.WastePercent, 0, "materials.waste_percent"), text(" % for waste and ends. Boxes, fittings, supports and labels are not counted."))}}

	breakers := Table{Name: "breakers", Class: "sheet", Caption: "Breakers", Columns: []Column{fig("Rating", "A"), fig("Poles", ""), fig("Pieces", ""), col("For panels")}}
	for i, b := range m.Breakers {
		key := func(k string) string { return path("materials.breakers", i, k) }
		breakers.Rows = append(breakers.Rows, Row{Cells: []Cell{figure(amount(b.Amps, 2, key("amps"))), figure(count(b.Poles, key("poles"))), figure(count(b.Count, key("count"))), in(each(b.Panels, p.panel)...)}})
	}
	out = appendTable(out, breakers)

	protection := Table{Name: "protection", Class: "sheet", Caption: "Circuits that call for ground-fault protection, at the breaker or at the outlet", Columns: []Column{col("Class"), fig("Trips from", "mA"), fig("Circuits", "")}}
	for i, g := range m.Protection {
		key := func(k string) string { return path("materials.protection", i, k) }
		protection.Rows = append(protection.Rows, Row{Cells: []Cell{cellText(g.Class), figure(maybeAmount(g.TripMA, 1, key("trip_ma"))), figure(count(g.Count, key("count")))}})
	}
	out = appendTable(out, protection)

	wires := Table{Name: "conductors", Class: "sheet", Caption: "Conductor, single lengths added up", Columns: []Column{col("Size"), col("Kind"), col("Use"), fig("Net", unit), fig("To order", unit)}}
	for i, w := range m.Conductors {
		key := func(k string) string { return path("materials.conductors", i, k) }
		use := "circuit and neutral"
		if w.Use == "ground" {
			use = "equipment " + p.d.Plan.GroundCalled
		}
		wires.Rows = append(wires.Rows, Row{Cells: []Cell{cellText(w.Size), cellText(strings.TrimSpace(w.Material + " " + w.Insulation)), cellText(use),
			figure(p.length(&w.NetFeet, key("net_ft"))), following(figure(p.length(&w.OrderFeet, key("order_ft"))), p.ordered(i, 3))}})
	}
	out = appendTable(out, wires)

	raceways := Table{Name: "raceways", Class: "sheet", Caption: "Raceway", Columns: []Column{col("Trade size"), col("Kind"), fig("Net", unit), fig("To order", unit)}}
	for i, r := range m.Raceways {
		key := func(k string) string { return path("materials.raceways", i, k) }
		raceways.Rows = append(raceways.Rows, Row{Cells: []Cell{cellText(r.Trade), cellText(r.Kind), figure(p.length(&r.NetFeet, key("net_ft"))), following(figure(p.length(&r.OrderFeet, key("order_ft"))), p.ordered(i, 2))}})
	}
	out = appendTable(out, raceways)

	outlets := Table{Name: "receptacles", Class: "sheet", Caption: "Receptacles, one for each unit with a cord", Columns: []Column{col("Configuration"), fig("Pieces", "")}}
	for i, o := range m.Receptacles {
		outlets.Rows = append(outlets.Rows, Row{Cells: []Cell{cellText(o.Configuration), figure(count(o.Count, path("materials.receptacles", i, "count")))}})
	}
	out = appendTable(out, outlets)

	wound := Table{Name: "transformers", Class: "sheet", Caption: "Transformers", Columns: []Column{fig("Rating", "kVA"), fig("Phases", ""), fig("Primary", "V"), fig("Secondary", "V"), fig("Pieces", "")}}
	for i, x := range m.Transformers {
		key := func(k string) string { return path("materials.transformers", i, k) }
		wound.Rows = append(wound.Rows, Row{Cells: []Cell{figure(scaled(x.VA, 0.001, 1, key("va"))), figure(count(x.Phases, key("phases"))), figure(amount(x.PrimaryVolts, 0, key("primary_volts"))),
			figure(amount(x.SecondaryVolts, 0, key("secondary_volts"))), figure(count(x.Count, key("count")))}})
	}
	out = appendTable(out, wound)
	if len(out) == 1 {
		out = append(out, Paragraph{Spans: spans(text("Nothing is to be bought: the plan asks for no new breaker, conductor, raceway or receptacle."))})
	}
	if len(m.NotCounted) > 0 {
		out = append(out, Heading{Level: 4, Spans: spans(text("Not counted"))}, bullets(m.NotCounted))
	}
	return out
}

// ordered is a net length with the waste.
func (p *page) ordered(row, net int) *Formula {
	return &Formula{Terms: []Term{at(net, row)}, Times: 1 + p.d.Materials.WastePercent/100}
}

func appendTable(out []Block, t Table) []Block {
	if len(t.Rows) == 0 {
		return out
	}
	return append(out, t)
}
