package page

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
)

// Diff lays out a change order: one block for each circuit, then the sum.
func Diff(d document.Diff, s System) Page {
	var p Page
	p.add(Heading{1, "Change order: " + d.NewSite}, Text{Text: "from the plan of " + d.OldSite + " to the plan of " + d.NewSite + "; code: " + d.CodeTitle})
	for _, c := range d.Changes {
		p.add(Heading{2, changeHead(c)}, Fields{changeFields(c, d.GroundCalled, s)})
	}
	p.add(changeTable(d, s), Heading{2, "In all"}, Text{ID: "says", Text: d.Says + "."})
	if len(d.Changes) > 0 {
		p.add(Text{Text: "Switched off in the course of the work:"}, List{outages(d)})
	}
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func changeHead(c document.Change) string {
	at := c.After
	if at == nil {
		at = c.Before
	}
	what := "circuit " + c.Circuit
	if c.Feeder != "" {
		what = "feeder of panel " + c.Feeder
	}
	return fmt.Sprintf("%s: %s, panel %s, %s", c.Kind, what, c.Panel, spacesWord(at.Spaces))
}

func spacesWord(spaces []int) string {
	switch len(spaces) {
	case 0:
		return "no space"
	case 1:
		return "space " + spacesText(spaces)
	}
	return "spaces " + spacesText(spaces)
}

func changeFields(c document.Change, called string, s System) []Field {
	var f []Field
	switch {
	case c.After == nil:
		f = append(f, landedFields("take out ", c.Before, called, s)...)
	case c.Before == nil:
		f = append(f, landedFields("", c.After, called, s)...)
	default:
		for _, w := range c.What {
			name, rest, _ := strings.Cut(w, ": ")
			f = append(f, Field{name, rest})
		}
	}
	return append(f, Field{"switch off", c.Off.At})
}

func landedFields(lead string, l *document.Landed, called string, s System) []Field {
	f := []Field{
		{lead + "breaker", maybeAmount(l.BreakerAmps, 0, "A") + ", " + poles(l.Poles) + ", " + amount(l.Volts, 0, "V")},
		{lead + "conductor", wire(l.Conductor) + "; " + called + " " + groundText(l.Ground) + "; run " + runText(l.Conductor, s)},
	}
	if l.Receptacle != "" {
		f = append(f, Field{lead + "outlet", l.Receptacle})
	}
	if len(l.Loads) > 0 {
		f = append(f, Field{"feeds", feeds(document.Circuit{Loads: l.Loads})})
	}
	return f
}

// outages lists the places at which something is switched off, each once, with
// what goes dark.
func outages(d document.Diff) []string {
	var out []string
	for _, c := range d.Changes {
		dark := "nothing goes dark"
		if len(c.Off.Circuits) > 0 {
			dark = "goes dark: " + strings.Join(c.Off.Circuits, ", ")
		}
		if line := c.Off.At + "; " + dark; !slices.Contains(out, line) {
			out = append(out, line)
		}
	}
	return out
}

// changeTable is the change order for data formats.
func changeTable(d document.Diff, s System) Table {
	t := Table{ID: "changes", DataOnly: true, Columns: []Column{{Name: "kind"}, {Name: "panel"}, {Name: "circuit"}, {Name: "feeder of"}, {Name: "spaces"}, {Name: "volts", Unit: "V"}, {Name: "poles"},
		{Name: "breaker", Unit: "A"}, {Name: "wire"}, {Name: d.GroundCalled}, {Name: "run", Unit: s.lengthUnit()}, {Name: "outlet"}, {Name: "feeds"}, {Name: "different"}, {Name: "switch off"}, {Name: "goes dark"}}}
	for _, c := range d.Changes {
		at := c.After
		if at == nil {
			at = c.Before
		}
		t.Rows = append(t.Rows, []Cell{text(c.Kind), text(c.Panel), text(c.Circuit), text(c.Feeder), text(spacesText(at.Spaces)), number(at.Volts, 0), whole(at.Poles),
			maybe(at.BreakerAmps, 0), text(wire(at.Conductor)), text(groundText(at.Ground)), s.maybeLength(at.Conductor.LengthFeet), text(at.Receptacle),
			text(feeds(document.Circuit{Loads: at.Loads})), text(strings.Join(c.What, "; ")), text(c.Off.At), words(c.Off.Circuits)})
	}
	return t
}
