package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
)

// circuitTable has three parts: what a circuit carries, how it is wired, and
// what limits it.
func circuitTable(d document.Plan, s System) Table {
	allNew := !slices.ContainsFunc(d.Circuits, func(c document.Circuit) bool { return c.Existing })
	return Table{ID: "circuits", Columns: []Column{
		{Name: "circuit"},
		{Name: "panel", DataOnly: true},
		{Name: "spaces", Part: 1},
		{Name: "legs", Part: 1},
		{Name: "volts", Part: 1},
		{Name: "breaker", Unit: "A/poles", Part: 1, ReadOnly: true},
		{Name: "breaker", Unit: "A", DataOnly: true},
		{Name: "poles", DataOnly: true},
		{Name: "feeds", Part: 1},
		{Name: "load", Unit: "A", Part: 1},
		{Name: "required", Unit: "A", Part: 1},
		{Name: "wire", Part: 2},
		{Name: d.GroundCalled, Part: 2},
		{Name: "run", Unit: s.lengthUnit(), Part: 2},
		{Name: "drop", Unit: "%", Part: 2},
		{Name: "outlet", Part: 2},
		{Name: "ground-fault protection", Part: 2},
		{Name: "status", Part: 3, DataOnly: allNew},
		{Name: "worst state of the day", Part: 3},
		{Name: "free", Unit: "A", Part: 3},
		{Name: "governing limit", Part: 3},
		{Name: "used", Unit: "%", Part: 3},
		{Name: "next limit", Part: 3},
		{Name: "next", Unit: "%", Part: 3},
		{Name: "measured", Unit: "A", Part: 3, DataOnly: !anyMeasured(d)},
	}}
}

func anyMeasured(d document.Plan) bool {
	return slices.ContainsFunc(d.Circuits, func(c document.Circuit) bool { return c.MeasuredAmps != nil })
}

func circuitRow(c document.Circuit, s System) []Cell {
	binding, next := limitCells(c.Limits, 0), limitCells(c.Limits, 1)
	return []Cell{
		text(c.Name), text(c.Panel), text(spacesText(c.Spaces)), text(strings.Join(c.Legs, "-")), number(c.Volts, 0),
		text(maybe(c.BreakerAmps, 0).Shown() + "/" + strconv.Itoa(c.Poles)), maybe(c.BreakerAmps, 0), whole(c.Poles),
		text(feeds(c)), maybe(c.LoadAmps, 2), maybe(c.RequiredAmps, 2),
		text(wireOf(c)), text(groundText(c.Ground)), s.maybeLength(c.Conductor.LengthFeet), maybe(c.Conductor.DropPercent, 2),
		text(c.Outlet()), text(c.GroundFault()),
		text(standing(c)), text(c.State), free(c), binding[0], binding[1], next[0], next[1], absent(c.MeasuredAmps),
	}
}

// free is what a circuit could still carry, where it may carry anything else.
func free(c document.Circuit) Cell {
	switch {
	case c.Over():
		return text("over")
	case c.StandsAlone:
		return text(none)
	}
	return maybe(c.FreeAmps, 2)
}

func limitCells(limits []document.Limit, i int) [2]Cell {
	if i >= len(limits) {
		return [2]Cell{text(none), text("")}
	}
	return [2]Cell{text(limits[i].Rule), number(limits[i].UsedPercent, 1)}
}

// feeds says what a circuit feeds: "5 x bar-640 (1-5); 2 x clip-fan".
func feeds(c document.Circuit) string {
	parts := make([]string, len(c.Loads))
	for i, l := range c.Loads {
		parts[i] = times(l.Count, l.Item) + unitRange(l)
		if len(c.Rooms) > 1 && l.Room != "" {
			parts[i] += " (" + l.Room + ")"
		}
		if l.Added > 0 {
			parts[i] += fmt.Sprintf(", %d of them added", l.Added)
		}
	}
	s := strings.Join(parts, "; ")
	if c.Controller != "" {
		s += "; through " + c.Controller
	}
	return s
}

// unitRange says which of an item's units they are: " (1-5)".
func unitRange(l document.Load) string {
	if s := document.UnitNumbers(l.FirstUnit, l.UnitStep, l.Count); s != "" {
		return " (" + s + ")"
	}
	return ""
}

func standing(c document.Circuit) string {
	switch {
	case c.Changed:
		return "changed"
	case c.Existing:
		return "existing"
	}
	return "new"
}

// wireOf writes a circuit's conductor, and which rules on what it feeds were not applied.
func wireOf(c document.Circuit) string {
	s := wire(c.Conductor)
	if c.NotApplied != "" {
		s += "; " + c.NotApplied
	}
	return s
}

// wire writes a conductor: "12 AWG copper THHN".
func wire(c document.Conductor) string {
	s := c.Words()
	if c.SizeBeforeDrop != "" {
		s += " (" + c.SizeBeforeDrop + " before drop)"
	}
	return s
}

func groundText(g document.Ground) string { return orUnknown(g.Size) }
