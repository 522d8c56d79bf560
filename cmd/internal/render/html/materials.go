package html

import (
	"strings"
)

// materials is the bill of materials of what is new.
func (p *page) materials() []block {
	m := p.d.Materials
	unit := p.m.LengthUnit()
	out := []block{paragraph{Spans: spans(text("What is new only; equipment is in the equipment schedule, panelboards as the file has them. Lengths to order include "),
		amount(m.WastePercent, 0, "materials.waste_percent"), text(" % for waste and ends. Boxes, fittings, supports and labels are not counted."))}}

	breakers := table{Class: "sheet", Caption: "Breakers", Columns: []column{fig("Rating", "A"), fig("Poles", ""), fig("Pieces", ""), col("For panels")}}
	for i, b := range m.Breakers {
		key := func(k string) string { return path("materials.breakers", i, k) }
		breakers.Rows = append(breakers.Rows, row{Cells: []cell{figure(amount(b.Amps, 2, key("amps"))), figure(count(b.Poles, key("poles"))), figure(count(b.Count, key("count"))), in(p.panelLinks(b.Panels)...)}})
	}
	out = appendTable(out, breakers)

	protection := table{Class: "sheet", Caption: "Circuits that call for ground-fault protection, at the breaker or at the outlet", Columns: []column{col("Class"), fig("Trips from", "mA"), fig("Circuits", "")}}
	for i, g := range m.Protection {
		key := func(k string) string { return path("materials.protection", i, k) }
		protection.Rows = append(protection.Rows, row{Cells: []cell{cellText(g.Class), figure(maybeAmount(g.TripMA, 1, key("trip_ma"))), figure(count(g.Count, key("count")))}})
	}
	out = appendTable(out, protection)

	wires := table{Class: "sheet", Caption: "Conductor, single lengths added up", Columns: []column{col("Size"), col("Kind"), col("Use"), fig("Net", unit), fig("To order", unit)}}
	for i, w := range m.Conductors {
		key := func(k string) string { return path("materials.conductors", i, k) }
		use := "circuit and neutral"
		if w.Use == "ground" {
			use = "equipment ground"
		}
		wires.Rows = append(wires.Rows, row{Cells: []cell{cellText(w.Size), cellText(strings.TrimSpace(w.Material + " " + w.Insulation)), cellText(use),
			figure(p.length(&w.NetFeet, key("net_ft"))), figure(p.length(&w.OrderFeet, key("order_ft")))}})
	}
	out = appendTable(out, wires)

	raceways := table{Class: "sheet", Caption: "Raceway", Columns: []column{col("Trade size"), col("Kind"), fig("Net", unit), fig("To order", unit)}}
	for i, r := range m.Raceways {
		key := func(k string) string { return path("materials.raceways", i, k) }
		raceways.Rows = append(raceways.Rows, row{Cells: []cell{cellText(r.Trade), cellText(r.Kind), figure(p.length(&r.NetFeet, key("net_ft"))), figure(p.length(&r.OrderFeet, key("order_ft")))}})
	}
	out = appendTable(out, raceways)

	outlets := table{Class: "sheet", Caption: "Receptacles, one for each unit with a cord", Columns: []column{col("Configuration"), fig("Pieces", "")}}
	for i, o := range m.Receptacles {
		outlets.Rows = append(outlets.Rows, row{Cells: []cell{cellText(o.Configuration), figure(count(o.Count, path("materials.receptacles", i, "count")))}})
	}
	out = appendTable(out, outlets)

	wound := table{Class: "sheet", Caption: "Transformers", Columns: []column{fig("Rating", "kVA"), fig("Phases", ""), fig("Primary", "V"), fig("Secondary", "V"), fig("Pieces", "")}}
	for i, x := range m.Transformers {
		key := func(k string) string { return path("materials.transformers", i, k) }
		wound.Rows = append(wound.Rows, row{Cells: []cell{figure(scaled(x.VA, 0.001, 1, key("va"))), figure(count(x.Phases, key("phases"))), figure(amount(x.PrimaryVolts, 0, key("primary_volts"))),
			figure(amount(x.SecondaryVolts, 0, key("secondary_volts"))), figure(count(x.Count, key("count")))}})
	}
	out = appendTable(out, wound)
	if len(m.NotCounted) > 0 {
		out = append(out, heading{Level: 4, Spans: spans(text("Not counted"))}, bullets(m.NotCounted))
	}
	return out
}

func appendTable(out []block, t table) []block {
	if len(t.Rows) == 0 {
		return out
	}
	return append(out, t)
}

func (p *page) panelLinks(names []string) []span {
	var lists [][]span
	for _, n := range names {
		lists = append(lists, spans(p.panel(n)))
	}
	return joined(", ", lists...)
}
