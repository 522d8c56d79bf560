package page

import (
	"fmt"

	"branchwork/cmd/internal/document"
)

// heatLines are the rooms of a plan, one line each.
func heatLines(rooms []document.RoomHeat, s System) []Block {
	if len(rooms) == 0 {
		return nil
	}
	t := Table{ID: "heat", Columns: []Column{{Name: "room"}, {Name: "power at peak", Unit: "W"},
		{Name: "lights on", Unit: s.heatUnit()}, {Name: "lights off", Unit: s.heatUnit()}, {Name: "peak", Unit: s.heatUnit()}, {Name: "at hour"}, {Name: "tons"}, {Name: "lacks", DataOnly: true}}}
	var lacks []string
	for _, r := range rooms {
		t.Rows = append(t.Rows, []Cell{text(r.Room), number(r.WattsInRoom, 0), s.caseTotal(r.LightsOn), s.caseTotal(r.LightsOff),
			atLeast(s.heat(r.PeakTotalBTUH), r.AtLeast), hour(r.PeakHour), number(r.Tons, 2), text(r.LeastTitle())})
		if r.AtLeast {
			lacks = append(lacks, r.Room+": "+r.LeastTitle())
		}
	}
	out := []Block{Heading{2, "Heat"}, t}
	if len(lacks) > 0 {
		out = append(out, List{lacks})
	}
	return out
}

func (s System) caseTotal(c *document.DesignCase) Cell {
	if c == nil {
		return text(none)
	}
	return s.heat(c.TotalBTUH)
}

func hour(h int) Cell { return text(fmt.Sprintf("%02d:00", h)) }

// Heat lays out the answer of heat: the sheet for the HVAC installer.
func Heat(d document.Heat, s System) Page {
	var p Page
	about := "heat of each room: the sheet for the HVAC installer"
	if s.Metric {
		about += "; notes keep the units that they were worked in"
	}
	p.add(Heading{1, d.Site}, Text{Text: about}, Fields{heatOutdoorFields(d, s)}, roomTable(d, s))
	for _, r := range d.Rooms {
		p.add(heatRoomBlocks(r, s)...)
	}
	if len(d.Rooms) == 0 {
		p.add(Text{Text: "the file has no rooms"})
	}
	p.add(blockBlocks(d, s)...)
	p.add(Heading{2, "What the installer still has to establish"}, List{d.Establish})
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func heatOutdoorFields(d document.Heat, s System) []Field {
	summer := s.temperatureText(d.Outdoor.SummerC)
	if d.Outdoor.SummerC != nil {
		summer += ", wet bulb " + s.temperatureText(d.Outdoor.SummerWetBulbC)
		if w := d.Outdoor.SummerRatio; w != nil {
			summer += ", " + s.moisture(w).Shown() + " " + s.moistureUnit()
		}
	}
	altitude := "not given"
	if z := d.Outdoor.AltitudeFeet; z != nil {
		altitude = amount(s.length(*z), 0, s.lengthUnit())
	}
	return []Field{{"outdoor, summer", summer}, {"outdoor, winter", s.temperatureText(d.Outdoor.WinterC)}, {"altitude", altitude}}
}

// roomTable is one line a room; of a single room its own part says it all.
func roomTable(d document.Heat, s System) Table {
	t := Table{ID: "rooms", DataOnly: len(d.Rooms) < 2, Columns: []Column{{Name: "room"}, {Name: "floor", Unit: s.areaUnit(), Part: 2}, {Name: "canopy", Unit: s.areaUnit(), Part: 2},
		{Name: "power at peak", Unit: "W", Part: 2}, {Name: "peak", Unit: s.heatUnit(), Part: 1}, {Name: "lacks", DataOnly: true}, {Name: "SHR", Part: 1}, {Name: "tons", Part: 1},
		{Name: "peak from", Part: 1}, {Name: "water a day", Unit: s.volumeUnit(), Part: 1}, {Name: "largest rate", Unit: s.waterUnit(), Part: 1},
		{Name: "ventilation alone", Unit: s.airUnit(), Part: 2}, {Name: "planned", Part: 2}}}
	for _, r := range d.Rooms {
		air := s.air(r.AirflowCFM)
		switch {
		case r.AirflowCFM == nil:
			air = text(none)
		case r.Ventilation.Hardly:
			air = text("hardly practical")
		}
		daily, rate := text(Unknown), text(Unknown)
		if w := r.Water; w != nil {
			most := max(w.LightsOn, w.LightsOff)
			daily, rate = s.volume(w.PerDay), s.water(&most)
		}
		t.Rows = append(t.Rows, []Cell{text(r.Room), s.area(r.Size.FloorFeet2), s.area(r.Size.Canopy), number(r.WattsInRoom, 0), atLeast(s.heat(r.PeakTotalBTUH), r.AtLeast), text(r.LeastTitle()),
			heatRatio(r.Cases[0]), number(r.Tons, 2), hour(r.PeakHour), daily, rate, air, text(r.Ventilation.Planned)})
	}
	return t
}

func heatRatio(c document.DesignCase) Cell {
	switch {
	case !c.LatentKnown:
		return text(Unknown)
	case c.Ratio == nil:
		return text(none)
	}
	return number(*c.Ratio, 2)
}

// blockBlocks is the whole building, where it has more than one room.
func blockBlocks(d document.Heat, s System) []Block {
	var out []Block
	if len(d.Rooms) > 1 {
		total := s.heatText(d.Block.TotalBTUH) + ", " + amount(d.Block.Tons, 2, "tons of refrigeration") + ", " + d.Block.Day + " from " + hour(d.Block.Hour).Shown()
		if d.Block.AtLeast {
			total = "at least " + total + ", " + d.Block.LeastTitle()
		}
		out = append(out, Heading{2, "Whole building"}, Fields{[]Field{{"worst hour", total}, {"sum of the rooms' peaks", s.heatText(d.Block.SumOfPeaksBTUH)}}})
	}
	if len(d.Notes) > 0 {
		out = append(out, List{d.Notes})
	}
	return out
}
