package page

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// heatRoomBlocks are the sheet of one room.
func heatRoomBlocks(r document.HeatRoom, s System) []Block {
	out := []Block{Heading{2, "Room " + r.Room}, Fields{heatRoomFacts(r, s)}, heatHeldTable(r, s),
		Heading{3, "Design cases"}}
	out = append(out, heatCasesTable(r, s)...)
	out = append(out, Fields{heatPeakFields(r, s)}, heatSourcesTable(r, s))
	if r.Water != nil {
		out = append(out, Heading{3, "Water"}, Fields{heatWaterFields(r, s)}, heatWaterTable(r, s))
	}
	out = append(out, heatLoadsTable(r))
	out = append(out, heatEquipmentBlocks(r, s)...)
	if len(r.Light) > 0 {
		out = append(out, Heading{3, "Light and density beside what is usual"}, heatLightTable(r, s))
	}
	out = append(out, heatPowerBlocks(r)...)
	out = append(out, heatHourBlocks(r, s)...)
	if notes := slices.Concat(r.Missing, heatNotes(r)); len(notes) > 0 {
		out = append(out, Heading{3, "Notes"}, List{notes})
	}
	if len(r.Establish) > 0 {
		out = append(out, Heading{3, "Still to establish for this room"}, List{r.Establish})
	}
	return out
}

// heatNotes are the notes that stand nowhere else on the sheet.
func heatNotes(r document.HeatRoom) []string {
	return slices.DeleteFunc(slices.Clone(r.Notes), func(n string) bool {
		return n == r.HeatDryWhy || slices.ContainsFunc(r.Light, func(c document.LightCheck) bool { return strings.HasPrefix(n, c.What+" is ") })
	})
}

func heatRoomFacts(r document.HeatRoom, s System) []Field {
	f := []Field{{"size", heatSizeText(r.Size, s)}, {"floor", s.areaText(r.Size.FloorFeet2) + "; canopy " + s.areaText(r.Size.Canopy)}, {"lights on", heatLightsText(r)}}
	around := "outdoor air"
	if r.Inside {
		around = "a conditioned building"
	}
	f = append(f, Field{"surroundings", around})
	for _, x := range r.Surfaces {
		f = append(f, Field{x.Name, heatSurfaceText(x, s)})
	}
	if r.AirChanges != nil {
		f = append(f, Field{"infiltration", amount(*r.AirChanges, 2, "air changes per hour")})
	}
	f = append(f, Field{"ventilation", heatAirText(r.Ventilation, s)})
	if r.People != nil {
		f = append(f, Field{"people", units.Round(*r.People, 1)})
	}
	for _, l := range r.LeftOut {
		f = append(f, Field{"left out", l.Item + ", " + amount(l.Watts, 0, "W") + ": " + l.Why})
	}
	return f
}

func heatSizeText(z document.HeatSize, s System) string {
	var parts []string
	for _, x := range []*float64{z.LengthFeet, z.WidthFeet, z.HeightFeet} {
		if x == nil {
			return "not given"
		}
		parts = append(parts, amount(s.length(*x), 1, s.lengthUnit()))
	}
	return strings.Join(parts, " x ")
}

func heatLightsText(r document.HeatRoom) string {
	if r.Lights == nil {
		return "not given"
	}
	t := *r.Lights + ", " + amount(*r.LitHours, 2, "h") + " a day"
	if r.RampMinutes > 0 {
		t += ", ramps of " + amount(r.RampMinutes, 0, "min")
	}
	return t
}

func heatSurfaceText(x document.HeatSurface, s System) string {
	t := s.areaText(x.Area)
	if x.U == nil {
		return t + ", insulation not given"
	}
	if s.Metric {
		const perUS = units.BTUPerHourPerWatt * units.MetrePerFoot * units.MetrePerFoot * 5 / 9
		return fmt.Sprintf("%s, U %s W/(m2·K)", t, units.Round(*x.U/perUS, 3))
	}
	return fmt.Sprintf("%s, U %s BTU/(h·ft2·°F), R %s", t, units.Round(*x.U, 3), units.Round(*x.RText, 1))
}

