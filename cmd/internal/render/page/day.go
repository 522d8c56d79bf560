package page

import (
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Day lays out the answer of day.
func Day(d document.Day, s System) Page {
	var p Page
	p.add(Heading{1, d.Site}, Text{Text: "24 hours; power is of the mean day, " + heatOfDay(d)})
	p.add(missingBlocks(d.Missing)...)
	p.add(powerChart("power", d.Hours, func(h document.DayHour) float64 { return h.Watts }), heatChart(d, s), Fields{dayFields(d)})
	p.add(costBlocks(d)...)
	p.add(staggerBlocks(d.Stagger, d, s)...)
	p.add(Heading{2, "Hour by hour"}, hoursTable(d, s))
	p.add(groupBlocks(d, s)...)
	p.add(legBlocks(d.Panels)...)
	p.add(roomHeatBlocks(d, s)...)
	if len(d.Notes) > 0 {
		p.add(Heading{2, "Notes"}, List{d.Notes})
	}
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func heatDayName(season string) string {
	if season == document.Seasons()[0] {
		return "mean day"
	}
	return season + " design day"
}

// heatOfDay says what the heat of the page may be used for.
func heatOfDay(d document.Day) string {
	t := "heat of the " + heatDayName(d.Season)
	if d.Season == document.Seasons()[0] {
		t += ", not for sizing"
	}
	if d.HeatLeast {
		t += "; heat is a least value, for a part of it is not counted"
	}
	return t
}

func missingBlocks(all []document.DayMissing) []Block {
	if len(all) == 0 {
		return nil
	}
	t := Table{ID: "missing", DataOnly: true, Columns: []Column{{Name: "load"}, {Name: "room"}, {Name: "count"}, {Name: "why"}}}
	var items []string
	for _, m := range all {
		items = append(items, m.Path+", "+plural(m.Count, "piece", "pieces")+": "+m.Why)
		t.Rows = append(t.Rows, []Cell{text(m.Path), text(m.Room), whole(m.Count), text(m.Why)})
	}
	return []Block{Text{Text: "The watts of these loads are not known. They are left out, and every total may be more than it says:"}, List{items}, t}
}

func powerChart(title string, hours []document.DayHour, of func(document.DayHour) float64) Chart {
	c := Chart{Title: title, Unit: "kW", Digits: 2}
	for _, h := range hours {
		c.Values = append(c.Values, of(h)/1000)
	}
	return c
}

func heatChart(d document.Day, s System) Chart {
	c := Chart{Title: "heat, " + heatDayName(d.Season), Unit: s.heatUnit()}
	if s.Metric {
		c.Digits = 2
	}
	for _, h := range d.Hours {
		c.Values = append(c.Values, s.heat(h.HeatBTUH).value)
	}
	return c
}

// kw is a power in kilowatts: two decimals below 100.
func kw(watts float64) Cell {
	if watts < 100_000 {
		return number(watts/1000, 2)
	}
	return number(watts/1000, 1)
}

func dayAtLeast(least bool) string {
	if least {
		return "at least "
	}
	return ""
}

func dayFields(d document.Day) []Field {
	least := dayAtLeast(d.AtLeast)
	f := []Field{
		{"energy", least + amount(d.EnergyDay, 1, "kWh") + " a day, " + amount(d.EnergyMonth, 0, "kWh") + " a month"},
		{"peak", least + kw(d.Peak.Watts).Shown() + " kW, 15 minutes from " + d.Peak.At + ", as it runs"},
		{"peak demand", least + kw(d.Demand.Watts).Shown() + " kW, 15 minutes from " + d.Demand.At + " on the " + d.Demand.Day + ", all cycling loads on at once"},
		{"apparent", least + kw(d.PeakVA.VA).Shown() + " kVA from " + d.PeakVA.At + "; all cycling loads at once " + kw(d.DemandVA.VA).Shown() + " kVA"},
	}
	if d.LoadFactor != nil {
		f = append(f, Field{"load factor", amount(*d.LoadFactor, 1, "%") + " of the peak, on the mean"})
	}
	return f
}

func hoursTable(d document.Day, s System) Table {
	t := Table{ID: "hours", Columns: []Column{{Name: "from"}, {Name: "power", Unit: "kW"}, {Name: "apparent", Unit: "kVA"}, {Name: "all cycling on", Unit: "kW"}, {Name: "heat, " + heatDayName(d.Season), Unit: s.heatUnit()}}}
	for _, h := range d.Hours {
		t.Rows = append(t.Rows, []Cell{hour(h.Hour), kw(h.Watts), kw(h.VA), kw(h.Coincident), s.heat(h.HeatBTUH)})
	}
	return t
}

// groupBlocks are what takes the energy: categories and rooms.
func groupBlocks(d document.Day, s System) []Block {
	t := Table{ID: "groups", Columns: []Column{{Name: "of", DataOnly: true}, {Name: "use"}, {Name: "energy", Unit: "kWh/day"}, {Name: "a month", Unit: "kWh"}, {Name: "peak", Unit: "kW"}, {Name: "from"},
		{Name: "load factor", Unit: "%"}, {Name: "may be more"}}}
	add := func(of string, g document.DayGroup) {
		factor := text(none)
		if g.LoadFactor != nil {
			factor = number(*g.LoadFactor, 1)
		}
		t.Rows = append(t.Rows, []Cell{text(of), text(groupName(of, g.Name)), number(g.EnergyDay, 1), number(g.EnergyMonth, 0), kw(g.Peak.Watts), text(g.Peak.At), factor, text(yesNo(g.AtLeast))})
	}
	for _, g := range d.Categories {
		add("category", g)
	}
	for _, g := range d.Rooms {
		add("room", g)
	}
	return []Block{Heading{2, "What takes the energy"}, t, roomHoursTable(d, s)}
}

func groupName(of, name string) string {
	switch {
	case of == "room" && name == "":
		return "in no room"
	case of == "room":
		return "room " + name
	}
	return name
}

// roomHoursTable is the rooms for data formats.
func roomHoursTable(d document.Day, s System) Table {
	t := Table{ID: "room hours", DataOnly: true, Columns: []Column{{Name: "room"}, {Name: "from"}, {Name: "power", Unit: "kW"}, {Name: "apparent", Unit: "kVA"}, {Name: "heat", Unit: s.heatUnit()}}}
	for _, r := range d.Rooms {
		for _, h := range r.Hours {
			t.Rows = append(t.Rows, []Cell{text(r.Name), hour(h.Hour), kw(h.Watts), kw(h.VA), s.heat(h.HeatBTUH)})
		}
	}
	return t
}

// roomHeatBlocks are the rooms' heat for readers, a column each.
func roomHeatBlocks(d document.Day, s System) []Block {
	rooms := slices.DeleteFunc(slices.Clone(d.Rooms), func(g document.DayGroup) bool { return g.Name == "" })
	if len(rooms) < 2 {
		return nil // of one room the site's own column is the same
	}
	t := Table{ID: "room heat", ReadOnly: true, Columns: []Column{{Name: "from"}}}
	for i, r := range rooms {
		t.Columns = append(t.Columns, Column{Name: r.Name, Part: i + 1})
	}
	for h := range d.Hours {
		row := []Cell{hour(h)}
		for _, r := range rooms {
			row = append(row, s.heat(r.Hours[h].HeatBTUH))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{Heading{2, "Heat of each room in " + s.heatUnit() + ", " + heatDayName(d.Season)}, t}
}

// legBlocks are what the legs of the panels carry.
func legBlocks(panels []document.DayPanel) []Block {
	if len(panels) == 0 {
		return nil
	}
	about := Table{ID: "panels", Columns: []Column{{Name: "panel"}, {Name: "system"}, {Name: "fed by"}, {Name: "main", Unit: "A"}, {Name: "fullest leg", Unit: "A"}, {Name: "at"}, {Name: "required", Unit: "A"}}}
	data := Table{ID: "legs", DataOnly: true, Columns: []Column{{Name: "panel"}, {Name: "from"}, {Name: "leg"}, {Name: "load", Unit: "A"}, {Name: "fullest at"}}}
	wide := Table{ID: "leg hours", ReadOnly: true, Columns: []Column{{Name: "from"}}}
	rows := make([][]Cell, 24)
	for h := range rows {
		rows[h] = []Cell{hour(h)}
	}
	for i, p := range panels {
		about.Rows = append(about.Rows, []Cell{text(p.Name), text(p.System), text(p.FedBy), maybe(p.MainAmps, 0), number(p.MostAmps, 1), text(p.MostAt), number(p.Required, 1)})
		conductors := slices.Clone(p.Legs)
		if neutral := len(p.Legs) > 1; neutral {
			conductors = append(conductors, "N")
		}
		for _, l := range conductors {
			wide.Columns = append(wide.Columns, Column{Name: p.Name + " " + l, Part: i + 1})
			for h, x := range p.Hours {
				amps := x.Neutral
				if a, ok := x.Amps[l]; ok {
					amps = &a
				}
				rows[h] = append(rows[h], maybe(amps, 1))
				data.Rows = append(data.Rows, []Cell{text(p.Name), hour(h), text(l), maybe(amps, 2), text(x.At)})
			}
		}
	}
	wide.Rows = rows
	out := []Block{Heading{2, "Amperes on the legs"}, about}
	for _, p := range panels {
		if p.LeastLoad {
			out = append(out, Text{ID: "least values", Text: "Amperes of panel " + p.Name + " are least values: the current of a load is not known."})
		}
	}
	out = append(out,
		Text{Text: "Amperes of all that is on in each hour, as its circuits are sized, with the panel's other load; each hour at its fullest minute. What a panel is required to carry counts everything connected as on and the allowance for continuous load."},
		wide, data)
	for _, p := range panels {
		if s := p.Brief(); s != "" {
			out = append(out, Text{Text: s})
		}
	}
	return out
}

// money prints an amount of a currency.
func money(x float64, currency string) string {
	return strings.TrimSpace(units.Fixed(x, 2) + " " + currency)
}
