package page

import "branchwork/cmd/internal/document"

// heatHourBlocks are the hours of each day that a room was worked for.
func heatHourBlocks(r document.HeatRoom, s System) []Block {
	var out []Block
	for _, day := range r.Days {
		title := "Hour by hour, " + day.Day + ", full canopy"
		if !day.Whole {
			title += " (the air around is not known: without the parts that need it)"
		}
		t := Table{ID: "hours", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "day", DataOnly: true}, {Name: "from"}, {Name: "lit", Unit: "%"},
			{Name: "outside", Unit: s.temperatureUnit()}, {Name: "set point", Unit: s.temperatureUnit()}, {Name: "sensible", Unit: s.heatUnit()}, {Name: "latent", Unit: s.heatUnit()},
			{Name: "total", Unit: s.heatUnit()}, {Name: "power", Unit: "W"}, {Name: "dehumidified", Unit: s.waterUnit()},
			{Name: "vented sensible", Unit: s.heatUnit(), DataOnly: true}, {Name: "vented latent", Unit: s.heatUnit(), DataOnly: true}}}
		for _, h := range day.Hours {
			t.Rows = append(t.Rows, []Cell{text(r.Room), text(day.Day), hour(h.Hour), number(h.LitPercent, 0), s.maybeTemperature(h.OutsideC), s.temperature(h.SetPointC),
				s.heat(h.SensibleBTUH), s.heat(h.LatentBTUH), s.heat(h.TotalBTUH), number(h.Watts, 0), s.water(&h.RemovedRate),
				s.heat(h.Vented.SensibleBTUH), s.heat(h.Vented.LatentBTUH)})
		}
		out = append(out, Heading{3, title}, t)
	}
	return out
}
