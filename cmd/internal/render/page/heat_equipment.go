package page

import (
	"strings"

	"branchwork/cmd/internal/document"
)

func heatEquipmentBlocks(r document.HeatRoom, s System) []Block {
	e := r.Equipment
	out := []Block{Heading{3, "Equipment against the design cases"}}
	if len(e.Stated) > 0 {
		out = append(out, heatStatedTable(r, s))
	}
	out = append(out, heatCoverTable(r, s),
		Text{Text: document.Rated})
	if why := document.CoverReasons(e.Covers, s.inText); len(why) > 0 {
		out = append(out, List{why})
	}
	switch {
	case len(e.Sizes) > 0:
		out = append(out, heatSizesBlocks(r, s)...)
	case e.SizesWhy != "":
		out = append(out, Text{Text: e.NoSizesText()})
	}
	t := Table{ID: "estimated", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "power estimated from cooling"}, {Name: "each", Unit: "W"}}}
	for _, x := range e.Estimated {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(x.Item), number(x.Watts, 0)})
	}
	return append(out, t)
}

func heatStatedTable(r document.HeatRoom, s System) Table {
	t := Table{ID: "equipment", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "stated"}, {Name: "kind"}, {Name: "count"}, {Name: "cooling each", Unit: s.heatUnit()},
		{Name: "sensible each", Unit: s.heatUnit()}, {Name: "removes each", Unit: s.waterUnit()}, {Name: "adds each", Unit: s.waterUnit(), DataOnly: true}, {Name: "heat output each", Unit: s.heatUnit()}}}
	given := func(x *float64, asked bool, show func(*float64) Cell) Cell {
		if x == nil && !asked {
			return text("")
		}
		return show(x)
	}
	for _, u := range r.Equipment.Stated {
		heats := u.HeatBTUH
		if u.BurnsBTUH != nil {
			heats = u.BurnsBTUH
		}
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(u.Item), text(u.Kind), whole(u.Count), given(u.CoolingBTUH, u.Cools(), s.maybeHeat), given(u.SensibleBTUH, false, s.maybeHeat),
			given(u.RemovesPints, false, s.water), given(u.AddsPints, u.Wets(), s.water), given(heats, u.Heats(), s.maybeHeat)})
	}
	return t
}

func heatCoverTable(r document.HeatRoom, s System) Table {
	t := Table{ID: "covers", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "what"}, {Name: "case"}, {Name: "unit"}, {Name: "needed"}, {Name: "rated"}, {Name: "covers"},
		{Name: "without the largest"}, {Name: "still covers"}}}
	for _, c := range r.Equipment.Covers {
		needed, unit := s.in(c.Needed, c.Unit)
		have, _ := s.in(c.Installed, c.Unit)
		less, _ := s.in(c.WithoutLargest, c.Unit)
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(c.Title()), text(c.CaseTitle()), text(unit), needed, have, text(c.Covers), less, text(c.CoversWithout)})
	}
	return t
}

func heatSizesBlocks(r document.HeatRoom, s System) []Block {
	e := r.Equipment
	t := Table{ID: "sizes", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "nominal sizes, no selection"}, {Name: "count", DataOnly: true}, {Name: "each", Unit: "ton", DataOnly: true}, {Name: "margin above the load", Unit: "%"}}}
	for _, z := range e.Sizes {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(z.Title()), whole(z.Count), number(z.Tons, 1), number(z.MarginPercent, 1)})
	}
	out := []Block{t, Text{Text: r.SizesText(s.heatText)}}
	if e.CoolingWatts != nil {
		out = append(out, Fields{[]Field{{"electric power of " + e.Sizes[0].Title(), e.PowerText()}}})
	}
	return out
}

func heatLightTable(r document.HeatRoom, s System) Table {
	t := Table{ID: "light", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "figure"}, {Name: "unit"}, {Name: "here"}, {Name: "usual from"}, {Name: "to"}, {Name: "outside it"}, {Name: "source"}}}
	for _, c := range r.Light {
		here, unit := s.perArea(c.Value, c.Unit)
		low, _ := s.perArea(c.Low, c.Unit)
		high, _ := s.perArea(c.High, c.Unit)
		digits := 0
		if high < 10 {
			digits = 2
		}
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(c.What), text(unit), number(here, digits), number(low, digits), number(high, digits), text(yesNo(c.Outside)), text(c.Source)})
	}
	return t
}

func heatPowerBlocks(r document.HeatRoom) []Block {
	out := []Block{Heading{3, "Power available for equipment"}}
	t := Table{ID: "power", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "panel"}, {Name: "supplies"}, {Name: "main", Unit: "A"}, {Name: "required", Unit: "A"}, {Name: "spare", Unit: "A"},
		{Name: "spaces"}, {Name: "spare spaces"}, {Name: "feeds"}}}
	least := false
	for _, p := range r.Power {
		feeds := "the room"
		if !p.FeedsRoom {
			feeds = "its panel"
		}
		spaces, spare := text(Unknown), text(Unknown)
		if p.Spaces != nil {
			spaces = whole(*p.Spaces)
		}
		if p.SpareSpaces != nil {
			spare = whole(*p.SpareSpaces)
		}
		least = least || p.LeastLoad
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(p.Panel), text(heatSupplies(p.Supplies)), maybe(p.MainAmps, 0), number(p.RequiredAmps, 1), maybe(p.SpareAmps, 1), spaces, spare, text(feeds)})
	}
	if len(t.Rows) == 0 {
		return append(out, Text{Text: "no panel feeds the room"})
	}
	out = append(out, t, Text{Text: "Spare is the main less what the fullest leg needs with the allowance for continuous load, all equipment of the file counted."})
	if least {
		out = append(out, Text{Text: "The current of a load is not known: what is required is a least value, and what is spare is not known."})
	}
	return out
}

// heatSupplies lists voltages and phases: "120 V, 208 V, 208 V 3-phase".
func heatSupplies(all []document.HeatSupply) string {
	parts := make([]string, len(all))
	for i, u := range all {
		parts[i] = amount(u.Volts, 0, "V")
		if u.Phases == 3 {
			parts[i] += " 3-phase"
		}
	}
	return strings.Join(parts, ", ")
}
