package page

import "branchwork/cmd/internal/document"

// planDayBlocks are the day of a plan in a few lines.
func planDayBlocks(d document.PlanDay, s System) []Block {
	if len(d.Hours) == 0 {
		return nil
	}
	least := dayAtLeast(d.AtLeast)
	f := []Field{
		{"energy", least + amount(d.EnergyDay, 1, "kWh") + " a day"},
		{"peak", least + kw(d.PeakWatts).Shown() + " kW from " + d.PeakAt + "; " + kw(d.DemandWatts).Shown() + " kW with all cycling loads on at once"},
	}
	if d.CostMonth != nil {
		f = append(f, Field{"cost", least + money(*d.CostMonth, d.Currency) + " a month"})
	}
	t := Table{ID: "day", DataOnly: true, Columns: []Column{{Name: "from"}, {Name: "power", Unit: "kW"}, {Name: "apparent", Unit: "kVA"}, {Name: "heat", Unit: s.heatUnit()}}}
	for _, h := range d.Hours {
		t.Rows = append(t.Rows, []Cell{hour(h.Hour), kw(h.Watts), kw(h.VA), s.heat(h.HeatBTUH)})
	}
	return []Block{Heading{2, "Day"}, Fields{f}, t}
}
