package handover

import (
	"fmt"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// hvac is the sheet for the installer of the cooling, room by room.
func (p *page) hvac() []Block {
	h := p.d.Heat
	out := []Block{Fields{Name: "outdoor", Rows: p.outdoor()}, p.glance()}
	for i, r := range h.Rooms {
		out = append(out, Heading{ID: id("r", i), Level: 3, Spans: append(spans(text("Room "), name(r.Room)), p.roomSee(i, r)...)},
			Fields{Name: "heat-facts", Of: r.Room, OfHead: "Room", Rows: p.roomFields(i, r)}, p.cases(i, r), p.sources(i, r))
		for _, t := range []Table{p.waterOf(i, r), p.stated(i, r)} {
			out = appendTable(out, t)
		}
		out = append(out, p.covers(i, r)...)
		for _, t := range []Table{p.roomLoads(i, r), p.leftOut(i, r), p.light(i, r), p.power(i, r)} {
			out = appendTable(out, t)
		}
		if notes := append(append([]string{}, r.Missing...), r.Notes...); len(notes) > 0 {
			out = append(out, Heading{Level: 4, Spans: spans(text("Notes"))}, bullets(notes))
		}
		if len(r.Establish) > 0 {
			out = append(out, Heading{Level: 4, Spans: spans(text("Still to be established"))}, bullets(r.Establish))
		}
	}
	if len(h.Rooms) > 1 {
		out = append(out, Heading{Level: 3, Spans: spans(text("Whole building"))}, Fields{Name: "heat-building", Rows: p.building()})
	}
	if len(h.Establish) > 0 {
		out = append(out, Heading{Level: 4, Spans: spans(text("To be established for every room"))}, bullets(h.Establish))
	}
	return out
}

// glance is every room in a line.
func (p *page) glance() Table {
	h := p.d.Heat
	t := Table{Name: "heat-rooms", Sheet: "Heat", Caption: "Rooms at a glance", Columns: []Column{col("Room"), col("Lights on"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit()), fig("Largest total", p.m.HeatUnit()), fig("Largest total", "tons"),
		col("When"), fig("Water to remove", p.waterUnit()), fig("Power in the room", "W"), col("Stands for"), data("Findings")}}
	for i, r := range h.Rooms {
		key := func(k string) string { return path("heat.rooms", i, k) }
		called := strong(r.Room)
		called.Href = "#" + id("r", i)
		sensible, latent, water := blank(), blank(), figure(maybe(nil, 0, key("water")))
		var total *Formula
		if len(r.Cases) > 0 {
			sensible, latent = figure(p.heat(r.Cases[0].SensibleBTUH, key("cases.0.sensible_btuh"))), figure(p.heat(r.Cases[0].LatentBTUH, key("cases.0.latent_btuh")))
			total = across(i, 2, 3)
		}
		if r.Water != nil {
			water = figure(p.water(r.Water.PerDay, key("water.to_remove_pints_per_day")))
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(append(spans(called), p.findingLinks("room", r.Room)...)...), hours(r.Lights), sensible, latent, following(figure(p.heat(r.PeakTotalBTUH, key("peak_total_btuh"))), total),
			figure(number(r.Tons, 2, key("tons"))), cellText(fmt.Sprintf("%s from %02d:00", r.PeakDay, r.PeakHour)), water, figure(number(r.WattsInRoom, 0, key("watts_in_room"))), cellText(least(r.AtLeast)), p.found("room", r.Room)}})
	}
	if len(h.Rooms) > 1 {
		b := h.Block
		t.Foot = []Row{
			{Cells: []Cell{cellText("Sum of the rooms' peaks"), gap(), gap(), gap(), following(figure(p.heat(b.SumOfPeaksBTUH, "heat.block.sum_of_peaks_btuh")), t.body(4)), gap(), gap(), gap(), gap(), gap(), gap()}},
			{Cells: []Cell{cellText("Whole building at its worst hour"), gap(), gap(), gap(), figure(p.heat(b.TotalBTUH, "heat.block.total_btuh")), figure(number(b.Tons, 2, "heat.block.tons")),
				cellText(fmt.Sprintf("%s from %02d:00", b.Day, b.Hour)), gap(), gap(), cellText(least(b.AtLeast)), gap()}}}
	}
	return t
}

