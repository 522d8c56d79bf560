package handover

import (
	"fmt"
	"slices"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// hvac is the sheet for the installer of the cooling, room by room.
func (p *page) hvac() []Block {
	h := p.d.Heat
	out := []Block{Fields{Name: "outdoor", Rows: p.outdoor()}, p.glance()}
	for i, r := range h.Rooms {
		out = append(out, Heading{ID: id("r", i), Level: 3, Spans: append(spans(text("Room "), name(r.Room)), p.roomSee(i, r)...)},
			Fields{Name: "heat-facts", Of: r.Room, OfHead: "Room", Rows: p.roomFields(i, r)}, p.cases(i, r))
		if slices.ContainsFunc(r.Cases, func(c document.DesignCase) bool { return c.Dehumidifiers == "running" }) {
			out = append(out, Paragraph{Spans: spans(text(document.Dehumidified))})
		}
		out = append(out, p.sources(i, r))
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
	t := Table{Name: "heat-rooms", Sheet: "Heat", Caption: "Rooms at a glance", Columns: []Column{col("Room"), col("Lights on"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit()), fig("Peak", p.m.HeatUnit()), fig("Peak", "tons"),
		col("When"), fig("Water a day", p.amountUnit()), fig("Largest rate", p.waterUnit()), fig("Power in the room at that hour", "W"), col("Complete"), data("Findings")}}
	for i, r := range h.Rooms {
		key := func(k string) string { return path("heat.rooms", i, k) }
		called := strong(r.Room)
		called.Href = "#" + id("r", i)
		sensible, latent, water, rate := blank(), blank(), figure(maybe(nil, 0, key("water"))), figure(maybe(nil, 0, key("water")))
		var total *Formula
		if len(r.Cases) > 0 {
			sensible, latent = figure(p.heat(r.Cases[0].SensibleBTUH, key("cases.0.sensible_btuh"))), p.latent(r.Cases[0], key("cases.0.latent_btuh"))
			if r.Cases[0].LatentKnown {
				total = across(i, 2, 3)
			}
		}
		if r.Water != nil {
			water, rate = figure(p.water(r.Water.PerDay, key("water.to_remove_pints_per_day"))), figure(p.water(r.Water.LightsOn, key("water.lights_on_pints_per_day")))
			if r.Water.LightsOff > r.Water.LightsOn {
				rate = figure(p.water(r.Water.LightsOff, key("water.lights_off_pints_per_day")))
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(append(spans(called), p.findingLinks("room", r.Room)...)...), hours(r.Lights), sensible, latent, following(figure(p.heat(r.PeakTotalBTUH, key("peak_total_btuh"))), total),
			figure(number(r.Tons, 2, key("tons"))), cellText(fmt.Sprintf("%s from %02d:00", r.PeakDay, r.PeakHour)), water, rate, figure(number(r.WattsInRoom, 0, key("watts_in_room"))), cellText(complete(r.LeastTitle())), p.found("room", r.Room)}})
	}
	if len(h.Rooms) > 1 {
		b := h.Block
		t.Foot = []Row{
			{Cells: []Cell{cellText("Sum of the rooms' peaks"), gap(), gap(), gap(), following(figure(p.heat(b.SumOfPeaksBTUH, "heat.block.sum_of_peaks_btuh")), t.body(4)), gap(), gap(), gap(), gap(), gap(), gap(), gap()}},
			{Cells: []Cell{cellText("Whole building at its worst hour"), gap(), gap(), gap(), figure(p.heat(b.TotalBTUH, "heat.block.total_btuh")), figure(number(b.Tons, 2, "heat.block.tons")),
				cellText(fmt.Sprintf("%s from %02d:00", b.Day, b.Hour)), gap(), gap(), gap(), cellText(complete(b.LeastTitle())), gap()}}}
	}
	return t
}

// complete says whether a heat holds all of its parts. What is not in the file, as the
// walls may be, stands among the assumptions.
func complete(lacks string) string {
	if lacks != "" {
		return "at least: " + lacks
	}
	return "all given parts"
}

// latent is a figure where the room's water is known.
func (p *page) latent(c document.DesignCase, key string) Cell {
	if !c.LatentKnown {
		return figure(maybe(nil, 0, ""))
	}
	return figure(p.heat(c.LatentBTUH, key))
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
	per, unit := p.moisture()
	return []Field{
		{"Outdoor, summer", spans(p.temperature(o.SummerC, "heat.outdoor.summer_c"), text(" "+p.temperatureUnit()+", wet bulb "), p.temperature(o.SummerWetBulbC, "heat.outdoor.summer_wet_bulb_c"), text(" "+p.temperatureUnit()+", "), maybeScaled(o.SummerRatio, per, p.moistureDigits(), "heat.outdoor.summer_humidity_ratio"), text(" "+unit))},
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
		peak = append(append(spans(text("at least ")), peak...), text(", "+r.LeastTitle()))
	}
	f = append(f, Field{"Peak", peak})
	if q := r.PeakUndimmedBTUH; q != nil {
		f = append(f, Field{"Lights undimmed", spans(p.heat(*q, key("peak_undimmed_btuh")), text(" "+p.m.HeatUnit()+"; in all other figures lights count as dimmed"))})
	}
	f = append(f, Field{"Electric power in the room", spans(number(r.WattsInRoom, 0, key("watts_in_room")), text(" W at that hour"))})
	f = append(f, Field{"Envelope", p.envelope(i, r)})
	if w := r.Water; w != nil {
		at := func(k string) string { return key("water." + k) }
		u := " " + p.waterUnit()
		f = append(f, Field{"Water to remove", spans(p.water(w.PerDay, at("to_remove_pints_per_day")), text(" "+p.amountUnit()+" a day; at the rate of "), p.water(w.LightsOn, at("lights_on_pints_per_day")), text(" in the worst lit hour, "),
			p.water(w.LightsOff, at("lights_off_pints_per_day")), text(u+" in the worst dark hour; "+w.Governs+" governs"))})
	}
	return append(f, p.air(i, r)...)
}

func (p *page) held(h document.HeldState, key string) []Span {
	s := spans(p.temperature(&h.TemperatureC, key+".temperature_c"), text(" "+p.temperatureUnit()+", "), number(h.HumidityPercent, 0, key+".humidity_percent"), text(" % RH, VPD "), number(h.VPDKPa, 2, key+".vpd_kpa"), text(" kPa"))
	if h.WetBulbC != nil && h.HumidityRatio != nil {
		per, unit := p.moisture()
		s = append(s, text(", wet bulb "), p.temperature(h.WetBulbC, key+".wet_bulb_c"), text(" "+p.temperatureUnit()+", "), scaled(*h.HumidityRatio, per, p.moistureDigits(), key+".humidity_ratio"), text(" "+unit))
	}
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
	t := Table{Name: "heat-cases", Of: r.Room, OfHead: "Room", Sheet: "Heat cases", Caption: "Design cases", Columns: []Column{col("Case"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit()), fig("Total", p.m.HeatUnit()), fig("Total", "tons"), fig("SHR", ""), col("When"), col("Dehumidifiers")}}
	add := func(what, key string, c document.DesignCase) {
		at := func(k string) string { return path("heat.rooms", i, key+"."+k) }
		ratio, total, tons := blank(), blank(), blank()
		switch {
		case !c.LatentKnown:
			ratio = figure(maybe(nil, 0, at("sensible_heat_ratio")))
		case c.Ratio != nil:
			ratio = figure(number(*c.Ratio, 2, at("sensible_heat_ratio")))
		}
		if c.Open() {
			t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(what), figure(maybe(nil, 0, "")), p.latent(c, at("latent_btuh")), figure(maybe(nil, 0, "")), figure(maybe(nil, 0, "")), ratio, cellText(unknown), cellText(c.Dehumidifiers)}})
			return
		}
		if !c.Heats() {
			total, tons = figure(p.heat(c.TotalBTUH, at("total_btuh"))), figure(number(c.Tons, 2, at("tons")))
			if c.LatentKnown {
				total = following(total, across(len(t.Rows), 1, 2))
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(what), figure(p.heat(c.SensibleBTUH, at("sensible_btuh"))), p.latent(c, at("latent_btuh")), total, tons, ratio,
			cellText(fmt.Sprintf("%s from %02d:00, %s", c.Day, c.Hour, c.CanopyTitle())), cellText(c.Dehumidifiers)}})
	}
	if r.LightsOn != nil {
		add("lights on, worst hour", "lights_on", *r.LightsOn)
	}
	if r.LightsOff != nil {
		add("lights off, worst hour", "lights_off", *r.LightsOff)
	}
	for k, c := range r.Cases {
		add(c.Title(), fmt.Sprintf("cases.%d", k), c)
	}
	return t
}

