package page

import (
	"strings"

	"branchwork/cmd/internal/document"
)

// measuredBlocks put what a meter showed beside what the loads explain.
func measuredBlocks(d document.Plan) []Block {
	t := Table{ID: "measured", Columns: []Column{{Name: "circuit"}, {Name: "measured in"}, {Name: "measured", Unit: "A"}, {Name: "predicted", Unit: "A"}, {Name: "above", Unit: "%"}}}
	for _, c := range d.Circuits {
		if m := c.Measured; m != nil {
			in := m.In
			if in == "" {
				in = "not said"
			}
			t.Rows = append(t.Rows, []Cell{text(c.Name), text(in), number(m.Amps, 2), maybe(m.PredictedAmps, 2), maybe(m.OverPercent, 1)})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{2, "Measured beside predicted"}, t,
		Text{Text: "What is measured above what is predicted is counted as continuous load that the file does not list."}}
}

// roomLeftBlocks say what each circuit would still take. Items that one circuit
// takes and the same rule stops stand together.
func roomLeftBlocks(d document.Plan) []Block {
	if len(d.RoomLeft) == 0 {
		return nil
	}
	type alike struct {
		circuit, rule string
		none          bool
	}
	at := map[alike]int{}
	data := Table{ID: "room left", DataOnly: true, Columns: []Column{{Name: "circuit"}, {Name: "item"}, {Name: "more"}, {Name: "stopped by"}, {Name: "why"}}}
	shown := Table{ID: "room left", ReadOnly: true, Columns: []Column{{Name: "circuit"}, {Name: "would still take"}, {Name: "the next is stopped by"}}}
	for _, r := range d.RoomLeft {
		data.Rows = append(data.Rows, []Cell{text(r.Circuit), text(r.Item), whole(r.More), text(r.Rule), text(r.Reason)})
		a := alike{r.Circuit, r.Rule, r.More == 0}
		i, seen := at[a]
		if !seen {
			i = len(shown.Rows)
			at[a] = i
			shown.Rows = append(shown.Rows, []Cell{text(r.Circuit), text(""), text(r.Rule)})
		}
		cell := &shown.Rows[i][1]
		switch {
		case r.More > 0 && seen:
			cell.text += ", or " + times(r.More, r.Item)
		case r.More > 0:
			cell.text = times(r.More, r.Item)
		case seen:
			cell.text += ", " + r.Item
		default:
			cell.text = "no " + r.Item
		}
	}
	return []Block{Heading{2, "Room left"}, Text{Text: "One kind at a time, by the circuit's own rules; branchwork add asks the panels and feeders too."}, shown, data}
}

// compareBlocks put the voltages side by side.
func compareBlocks(d document.Plan) []Block {
	t := Table{ID: "compare", Columns: []Column{{Name: "item"}, {Name: "volts", Unit: "V"}, {Name: "each", Unit: "A"}, {Name: "circuits"}, {Name: "spaces"},
		{Name: "conductors"}, {Name: "copper", Unit: "lb"}, {Name: "supplied by"}}}
	for _, c := range d.Compare {
		for _, o := range c.Options {
			by := "this panel"
			if !o.Own {
				by = "a panel of " + o.System
			}
			t.Rows = append(t.Rows, []Cell{text(c.Item), number(o.Volts, 0), number(o.AmpsEach, 2), whole(o.Circuits), whole(o.Spaces), text(sizesText(o.Conductors)), maybe(o.CopperPounds, 1), text(by)})
		}
	}
	switch {
	case d.Compare == nil: // not asked for
		return nil
	case len(t.Rows) == 0:
		return []Block{Heading{2, "Voltages side by side"}, Text{Text: "No item that shares circuits accepts more than one voltage."}}
	}
	return []Block{Heading{2, "Voltages side by side"}, Text{Text: "Each item by itself, with the same rules:"}, t}
}

// sizesText lists conductor sizes, the one of most circuits first.
func sizesText(sizes map[string]int) string {
	var parts []string
	for _, s := range byCount(sizes) {
		parts = append(parts, times(sizes[s], s))
	}
	return strings.Join(parts, ", ")
}