// least says what a heat stands for.
func least(atLeast bool) string {
	if atLeast {
		return "a least value: a part is not known"
	}
	return "all parts known"
}

func (p *page) roomSee(i int, r document.HeatRoom) []Span {
	var s []Span
	if p.at.working[id("wr", i)] {
		s = append(s, span(" · ", Nav), p.link(span("working", Nav), atWorking, id("wr", i)))
	}
	return append(s, p.findingLinks("room", r.Room)...)
}

func (p *page) outdoor() []Field {
	o := p.d.Heat.Outdoor
	return []Field{
		{"Outdoor, summer", spans(p.temperature(o.SummerC, "heat.outdoor.summer_c"), text(" "+p.temperatureUnit()+", wet bulb "), p.temperature(o.SummerWetBulbC, "heat.outdoor.summer_wet_bulb_c"), text(" "+p.temperatureUnit()))},
		{"Outdoor, winter", spans(p.temperature(o.WinterC, "heat.outdoor.winter_c"), text(" "+p.temperatureUnit()))},
		{"Altitude", spans(p.length(o.AltitudeFeet, "heat.outdoor.altitude_ft"), text(" "+p.m.LengthUnit()))},
	}
}

func (p *page) roomFields(i int, r document.HeatRoom) []Field {
	key := func(k string) string { return path("heat.rooms", i, k) }
	unit := " " + p.m.LengthUnit()
	size := spans(p.length(r.Size.LengthFeet, key("size.length_ft")), text(" × "), p.length(r.Size.WidthFeet, key("size.width_ft")), text(" × "), p.length(r.Size.HeightFeet, key("size.height_ft")), text(unit+"; floor "),
		p.area(r.Size.FloorFeet2, key("size.floor_ft2")), text(" "+p.areaUnit()+"; canopy "), p.area(r.Size.Canopy, key("size.canopy_ft2")), text(" "+p.areaUnit()))
	lit := spans(text("not known"))
	if r.Lights != nil {
		lit = spans(text(*r.Lights))
	}
	f := []Field{{"Size", size}, {"Lights on", lit}, {"Held, lights on", p.held(r.HeldOn, key("held_lights_on"))}, {"Held, lights off", p.held(r.HeldOff, key("held_lights_off"))}}
	peak := spans(p.heat(r.PeakTotalBTUH, key("peak_total_btuh")), textf(" %s, ", p.m.HeatUnit()), number(r.Tons, 2, key("tons")), textf(" tons of refrigeration, %s from %02d:00", r.PeakDay, r.PeakHour))
	if r.AtLeast {
		peak = append(spans(text("at least ")), peak...)
	}
	f = append(f, Field{"Largest total", peak}, Field{"Electric power in the room", spans(number(r.WattsInRoom, 0, key("watts_in_room")), text(" W at that hour"))})
	f = append(f, Field{"Envelope", p.envelope(i, r)})
	if w := r.Water; w != nil {
		at := func(k string) string { return key("water." + k) }
		u := " " + p.waterUnit()
		f = append(f, Field{"Water to remove", spans(p.water(w.PerDay, at("to_remove_pints_per_day")), text(u+"; at the rate of "), p.water(w.LightsOn, at("lights_on_pints_per_day")), text(" in the worst lit hour, "),
			p.water(w.LightsOff, at("lights_off_pints_per_day")), text(u+" in the worst dark hour; "+w.Governs+" governs"))})
	}
	return append(f, p.air(i, r)...)
}

func (p *page) held(h document.HeldState, key string) []Span {
	s := spans(p.temperature(&h.TemperatureC, key+".temperature_c"), text(" "+p.temperatureUnit()+", "), number(h.HumidityPercent, 0, key+".humidity_percent"), text(" % humidity, deficit "), number(h.VPDKPa, 2, key+".vpd_kpa"), text(" kPa"))
	if h.DewPointC != nil {
		s = append(s, text(", dew point "), p.temperature(h.DewPointC, key+".dew_point_c"), text(" "+p.temperatureUnit()))
	}
	if !h.Given {
		s = append(s, text(" (assumed)"))
	}
	return s
}

