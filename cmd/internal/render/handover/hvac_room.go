package handover

import (
	"branchwork/cmd/internal/document"
)

// stated is the cooling, drying and heating equipment of the file, as rated.
func (p *page) stated(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-units", Of: r.Room, OfHead: "Room", Sheet: "Heat units", Caption: "Equipment stated, rated, of each unit", Columns: []Column{col("Item"), col("Kind"), fig("Units", ""), fig("Cooling", p.m.HeatUnit()),
		fig("Sensible", p.m.HeatUnit()), fig("Heat output", p.m.HeatUnit()), fig("Fuel burnt", p.m.HeatUnit()), fig("Water removed", p.waterUnit()), fig("Water added", p.waterUnit())}}
	for k, u := range r.Equipment.Stated {
		key := func(s string) string { return path(path("heat.rooms", i, "equipment.stated"), k, s) }
		given := func(x *float64, asked bool, show func(float64, string) Span, at string) Cell {
			switch {
			case x != nil:
				return figure(show(*x, key(at)))
			case asked:
				return figure(maybe(nil, 0, ""))
			}
			return blank()
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(p.item(u.Item)), cellText(u.Kind), figure(count(u.Count, key("count"))), given(u.CoolingBTUH, u.Cools(), p.heat, "cooling_btuh"), given(u.SensibleBTUH, false, p.heat, "sensible_btuh"),
			given(u.HeatBTUH, u.Heats(), p.heat, "heat_btuh"), given(u.BurnsBTUH, false, p.heat, "burns_btuh"), given(u.RemovesPints, false, p.water, "removes_pints_per_day"), given(u.AddsPints, u.Wets(), p.water, "adds_pints_per_day")}})
	}
	return t
}

// water is what has to be taken out of the air, by the time of day.
func (p *page) waterOf(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-water", Of: r.Room, OfHead: "Room", Sheet: "Heat water", Class: "sheet", Caption: "Water to remove", Columns: []Column{col("While"), fig("Total", p.amountUnit()), fig("Largest rate", p.waterUnit())}}
	w := r.Water
	if w == nil {
		return t
	}
	key := func(s string) string { return path("heat.rooms", i, "water."+s) }
	line := func(what string, amount float64, at string, rate Cell) {
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(what), figure(p.water(amount, key(at))), rate}})
	}
	line("lights on", w.AmountOn, "lights_on_pints", figure(p.water(w.LightsOn, key("lights_on_pints_per_day"))))
	line("lights off", w.AmountOff, "lights_off_pints", figure(p.water(w.LightsOff, key("lights_off_pints_per_day"))))
	t.Foot = []Row{{Cells: []Cell{cellText("All"), following(figure(p.water(w.PerDay, key("to_remove_pints_per_day"))), t.body(1)), gap()}}}
	return t
}

// light is figures of the lighting and the room beside what is usual.
func (p *page) light(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-light", Of: r.Room, OfHead: "Room", Sheet: "Heat light", Caption: "Light, and power for its area, beside what is usual", Columns: []Column{col("What"), fig("Here", ""), fig("Usual from", ""), fig("to", ""), col("Unit"), col("Beside it"), col("Source")}}
	for k, l := range r.Light {
		key := func(s string) string { return path(path("heat.rooms", i, "light"), k, s) }
		stands := "within"
		if l.Outside {
			stands = "outside"
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(l.What), figure(amount(l.Value, 2, key("value"))), figure(amount(l.Low, 2, key("usual_low"))), figure(amount(l.High, 2, key("usual_high"))), cellText(l.Unit), cellText(stands), cellText(l.Source)}})
	}
	return t
}

// leftOut is what stands in the room and is not in its heat.
func (p *page) leftOut(i int, r document.HeatRoom) Table {
	t := Table{Name: "heat-left-out", Of: r.Room, OfHead: "Room", Sheet: "Heat left out", Caption: "Heat that goes elsewhere, whole or in part", Columns: []Column{col("Item"), fig("Power", "W"), col("Why")}}
	for k, l := range r.LeftOut {
		t.Rows = append(t.Rows, Row{Cells: []Cell{in(p.item(l.Item)), figure(number(l.Watts, 0, path(path("heat.rooms", i, "left_out"), k, "watts"))), cellText(l.Why)}})
	}
	return t
}

// air is how the room is aired, or why it cannot be.
func (p *page) air(i int, r document.HeatRoom) []Field {
	v := r.Ventilation
	key := func(s string) string { return path("heat.rooms", i, "ventilation."+s) }
	out := []Field{{"Ventilation", spans(text(v.Planned))}}
	if v.ExhaustCFM != nil {
		out = append(out, Field{"Exhaust stated", spans(p.flow(*v.ExhaustCFM, key("exhaust_cfm")), text(" "+p.flowUnit()+", in summer counted as running in every hour"))})
	}
	says := func(what string, x *float64, at, does, cannot, why string) {
		switch {
		case x != nil:
			out = append(out, Field{what, spans(p.flow(*x, key(at)), text(" "+p.flowUnit()+" "+does))})
		case why != "":
			out = append(out, Field{what, spans(text(cannot + why))})
		}
	}
	alone := "would hold the set point by ventilation alone"
	if v.Hardly {
		alone += "; hardly practical"
	}
	says("Air for the heat", v.AirflowCFM, "airflow_cfm", alone, "ventilation alone cannot hold the set point: ", v.Why)
	if v.AirflowCFM != nil { // else there is nothing to say of the water that is not said of the heat
		says("Air for the water", v.HumidityCFM, "humidity_cfm", "would carry the water off", "not worked out: ", v.HumidityWhy)
	}
	if r.Reheat != nil {
		out = append(out, Field{"Reheat", spans(text(r.Reheat.Text(p.heatText, p.waterText)))})
	}
	return out
}