func (p *page) sources(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-sources", Of: r.Room, OfHead: "Room", Sheet: "Heat sources", Class: "sheet", Caption: "Where the heat of the peak comes from", Columns: []Column{col("Source"), fig("Sensible", p.m.HeatUnit()), fig("Latent", p.m.HeatUnit())}}
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
	t := Table{Name: "heat-covers", Of: r.Room, OfHead: "Room", Sheet: "Heat covers", Caption: "Equipment against the design cases", Columns: []Column{col("What"), col("Case"), col("Unit"), fig("Needed", ""), fig("Rated", ""), col("Covers"), fig("Without the largest unit", ""), col("Covers without it")}}
	for k, c := range r.Equipment.Covers {
		key := func(s string) string { return path(path("heat.rooms", i, "equipment.covers"), k, s) }
		if c.Needed != nil && *c.Needed <= 0 && c.Installed == nil && c.Covers == "yes" {
			continue
		}
		show, unit := p.inUnit(c.Unit)
		opt := func(x *float64, at string) Cell {
			if x == nil {
				return figure(maybe(nil, 0, at))
			}
			return figure(show(*x, at))
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(c.Title()), cellText(c.CaseTitle()), cellText(unit), opt(c.Needed, key("needed")), opt(c.Installed, key("installed")), cellText(c.Covers), opt(c.WithoutLargest, key("without_largest")), cellText(c.CoversWithout)}})
	}
	out := appendTable(nil, t)
	if len(t.Rows) > 0 {
		out = append(out, Paragraph{Spans: spans(text(document.Rated))})
	}
	if why := document.CoverReasons(r.Equipment.Covers, p.inText); len(why) > 0 {
		out = append(out, bullets(why))
	}
	switch e := r.Equipment; {
	case len(e.Sizes) > 0:
		s := spans(text("No cooling is stated. Nominal sizes, no selection, and their margin above the load: "))
		for k, z := range e.Sizes {
			key := func(c string) string { return path(path("heat.rooms", i, "equipment.next_sizes"), k, c) }
			if k > 0 {
				s = append(s, text("; "))
			}
			s = append(s, count(z.Count, key("count")), text(" × "), amount(z.Tons, 2, key("tons")), text(" tons ("), number(z.MarginPercent, 0, key("margin_percent")), text(" %)"))
		}
		s = append(s, text(". "+r.SizesText(p.heatText)))
		if e.CoolingWatts != nil {
			s = append(s, text(" Electric power of "+e.Sizes[0].Title()+": "+e.PowerText()+"."))
		}
		out = append(out, Paragraph{Spans: s})
	case e.SizesWhy != "":
		out = append(out, Paragraph{Spans: spans(text("No cooling is stated. " + e.NoSizesText()))})
	}
	return out
}