func (p *page) envelope(i int, r document.HeatRoom) []Span {
	var s []Span
	if r.Inside {
		s = spans(text("stands in a conditioned building"))
	}
	for k, x := range r.Surfaces {
		key := func(c string) string { return path(path("heat.rooms", i, "surfaces"), k, c) }
		if len(s) > 0 {
			s = append(s, text("; "))
		}
		s = append(s, text(x.Name+" "), p.area(x.Area, key("area_ft2")), text(" "+p.areaUnit()+", R "), maybe(x.RText, 1, key("r_ft2_f_h_btu")), text(" ft²·°F·h/BTU"))
	}
	if r.AirChanges != nil {
		if len(s) > 0 {
			s = append(s, text("; "))
		}
		s = append(s, amount(*r.AirChanges, 2, path("heat.rooms", i, "air_changes_per_hour")), text(" air changes an hour leak in"))
	}
	if len(s) == 0 {
		return spans(text("not given"))
	}
	return s
}

func (p *page) cases(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-cases", Of: r.Room, OfHead: "Room", Sheet: "Heat cases", Caption: "Design cases", Columns: []Column{col("Case"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit()), fig("Total", p.m.HeatUnit()), fig("Total", "tons"), fig("Sensible ratio", ""), col("When")}}
	add := func(what, key string, c document.DesignCase) {
		at := func(k string) string { return path("heat.rooms", i, key+"."+k) }
		ratio := blank()
		if c.Ratio != nil {
			ratio = figure(number(*c.Ratio, 2, at("sensible_heat_ratio")))
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(what), figure(p.heat(c.SensibleBTUH, at("sensible_btuh"))), figure(p.heat(c.LatentBTUH, at("latent_btuh"))), following(figure(p.heat(c.TotalBTUH, at("total_btuh"))), across(len(t.Rows), 1, 2)),
			figure(number(c.Tons, 2, at("tons"))), ratio, cellText(fmt.Sprintf("%s from %02d:00, %s", c.Day, c.Hour, c.Canopy))}})
	}
	if r.LightsOn != nil {
		add("lights on, worst hour", "lights_on", *r.LightsOn)
	}
	if r.LightsOff != nil {
		add("lights off, worst hour", "lights_off", *r.LightsOff)
	}
	for k, c := range r.Cases {
		add(c.Name, fmt.Sprintf("cases.%d", k), c)
	}
	return t
}

func (p *page) sources(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-sources", Of: r.Room, OfHead: "Room", Sheet: "Heat sources", Class: "sheet", Caption: "Where the heat of the largest total comes from", Columns: []Column{col("Source"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit())}}
	for k, s := range r.BySource {
		key := func(c string) string { return path(path("heat.rooms", i, "by_source"), k, c) }
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(s.Source), figure(p.heat(s.SensibleBTUH, key("sensible_btuh"))), figure(p.heat(s.LatentBTUH, key("latent_btuh")))}})
	}
	if len(r.Cases) > 0 { // the first is that of the largest total
		c, key := r.Cases[0], path("heat.rooms", i, "cases.0.")
		t.Foot = []Row{{Cells: []Cell{cellText("All"), following(figure(p.heat(c.SensibleBTUH, key+"sensible_btuh")), t.body(1)), following(figure(p.heat(c.LatentBTUH, key+"latent_btuh")), t.body(2))}}}
	}
	return t
}

