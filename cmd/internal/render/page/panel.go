package page

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
)

func panelBlocks(d document.Plan, p document.Panel, s System) []Block {
	blocks := []Block{Heading{2, "Panel " + p.Name + ", " + p.System}, Fields{panelFields(p, d.GroundCalled, s)}}
	t := circuitTable(d, s)
	for _, c := range d.Circuits {
		if c.Panel == p.Name {
			t.Rows = append(t.Rows, circuitRow(c, s))
		}
	}
	if len(t.Rows) == 0 {
		return append(blocks, Text{Text: "no branch circuits"})
	}
	return append(blocks, t)
}

func panelFields(p document.Panel, called string, s System) []Field {
	spaces := plural(p.SpacesUsed, "space", "spaces") + " used, how many there are is not known"
	if p.Spaces != nil {
		spaces = fmt.Sprintf("%d of %d used", p.SpacesUsed, *p.Spaces)
	}
	spaces += p.Provisional()
	fields := []Field{
		{"spaces", spaces},
		{"main", maybeAmount(p.MainAmps, 0, "A") + "; the fullest leg needs " + amount(p.RequiredAmps, 2, "A") + " with the allowance for continuous load"},
	}
	if p.BusAmps != nil {
		fields = append(fields, Field{"bus", amount(*p.BusAmps, 0, "A")})
	}
	fields = append(fields,
		Field{"legs", legsText(p) + in(p.State)},
		Field{"neutral", maybeAmount(p.NeutralAmps, 2, "A")},
		Field{"imbalance", maybeAmount(p.ImbalancePercent, 1, "%") + " of their mean between the fullest and the emptiest leg" + withoutOther(p)},
		Field{"connected", maybeAmount(p.ConnectedWatts, 0, "W") + ", " + amount(p.ConnectedVA, 0, "VA")},
		Field{"calculated load", amount(p.DemandVA, 0, "VA") + " with the allowance for continuous load"},
	)
	if p.LeastLoad {
		fields = append(fields, Field{"caution", "amperes and volt-amperes here are least values: the current of a load is not known"})
	}
	if p.OtherLoadAmps != nil {
		fields = append(fields, Field{"other load", amount(*p.OtherLoadAmps, 2, "A") + " per leg, not listed in the file"})
	}
	if p.MeasuredPeakAmps != nil {
		fields = append(fields, Field{"measured peak", amount(*p.MeasuredPeakAmps, 2, "A")})
	}
	if len(p.Feeds) > 0 {
		fields = append(fields, Field{"feeds", strings.Join(p.Feeds, ", ")})
	}
	if p.Feeder != nil {
		fields = append(fields, feederFields(*p.Feeder, called, s)...)
	}
	return fields
}

// withoutOther says that a figure is of the loads listed alone.
func withoutOther(p document.Panel) string {
	if p.OtherLoadAmps == nil {
		return ""
	}
	return ", without the other load"
}

func in(state string) string {
	if state == "" {
		return ""
	}
	return "; worst state of the day: " + state
}

func legsText(p document.Panel) string {
	parts := make([]string, len(p.Legs))
	for i, l := range p.Legs {
		parts[i] = l + " " + amount(p.LegAmps[l], 2, "A")
	}
	return strings.Join(parts, ", ")
}

func feederFields(f document.Feeder, called string, s System) []Field {
	to := ""
	if f.Transformer != nil {
		to = "to the transformer's primary: "
	}
	fields := []Field{
		{"fed from", fmt.Sprintf("%s, spaces %s, %s, %s", f.From, spacesText(f.Spaces), poles(f.Poles), amount(f.Volts, 0, "V"))},
		{"feeder breaker", maybeAmount(f.BreakerAmps, 0, "A") + "; load " + amount(f.LoadAmps, 2, "A") + ", needs " + amount(f.RequiredAmps, 2, "A")},
		{"feeder wire", to + wire(f.Conductor) + "; " + called + " " + groundText(f.Ground) + "; run " + runText(f.Conductor, s) + "; drop " + maybeAmount(f.Conductor.DropPercent, 2, "%")},
	}
	if t := f.Transformer; t != nil {
		fields = append(fields, Field{"transformer", fmt.Sprintf("%s, %s to %s, %d-phase%s",
			amount(t.VA/1000, 1, "kVA"), amount(t.PrimaryVolts, 0, "V"), amount(t.SecondaryVolts, 0, "V"), t.Phases, chosenHere(t.Given))}, Field{"secondary", t.Secondary})
	}
	return fields
}

