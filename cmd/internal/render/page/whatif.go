package page

import (
	"branchwork/cmd/internal/document"
)

// WhatIf lays out what would become of a site: what was asked, figures before and
// after, the circuits that differ, and what that rests on. The answers of add and the
// change order are pages of their own.
func WhatIf(d document.WhatIf, s System) Page {
	var p Page
	p.add(Text{ID: "how", Text: askedHow(d)})
	if len(d.NotAsked) > 0 {
		p.add(Text{Text: "Not asked, because an answer before it is no:"}, List{d.NotAsked})
	}
	for _, a := range d.Adds {
		if a.Needs != "" {
			p.add(Text{ID: "needs", Text: "What it would take: " + a.Needs + "."})
		}
	}
	if len(d.Notes) > 0 {
		p.add(List{d.Notes})
	}
	p.add(shiftTable(d, s))
	if len(d.Circuits) > 0 {
		p.add(circuitShifts(d))
	}
	p.add(findingsOf("Findings that it brings", d.Arisen)...)
	p.add(findingsOf("Findings that it ends", d.Gone)...)
	p.add(Text{ID: "caution", Text: document.Caution})
	return p
}

// askedHow says by which of two roads the answer was found.
func askedHow(d document.WhatIf) string {
	switch {
	case len(d.Adds) == 0:
		return "The site was planned again with this changed. The file was not touched."
	case refused(d):
		return "Asked of the circuits as built, as branchwork add does. The figures below are those of a plan in which new circuits carry what they do not take. The file was not touched."
	case len(d.Asked) > len(d.Adds):
		return "Asked of the circuits as built and so changed, as branchwork add does. The file was not touched."
	}
	return "Asked of the circuits as built, as branchwork add does: nothing that is wired is changed. The file was not touched."
}

func refused(d document.WhatIf) bool {
	for _, a := range d.Adds {
		if !a.Fits {
			return true
		}
	}
	return false
}

func shiftTable(d document.WhatIf, s System) Table {
	t := Table{ID: "before and after", Columns: []Column{{Name: "figure"}, {Name: "unit"}, {Name: "before"}, {Name: "after"}, {Name: "main", Unit: "A"}, {Name: "remark"}}}
	for _, f := range d.Figures {
		unit, before, after := shifted(f, s)
		main := text("")
		if f.Unit == "A" {
			main = maybe(f.Limit, 0)
		}
		t.Rows = append(t.Rows, []Cell{text(f.What), text(unit), before, after, main, text(f.Remark)})
	}
	return t
}

// shifted is a figure in the unit that it is shown in.
func shifted(f document.Shift, s System) (unit string, before, after Cell) {
	in := func(show func(float64) Cell) (Cell, Cell) {
		one := func(x *float64) Cell {
			if x == nil {
				return text(Unknown)
			}
			return show(*x)
		}
		return one(f.Before), one(f.After)
	}
	unit = f.Unit
	switch f.Unit {
	case "A":
		before, after = in(func(x float64) Cell { return number(x, 1) })
	case "W":
		unit = "kW"
		before, after = in(kw)
	case "BTU/h":
		unit = s.heatUnit()
		before, after = in(s.heat)
	case "kWh":
		before, after = in(func(x float64) Cell { return number(x, 1) })
	default:
		before, after = in(func(x float64) Cell { return number(x, 2) })
	}
	return unit, before, after
}

func circuitShifts(d document.WhatIf) Table {
	amps := func(x *float64, there bool) Cell {
		if !there {
			return text(none)
		}
		return maybe(x, 2)
	}
	t := Table{ID: "circuits before and after", Columns: []Column{{Name: "circuit"}, {Name: "load before", Unit: "A"}, {Name: "load after", Unit: "A"},
		{Name: "needs before", Unit: "A"}, {Name: "needs after", Unit: "A"}, {Name: "breaker", Unit: "A"}, {Name: "what binds"}, {Name: "remark"}}}
	for _, c := range d.Circuits {
		t.Rows = append(t.Rows, []Cell{text(c.Circuit), amps(c.LoadBefore, !c.New), amps(c.LoadAfter, !c.Gone), amps(c.RequiredBefore, !c.New), amps(c.RequiredAfter, !c.Gone),
			maybe(c.BreakerAmps, 0), text(c.Binds), text(c.Remark)})
	}
	return t
}

func findingsOf(title string, all []document.Finding) []Block {
	if len(all) == 0 {
		return nil
	}
	return append([]Block{Heading{1, title}}, findingBlocks(all)[1:]...)
}