// covers compares what is installed with what is needed.
func (p *page) covers(i int, r document.HeatRoom) []Block {
	t := Table{Name: "heat-covers", Of: r.Room, OfHead: "Room", Sheet: "Heat covers", Caption: "What is stated against what is needed", Columns: []Column{col("What"), col("Case"), col("Unit"), fig("Needed", ""), fig("Stated", ""), col("Covers"), fig("Without the largest unit", ""), col("Covers without it")}}
	for k, c := range r.Equipment.Covers {
		key := func(s string) string { return path(path("heat.rooms", i, "equipment.covers"), k, s) }
		if c.Needed <= 0 && c.Installed == nil {
			continue
		}
		show, unit := p.inUnit(c.Unit)
		opt := func(x *float64, at string) Cell {
			if x == nil {
				return figure(maybe(nil, 0, at))
			}
			return figure(show(*x, at))
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(c.What), cellText(c.Case), cellText(unit), figure(show(c.Needed, key("needed"))), opt(c.Installed, key("installed")), cellText(c.Covers), opt(c.WithoutLargest, key("without_largest")), cellText(c.CoversWithout)}})
	}
	out := appendTable(nil, t)
	if len(r.Equipment.Sizes) > 0 {
		s := spans(text("No cooling is stated. Next sizes sold, margin above the load: "))
		for k, z := range r.Equipment.Sizes {
			key := func(c string) string { return path(path("heat.rooms", i, "equipment.next_sizes"), k, c) }
			if k > 0 {
				s = append(s, text("; "))
			}
			s = append(s, count(z.Count, key("count")), text(" × "), amount(z.Tons, 2, key("tons")), text(" tons ("), number(z.MarginPercent, 0, key("margin_percent")), text(" %)"))
		}
		out = append(out, Paragraph{Spans: append(s, text("."))})
	}
	return out
}

// inUnit shows a figure of one of the units that covers come in.
func (p *page) inUnit(unit string) (func(float64, string) Span, string) {
	switch unit {
	case "pint/day":
		return p.water, p.waterUnit()
	case "CFM":
		return p.flow, p.flowUnit()
	}
	return p.heat, p.m.HeatUnit()
}

func (p *page) roomLoads(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-items", Of: r.Room, OfHead: "Room", Sheet: "Heat items", Caption: "What stands in the room", Columns: []Column{col("Item"), col("Kind"), fig("Units", ""), fig("Each", "W"), fig("All", "W"), col("Hours"), col("Stands")}}
	for k, l := range r.Loads {
		key := func(s string) string { return path(path("heat.rooms", i, "loads"), k, s) }
		where := "in the room"
		if l.Outdoors {
			where = "outdoors"
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(p.item(l.Item)), cellText(l.Kind), figure(count(l.Count, key("count"))), figure(maybe(l.WattsEach, 0, key("watts_each"))), figure(maybe(l.Watts, 0, key("watts"))), hours(l.Hours), cellText(where)}})
	}
	return t
}

func (p *page) power(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-power", Of: r.Room, OfHead: "Room", Sheet: "Heat power", Caption: "Power for more equipment", Columns: []Column{col("Panel"), col("Supplies"), fig("Main", "A"), fig("Asked for", "A"), fig("Left", "A"), fig("Spaces left", "")}}
	for k, x := range r.Power {
		key := func(s string) string { return path(path("heat.rooms", i, "power"), k, s) }
		supplies := ""
		for n, s := range x.Supplies {
			if n > 0 {
				supplies += ", "
			}
			supplies += fmt.Sprintf("%s V %d-phase", units.Round(s.Volts, 0), s.Phases)
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(p.panel(x.Panel)), cellText(supplies), figure(maybeAmount(x.MainAmps, 2, key("main_amps"))), figure(number(x.RequiredAmps, 1, key("required_amps"))),
			figure(maybe(x.SpareAmps, 1, key("spare_amps"))), figure(maybeCount(x.SpareSpaces, key("spare_spaces")))}})
	}
	return t
}

func (p *page) building() []Field {
	b := p.d.Heat.Block
	total := spans(p.heat(b.TotalBTUH, "heat.block.total_btuh"), textf(" %s, ", p.m.HeatUnit()), number(b.Tons, 2, "heat.block.tons"), textf(" tons of refrigeration, %s from %02d:00", b.Day, b.Hour))
	if b.AtLeast {
		total = append(spans(text("at least ")), total...)
	}
	return []Field{{"Worst hour", total}, {"Sum of the rooms' peaks", spans(p.heat(b.SumOfPeaksBTUH, "heat.block.sum_of_peaks_btuh"), text(" "+p.m.HeatUnit()))}}
}