func heatAirText(v document.HeatVentilation, s System) string {
	t := "planned " + v.Planned
	switch {
	case v.Planned == "closed" && v.AirflowCFM == nil:
		return t + ": " + strings.TrimSuffix(v.Why, ": it is planned closed")
	case v.Planned == "not decided":
		t = "closed or vented: not decided, the file states no cooling capacity and no exhaust air flow for the room"
	}
	if v.ExhaustCFM != nil {
		t += ", exhaust " + s.air(v.ExhaustCFM).Shown() + " " + s.airUnit() + ", in summer counted as running in every hour"
	}
	if v.AirflowCFM != nil {
		t += "; ventilation alone would hold the set point with " + s.air(v.AirflowCFM).Shown() + " " + s.airUnit()
		if v.Hardly {
			t += ", hardly practical,"
		}
		if v.HumidityCFM != nil {
			return t + " and carry off the water with " + s.air(v.HumidityCFM).Shown() + " " + s.airUnit()
		}
		return t + "; the water: " + v.HumidityWhy
	}
	return t + "; ventilation alone cannot hold the set point: " + v.Why
}

func heatHeldTable(r document.HeatRoom, s System) Table {
	t := Table{ID: "held", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "set points"}, {Name: "dry bulb", Unit: s.temperatureUnit()}, {Name: "RH", Unit: "%"}, {Name: "wet bulb", Unit: s.temperatureUnit()},
		{Name: "dew point", Unit: s.temperatureUnit()}, {Name: "moisture", Unit: s.moistureUnit()}, {Name: "VPD", Unit: "kPa"}, {Name: "given"}}}
	for _, h := range []struct {
		when string
		document.HeldState
	}{{"lights on", r.HeldOn}, {"lights off", r.HeldOff}} {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(h.when), s.temperature(h.TemperatureC), number(h.HumidityPercent, 0), s.maybeTemperature(h.WetBulbC), s.maybeTemperature(h.DewPointC),
			s.moisture(h.HumidityRatio), number(h.VPDKPa, 2), text(yesNo(h.Given))})
	}
	return t
}

func heatCasesTable(r document.HeatRoom, s System) []Block {
	t := Table{ID: "cases", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "case"}, {Name: "sensible", Unit: s.heatUnit(), Part: 1}, {Name: "latent", Unit: s.heatUnit(), Part: 1},
		{Name: "total", Unit: s.heatUnit(), Part: 1}, {Name: "SHR", Part: 1}, {Name: "tons", Part: 1}, {Name: "total heat", Unit: "kW", Part: 1, DataOnly: s.Metric},
		{Name: "from", Part: 2}, {Name: "day", Part: 2}, {Name: "canopy", Part: 2}, {Name: "dehumidifiers", Part: 2}}}
	running := false
	add := func(name string, c document.DesignCase) {
		latent := s.heat(c.LatentBTUH)
		if !c.LatentKnown {
			latent = text(Unknown)
		}
		sensible, from, day := s.heat(c.SensibleBTUH), hour(c.Hour), text(c.Day)
		if c.Open() {
			sensible, from, day = text(Unknown), text(Unknown), text(Unknown)
		}
		row := []Cell{text(r.Room), text(name), sensible, latent}
		for _, x := range []Cell{s.heat(c.TotalBTUH), heatRatio(c), number(c.Tons, 2), number(c.KW, 2)} {
			switch {
			case c.Heats():
				x = text(none)
			case c.Open():
				x = text(Unknown)
			}
			row = append(row, x)
		}
		t.Rows = append(t.Rows, append(row, from, day, text(c.CanopyTitle()), text(c.Dehumidifiers)))
		running = running || c.Dehumidifiers == "running"
	}
	for _, c := range r.Cases {
		add(c.Title(), c)
	}
	if r.LightsOn != nil {
		add("lights on, worst hour", *r.LightsOn)
	}
	if r.LightsOff != nil {
		add("lights off, worst hour", *r.LightsOff)
	}
	out := []Block{t}
	if running {
		out = append(out, Text{Text: document.Dehumidified})
	}
	return out
}