func chosenHere(given bool) string {
	if given {
		return ""
	}
	return "; its rating is chosen here"
}

func runText(c document.Conductor, s System) string {
	if c.LengthFeet == nil {
		return "not known"
	}
	return amount(s.length(*c.LengthFeet), 0, s.lengthUnit())
}

func poles(n int) string { return fmt.Sprintf("%d-pole", n) }

// panelTable is the panels for data formats.
func panelTable(d document.Plan) Table {
	t := Table{ID: "panels", DataOnly: true, Columns: []Column{{Name: "panel"}, {Name: "system"}, {Name: "spaces"}, {Name: "spaces used"}, {Name: "main", Unit: "A"},
		{Name: "bus", Unit: "A"}, {Name: "required", Unit: "A"}, {Name: "legs"}, {Name: "neutral", Unit: "A"}, {Name: "imbalance", Unit: "%"},
		{Name: "connected", Unit: "W"}, {Name: "connected", Unit: "VA"}, {Name: "calculated load", Unit: "VA"}, {Name: "worst state"}, {Name: "may be more"},
		{Name: "other load", Unit: "A"}, {Name: "measured peak", Unit: "A"}}}
	for _, p := range d.Panels {
		spaces := text(Unknown)
		if p.Spaces != nil {
			spaces = whole(*p.Spaces)
		}
		t.Rows = append(t.Rows, []Cell{text(p.Name), text(p.System), spaces, whole(p.SpacesUsed), maybe(p.MainAmps, 0), maybe(p.BusAmps, 0),
			number(p.RequiredAmps, 2), text(legsText(p)), maybe(p.NeutralAmps, 2), maybe(p.ImbalancePercent, 1), maybe(p.ConnectedWatts, 0),
			number(p.ConnectedVA, 0), number(p.DemandVA, 0), text(p.State), text(yesNo(p.LeastLoad)), absent(p.OtherLoadAmps), absent(p.MeasuredPeakAmps)})
	}
	return t
}

// absent is a number that has no meaning where it is missing.
func absent(x *float64) Cell {
	if x == nil {
		return text("")
	}
	return number(*x, 2)
}

func feederTable(d document.Plan, s System) Table {
	t := Table{ID: "feeders", DataOnly: true, Columns: []Column{{Name: "panel"}, {Name: "from"}, {Name: "spaces"}, {Name: "poles"}, {Name: "volts", Unit: "V"},
		{Name: "breaker", Unit: "A"}, {Name: "load", Unit: "A"}, {Name: "required", Unit: "A"}, {Name: "wire"}, {Name: d.GroundCalled},
		{Name: "run", Unit: s.lengthUnit()}, {Name: "drop", Unit: "%"}, {Name: "transformer", Unit: "kVA"}, {Name: "secondary"}}}
	for _, p := range d.Panels {
		f := p.Feeder
		if f == nil {
			continue
		}
		transformer, secondary := text(""), text("")
		if f.Transformer != nil {
			transformer, secondary = number(f.Transformer.VA/1000, 1), text(f.Transformer.Secondary)
		}
		t.Rows = append(t.Rows, []Cell{text(p.Name), text(f.From), text(spacesText(f.Spaces)), whole(f.Poles), number(f.Volts, 0),
			maybe(f.BreakerAmps, 0), number(f.LoadAmps, 2), number(f.RequiredAmps, 2), text(wire(f.Conductor)), text(groundText(f.Ground)),
			s.maybeLength(f.Conductor.LengthFeet), maybe(f.Conductor.DropPercent, 2), transformer, secondary})
	}
	return t
}
