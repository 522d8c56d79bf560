package page

import (
	"fmt"
	"slices"

	"branchwork/cmd/internal/document"
)

// heatLines are the rooms of a plan, one line each.
func heatLines(rooms []document.RoomHeat, s System) []Block {
	if len(rooms) == 0 {
		return nil
	}
	t := Table{ID: "heat", Columns: []Column{{Name: "room"}, {Name: "power in room", Unit: "W"},
		{Name: "lights on", Unit: s.heatUnit()}, {Name: "lights off", Unit: s.heatUnit()}, {Name: "peak", Unit: s.heatUnit()}, {Name: "at hour"}, {Name: "tons"}}}
	for _, r := range rooms {
		t.Rows = append(t.Rows, []Cell{text(r.Room), number(r.WattsInRoom, 0), s.caseTotal(r.LightsOn), s.caseTotal(r.LightsOff),
			s.heat(r.PeakTotalBTUH), hour(r.PeakHour), number(r.Tons, 2)})
	}
	return []Block{Heading{2, "Heat"}, t}
}

func (s System) caseTotal(c *document.DesignCase) Cell {
	if c == nil {
		return text(none)
	}
	return s.heat(c.TotalBTUH)
}

func hour(h int) Cell { return text(fmt.Sprintf("%02d:00", h)) }

// Heat lays out the answer of heat.
func Heat(d document.Heat, s System) Page {
	var p Page
	p.add(Heading{1, d.Site}, Text{Text: "heat of each room"})
	for _, r := range d.Rooms {
		p.add(Heading{2, "Room " + r.Room}, roomCases(r, s), roomSources(r, s), Fields{roomFields(r, s)})
		if notes := slices.Concat(r.Missing, r.Notes); len(notes) > 0 {
			p.add(List{notes})
		}
	}
	if len(d.Rooms) == 0 {
		p.add(Text{Text: "the file has no rooms"})
	}
	p.add(roomTable(d, s))
	p.add(blockBlocks(d, s)...)
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func roomCases(r document.RoomHeat, s System) Table {
	t := Table{ID: "cases", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "case"}, {Name: "sensible", Unit: s.heatUnit()}, {Name: "latent", Unit: s.heatUnit()},
		{Name: "total", Unit: s.heatUnit()}, {Name: "day"}, {Name: "from"}, {Name: "canopy"}}}
	add := func(name string, c document.DesignCase) {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(name), s.heat(c.SensibleBTUH), s.heat(c.LatentBTUH), s.heat(c.TotalBTUH), text(c.Day), text(hour(c.Hour).Shown()), text(c.Canopy)})
	}
	if r.LightsOn != nil {
		add("lights on, worst hour", *r.LightsOn)
	}
	if r.LightsOff != nil {
		add("lights off, worst hour", *r.LightsOff)
	}
	for _, c := range r.Cases {
		add(c.Name, c)
	}
	return t
}

func roomSources(r document.RoomHeat, s System) Table {
	t := Table{ID: "sources", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "source, at the peak"}, {Name: "sensible", Unit: s.heatUnit()}, {Name: "latent", Unit: s.heatUnit()}}}
	for _, b := range r.BySource {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(b.Source), s.heat(b.SensibleBTUH), s.heat(b.LatentBTUH)})
	}
	return t
}

func roomFields(r document.RoomHeat, s System) []Field {
	peak := s.heatText(r.PeakTotalBTUH) + ", " + amount(r.Tons, 2, "tons of refrigeration") + ", " + r.PeakDay + " from " + hour(r.PeakHour).Shown()
	if r.AtLeast {
		peak = "at least " + peak
	}
	f := []Field{{"peak", peak}, {"power in room", amount(r.WattsInRoom, 0, "W") + " at the peak"}}
	if r.WaterPintsPerDay != nil {
		f = append(f, Field{"water to remove", s.water(r.WaterPintsPerDay).Shown() + " " + s.waterUnit()})
	}
	if r.AirflowCFM != nil {
		f = append(f, Field{"ventilation", s.air(r.AirflowCFM).Shown() + " " + s.airUnit() + " to hold the set point by ventilation alone"})
	}
	for _, l := range r.LeftOut {
		f = append(f, Field{"left out", l.Item + ", " + amount(l.Watts, 0, "W") + ": " + l.Why})
	}
	return f
}

func roomTable(d document.Heat, s System) Table {
	t := Table{ID: "rooms", DataOnly: true, Columns: []Column{{Name: "room"}, {Name: "power in room", Unit: "W"}, {Name: "peak", Unit: s.heatUnit()},
		{Name: "peak hour"}, {Name: "tons"}, {Name: "water", Unit: s.waterUnit()}, {Name: "air", Unit: s.airUnit()}}}
	for _, r := range d.Rooms {
		t.Rows = append(t.Rows, []Cell{text(r.Room), number(r.WattsInRoom, 0), s.heat(r.PeakTotalBTUH), whole(r.PeakHour), number(r.Tons, 2), s.water(r.WaterPintsPerDay), s.air(r.AirflowCFM)})
	}
	return t
}

// blockBlocks is the whole building, where it has more than one room.
func blockBlocks(d document.Heat, s System) []Block {
	var out []Block
	if len(d.Rooms) > 1 {
		total := s.heatText(d.Block.TotalBTUH) + ", " + d.Block.Day + " from " + hour(d.Block.Hour).Shown()
		if d.Block.AtLeast {
			total = "at least " + total
		}
		out = append(out, Heading{2, "Whole building"}, Fields{[]Field{{"worst hour", total}, {"sum of the rooms' peaks", s.heatText(d.Block.SumOfPeaksBTUH)}}})
	}
	if len(d.Notes) > 0 {
		out = append(out, List{d.Notes})
	}
	return out
}