func heatPeakFields(r document.HeatRoom, s System) []Field {
	peak := s.heatText(r.PeakTotalBTUH) + ", " + amount(r.Tons, 2, "tons of refrigeration") + ", " + r.PeakDay + " from " + hour(r.PeakHour).Shown()
	if r.AtLeast {
		peak = "at least " + peak + ", " + r.LeastTitle()
	}
	f := []Field{{"peak", peak}}
	if q := r.PeakUndimmedBTUH; q != nil {
		f = append(f, Field{"lights undimmed", s.heatText(*q) + ", " + amount(*q/units.BTUPerHourPerTon, 2, "tons") + "; in all other figures lights count as dimmed"})
	}
	f = append(f, Field{"power in room", amount(r.WattsInRoom, 0, "W") + " at the peak"})
	switch {
	case r.Reheat != nil:
		f = append(f, Field{"reheat", r.Reheat.Text(s.heatText, s.waterText)})
	case r.HeatDryWhy != "":
		f = append(f, Field{"reheat", r.HeatDryWhy})
	default:
		f = append(f, Field{"reheat", "no hour asks for heating and dehumidifying at once"})
	}
	return f
}

func heatSourcesTable(r document.HeatRoom, s System) Table {
	t := Table{ID: "sources", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "source, at the peak"}, {Name: "sensible", Unit: s.heatUnit()}, {Name: "latent", Unit: s.heatUnit()}}}
	for _, b := range r.BySource {
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(b.Source), s.heat(b.SensibleBTUH), s.heat(b.LatentBTUH)})
	}
	return t
}

func heatWaterFields(r document.HeatRoom, s System) []Field {
	w := r.Water
	applied := s.wateringText(w.WateringGallons) + ", runoff "
	if w.RunoffPercent == nil {
		applied += "not given"
	} else {
		applied += amount(*w.RunoffPercent, 0, "%")
	}
	f := []Field{{"watering", applied}, {"given off by plants", s.waterText(w.FromPlants)}}
	if w.RemovedInRoom > 0 {
		f = append(f, Field{"removed", s.waterText(w.RemovedInRoom) + " by the room's dehumidifiers"})
	}
	return append(f, Field{"the larger rate", w.Governs + ", " + s.waterText(max(w.LightsOn, w.LightsOff)) + "; dehumidifiers have to take all of it where the cooling coil takes none"})
}

func heatWaterTable(r document.HeatRoom, s System) Table {
	w := r.Water
	return Table{ID: "water", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "water to remove"}, {Name: "total", Unit: s.volumeUnit()}, {Name: "largest rate", Unit: s.waterUnit()}},
		Rows: [][]Cell{
			{text(r.Room), text("lights on"), s.volume(w.AmountOn), s.water(&w.LightsOn)},
			{text(r.Room), text("lights off"), s.volume(w.AmountOff), s.water(&w.LightsOff)},
			{text(r.Room), text("whole day"), s.volume(w.PerDay), text("")},
		}}
}

func heatLoadsTable(r document.HeatRoom) Table {
	t := Table{ID: "loads", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "load"}, {Name: "kind", ReadOnly: true}, {Name: "kind", DataOnly: true}, {Name: "stands", DataOnly: true},
		{Name: "count"}, {Name: "level", Unit: "%", DataOnly: true}, {Name: "each", Unit: "W"}, {Name: "all", Unit: "W"}, {Name: "hours"}}}
	for _, l := range r.Loads {
		kind, stands, on := l.Kind, "inside", "not given"
		if l.Outdoors {
			stands = "outdoors"
			kind += ", outdoors"
		}
		level := text("")
		if l.Level != nil {
			level = number(*l.Level, 0)
			kind += ", dimmed to " + amount(*l.Level, 0, "%")
		}
		if l.Hours != nil {
			on = *l.Hours
		}
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(l.Item), text(kind), text(l.Kind), text(stands), whole(l.Count), level, maybe(l.WattsEach, 0), maybe(l.Watts, 0), text(on)})
	}
	return t
}
