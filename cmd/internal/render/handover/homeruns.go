package handover

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
)

// homeRuns lists the conductors of every circuit and feeder with their lengths.
func (p *page) homeRuns() []Block {
	unit := p.m.LengthUnit()
	runs := Table{Name: "home-runs", Sheet: "Home runs", Caption: "Home runs of the branch circuits", Columns: []Column{col("Circuit"), col("From"), col("To"), col("Wires"), col("Raceway"), fig("Fill", "%"),
		fig("To first outlet", unit), fig("To last outlet", unit), fig("Drop", "%"), fig("Drop allowed", "%"), nav(), data("Standing")}}
	feeders := Table{Name: "feeders", Sheet: "Feeders", Caption: "Feeders", Columns: []Column{col("To panel"), col("From"), fig("Breaker", "A"), col("Wires"), col("Raceway"), fig("Fill", "%"), fig("Length", unit), fig("Load", "A"), fig("Required", "A"), fig("Drop", "%")}}
	for i, h := range p.d.HomeRuns {
		if h.Feeds != "" {
			feeders.Rows = append(feeders.Rows, p.feederRows(i, h)...)
			continue
		}
		k := p.at.circuits[h.Circuit]
		c := p.d.Plan.Circuits[k]
		key := func(s string) string { return path("plan.circuits", k, s) }
		runs.Rows = append(runs.Rows, Row{ID: id("h", k), Cells: []Cell{
			p.called(c), in(p.panel(h.Panel)), in(p.roomNames(h.Rooms)...), wide(p.wiresText(h)), p.racewayCell(h), fillCell(i, h),
			figure(p.length(h.FirstFeet, path("home_runs", i, "first_ft"))), figure(p.length(h.LastFeet, path("home_runs", i, "last_ft"))),
			figure(maybe(c.Conductor.DropPercent, 2, key("conductor.drop_percent"))), figure(amount(c.DropLimit, 2, key("drop_limit_percent"))), in(p.see(h.Circuit, atHomeRuns)...), stands(c)}})
	}
	enlarged := ""
	if slices.ContainsFunc(p.d.Plan.Circuits, func(c document.Circuit) bool { return c.Conductor.SizeBeforeDrop != "" }) {
		enlarged = " A conductor enlarged for voltage drop may not fit the terminals of its breaker or device: reduce it at a splice where they are not marked for its size."
	}
	out := []Block{Paragraph{Spans: spans(text("Lengths are one way. To the last outlet a run follows the row at its spacing; drop is at the last outlet in the worst state of the day." + enlarged))}, runs}
	if len(feeders.Rows) > 0 {
		out = append(out, feeders)
	}
	return out
}

// feederRows are the feeder and, where a transformer stands in it, the secondary
// side, which a row that ends at the primary must not be taken to reach.
func (p *page) feederRows(i int, h document.HomeRun) []Row {
	k := p.at.panels[h.Feeds]
	f := p.d.Plan.Panels[k].Feeder
	key := func(s string) string { return path("plan.panels", k, "feeder."+s) }
	to := spans(p.panel(h.Feeds))
	if f.Transformer != nil {
		to = append(to, text(": to the transformer's primary"))
	}
	out := []Row{{ID: id("hp", k), Cells: []Cell{in(to...), in(p.panel(h.Panel)), figure(maybeAmount(f.BreakerAmps, 2, key("breaker_amps"))), cellText(p.wiresText(h)), p.racewayCell(h), fillCell(i, h),
		figure(p.length(h.FirstFeet, path("home_runs", i, "first_ft"))), figure(number(f.LoadAmps, 2, key("load_amps"))), figure(number(f.RequiredAmps, 2, key("required_amps"))),
		figure(maybe(f.Conductor.DropPercent, 2, key("conductor.drop_percent")))}}}
	if t := f.Transformer; t != nil {
		open := func() Cell { return Cell{Text: unknown, Class: "unknown", Num: true} }
		out = append(out, Row{Cells: []Cell{in(p.panel(h.Feeds), text(": transformer to panel, secondary")), cellText("transformer"), open(), cellText(t.Secondary), cellText(unknown), blank(),
			open(), open(), open(), open()}})
	}
	return out
}

func (p *page) roomNames(rooms []string) []Span {
	if len(rooms) == 0 {
		return spans(text(none))
	}
	return each(rooms, p.room)
}

// wiresText writes the wires of a run: "2 × 12 AWG copper THHN + 12 AWG ground".
func (p *page) wiresText(h document.HomeRun) string {
	var parts []string
	for _, w := range h.Wires {
		s := fmt.Sprintf("%d × %s", w.Count, orUnknown(w.Size))
		switch w.Use {
		case "ungrounded":
			for _, x := range []*string{w.Material, w.Insulation} {
				if x != nil {
					s += " " + *x
				}
			}
		case "ground":
			s += " " + p.d.Plan.GroundCalled
		default:
			s += " " + w.Use
		}
		parts = append(parts, s)
	}
	s := strings.Join(parts, " + ")
	if h.Sets > 1 {
		s = fmt.Sprintf("%d sets of: %s", h.Sets, s)
	}
	return s
}

func (p *page) racewayCell(h document.HomeRun) Cell {
	r := h.Raceway
	switch {
	case r == nil && h.Existing:
		return cellText("existing")
	case r == nil:
		return cellText(unknown)
	case r.Trade == "":
		return cellText(unknown + " " + r.Why)
	}
	s := racewayText(h)
	if h.Sets > 1 {
		s += ", one set with its " + p.d.Plan.GroundCalled + " in each"
	}
	if h.OnCircuits > 1 {
		s += fmt.Sprintf(", shared by %d circuits", h.OnCircuits)
	}
	return cellText(s)
}

func fillCell(i int, h document.HomeRun) Cell {
	if h.Raceway == nil || h.Raceway.Trade == "" {
		return blank()
	}
	return figure(number(h.Raceway.FillPercent, 0, path("home_runs", i, "raceway.fill_percent")))
}

// racewayText writes the raceways of a run, one for each of its sets: "2 × 2 in EMT".
func racewayText(h document.HomeRun) string {
	s := h.Raceway.Trade + " " + h.Raceway.Kind
	if h.Sets > 1 {
		s = fmt.Sprintf("%d × %s", h.Sets, s)
	}
	return s
}
