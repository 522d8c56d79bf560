package handover

import (
	"branchwork/cmd/internal/render/svg"
)

// hours are the charts of the day with the figures behind them.
func (p *page) hours() []Block {
	d := p.d.Day
	demand, layers := svg.Demand("ch-demand", d)
	var key []KeyItem
	for i := len(layers) - 1; i >= 0; i-- { // as they are stacked
		l := layers[i]
		key = append(key, KeyItem{Swatch: svg.LayerSwatch(l), Spans: spans(Span{Text: l.Letter, Class: "strong"}, text(" "+l.Category))})
	}
	chart := drawn(demand, key)
	chart.Row = true
	out := []Block{p.dayFields(), chart}
	for i, x := range d.Panels {
		if x.FedBy == "" {
			if f, ok := svg.Legs(id("ch-legs", i), x); ok {
				out = append(out, drawn(f, nil))
			}
		}
	}
	for i, r := range p.d.Heat.Rooms {
		if f, ok := svg.Heat(id("ch-heat", i), r, p.m); ok && p.d.For("hvac", "grower") {
			out = append(out, drawn(f, nil, text("Room "), p.room(r.Room), text(".")))
		}
	}
	return append(out, p.hourTable())
}

func (p *page) dayFields() Fields {
	d := p.d.Day
	f := []Field{
		{"As it runs", spans(scaled(d.Peak.Watts, 0.001, 2, "day.peak.watts"), text(" kW from "+d.Peak.At+", largest quarter-hour of the mean day"))},
		{"Demand", spans(scaled(d.Demand.Watts, 0.001, 2, "day.demand.watts"), text(" kW, "), scaled(d.DemandVA.VA, 0.001, 2, "day.demand_apparent.va"), text(" kVA, from "+d.Demand.At+" on the "+d.Demand.Day+", all cycling loads on at once"))},
		{"Energy", spans(number(d.EnergyDay, 1, "day.energy_kwh_per_day"), text(" kWh a day, "), number(d.EnergyMonth, 0, "day.energy_kwh_per_month"), text(" kWh a month"))},
	}
	if d.AtLeast {
		f = append(f, Field{"Caution", spans(text("power and energy are least values: the watts of a load are not known"))})
	}
	if c := d.Cost; c != nil {
		s := spans(number(c.Month, 2, "day.cost.per_month"), text(" "), name(c.Currency), text(" a month by the tariff of the file"))
		if c.AtLeast {
			s = append(s, text(", a least value"))
		}
		f = append(f, Field{"Cost", s})
	} else if d.CostWhy != "" {
		f = append(f, Field{"Cost", spans(text("not known: " + d.CostWhy))})
	}
	for _, x := range d.Panels {
		if s := x.Brief(); s != "" && x.FedBy == "" {
			f = append(f, Field{"Note", spans(text(s))})
		}
	}
	for _, n := range d.Notes {
		f = append(f, Field{"Note", spans(text(n))})
	}
	return Fields{Name: "day", Rows: f}
}

func (p *page) hourTable() Table {
	t := Table{Name: "hours", Class: "narrow", Sheet: "Hours", Caption: "Hour by hour, mean day, whose heat is not for sizing; coincident: largest quarter-hour with all cycling loads on", Columns: []Column{fig("From", "h"), fig("Power", "kW"), fig("Apparent", "kVA"), fig("Coincident", "kW"), fig("Heat, mean day", p.m.HeatUnit())}}
	for i, h := range p.d.Day.Hours {
		key := func(k string) string { return path("day.hours", i, k) }
		t.Rows = append(t.Rows, Row{Cells: []Cell{figure(count(h.Hour, key("hour"))), figure(scaled(h.Watts, 0.001, 2, key("watts"))), figure(scaled(h.VA, 0.001, 2, key("va"))),
			figure(scaled(h.Coincident, 0.001, 2, key("coincident_watts"))), figure(p.heat(h.HeatBTUH, key("heat_btuh")))}})
	}
	t.Foot = []Row{{Cells: []Cell{cellText("Energy, kWh"), following(figure(number(p.d.Day.EnergyDay, 2, "day.energy_kwh_per_day")), t.body(1)), gap(), gap(), gap()}}}
	return t
}