// inText is a figure with its unit, for a sentence.
func (p *page) inText(x *float64, unit string) string {
	show, u := p.inUnit(unit)
	if x == nil {
		return unknown + " " + u
	}
	return show(*x, "").Text + " " + u
}

func (p *page) heatText(btuh float64) string { return p.inText(&btuh, "BTU/h") }

func (p *page) waterText(pints float64) string { return p.inText(&pints, "pint/day") }

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
		kind := l.Kind
		if l.Level != nil {
			kind += ", dimmed to " + units.Round(*l.Level, 0) + " %"
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(p.item(l.Item)), cellText(kind), figure(count(l.Count, key("count"))), figure(maybe(l.WattsEach, 0, key("watts_each"))), figure(maybe(l.Watts, 0, key("watts"))), hours(l.Hours), cellText(where)}})
	}
	return t
}

func (p *page) power(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-power", Of: r.Room, OfHead: "Room", Sheet: "Heat power", Caption: "Power for more equipment", Columns: []Column{col("Panel"), col("Supplies"), fig("Main", "A"), fig("Required", "A"), fig("Spare", "A"), fig("Spare spaces", "")}}
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
		total = append(append(spans(text("at least ")), total...), text(", "+b.LeastTitle()))
	}
	return []Field{{"Worst hour", total}, {"Sum of the rooms' peaks", spans(p.heat(b.SumOfPeaksBTUH, "heat.block.sum_of_peaks_btuh"), text(" "+p.m.HeatUnit()))}}
}
