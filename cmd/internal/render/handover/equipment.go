package handover

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// equipment is the equipment schedule, in two tables: what a type draws, and what
// it asks of its circuit.
func (p *page) equipment() []Block {
	draws := Table{Name: "equipment", Sheet: "Equipment", Caption: "What each type draws; figures are of one unit", Columns: []Column{col("Tag"), col("Item"), col("Room"), fig("Units", ""), fig("Volts", "V"), fig("Phases", ""),
		fig("Power", "W"), fig("Label", "A"), fig("Sized for", "A"), fig("Apparent", "VA"), fig("Power factor", ""), fig("All units", "VA"), col("Circuits"), data("Kind"), data("Findings")}}
	asks := Table{Name: "equipment-asks", Sheet: "Equipment asks", Caption: "What each type asks for", Columns: []Column{col("Tag"), fig("Drivers", ""), col("Most per breaker"), fig("Min. circuit", "A"), fig("Max. breaker", "A"), fig("Leakage", "mA"), fig("Inrush", "A"),
		col("Connection"), col("Location"), col("Hours"), col("Figures from")}}
	for i, e := range p.d.Equipment {
		key := func(k string) string { return path("equipment", i, k) }
		item := append(spans(strong(e.Item), span(", "+e.Noun, Aside)), p.findingLinks("item", e.Item)...)
		volts, amps, va := figure(maybeAmount(e.Volts, 0, key("volts"))), figure(maybe(e.AmpsEach, 2, key("amps_each"))), figure(maybe(e.VAEach, 0, key("va_each")))
		circuits, all := in(each(e.Circuits, p.circuit)...), following(figure(maybe(e.VAAll, 0, key("va_all"))), allUnits(i))
		if len(e.Circuits) == 0 {
			volts, amps, va, all, circuits = blank(), blank(), blank(), blank(), cellText("none")
		}
		draws.Rows = append(draws.Rows, Row{ID: id("e", i), Cells: []Cell{cellText(e.Tag), in(item...), in(p.room(e.Room)), figure(count(e.Count, key("count"))), volts, figure(count(e.Phases, key("phases"))),
			figure(maybe(e.WattsEach, 0, key("watts_each"))), optional(e.LabelAmps, 2, key("label_amps")), amps, va, figure(number(e.PowerFactor, 2, key("power_factor"))), all, circuits, cellText(e.Noun), p.found("item", e.Item)}})
		drivers, inrush := blank(), optional(e.InrushAmps, 0, key("inrush_amps"))
		if e.Drivers != nil { // a luminaire, whose inrush rules ask for
			drivers, inrush = figure(count(*e.Drivers, key("drivers"))), figure(maybe(e.InrushAmps, 0, key("inrush_amps")))
		}
		asks.Rows = append(asks.Rows, Row{Cells: []Cell{in(p.link(text(e.Tag), atEquipment, id("e", i))), drivers, cellText(perBreaker(e)), optional(e.MinCircuitAmps, 1, key("min_circuit_amps")), optional(e.MaxDeviceAmps, 0, key("max_device_amps")),
			figure(maybe(e.LeakageMA, 2, key("leakage_ma"))), inrush, cellText(connection(e)), cellText(orUnknown(e.Location)), hours(e.Hours), cellText(orUnknown(e.Basis))}})
	}
	draws.Foot = []Row{{Cells: []Cell{cellText("All"), cellText("what circuits feed"), gap(), gap(), gap(), gap(), gap(), gap(), gap(), gap(), gap(),
		following(figure(maybe(p.d.ConnectedVA, 0, "connected_va")), draws.body(equipmentAll)), gap(), gap(), gap()}}}
	return []Block{draws, asks}
}

// Columns of the schedule that others of it follow from.
const (
	equipmentUnits    = 3
	equipmentApparent = 9
	equipmentAll      = 11
)

// allUnits is a unit's apparent power times their number.
func allUnits(row int) *Formula {
	units := at(equipmentUnits, row)
	return &Formula{Terms: []Term{at(equipmentApparent, row)}, By: &units}
}

func perBreaker(e document.EquipmentType) string {
	if len(e.MaxPerBreaker) == 0 {
		return unknown
	}
	var parts []string
	for _, m := range e.MaxPerBreaker {
		s := units.Round(float64(m.Count), 0)
		if m.BreakerAmps != nil {
			s = fmt.Sprintf("%s on %s A", s, units.Round(*m.BreakerAmps, 2))
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, ", ")
}

func connection(e document.EquipmentType) string {
	switch {
	case e.Wired:
		return "wired"
	case e.Plug != "":
		return "plug, " + e.Plug
	}
	return "cord and plug"
}
