package page

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
)

// Add lays out the answer of add. The answer itself comes last, so that it is
// what stays on a screen.
func Add(d document.Add, s System) Page {
	var p Page
	p.add(Heading{1, d.Site}, Text{Text: fmt.Sprintf("%s more on the circuits as they are; %s use; code: %s", times(d.Count, d.Item), d.Use, d.CodeTitle)})
	p.add(placedBlocks(d)...)
	p.add(refusedBlocks(d)...)
	p.add(newCircuitBlocks(d, s)...)
	p.add(addedPanelBlocks(d)...)
	p.add(addedHeatBlocks(d, s)...)
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(findingBlocks(d.Findings)...)
	p.add(Heading{2, "Answer"}, Text{ID: "answer", Text: d.Verdict.Says + "."})
	if d.Needs != "" {
		p.add(Text{ID: "needs", Text: "What it would take: " + d.Needs + "."})
	}
	p.add(Text{ID: "proof", Text: proofOfAnswer(d) + "."})
	if len(d.Notes) > 0 {
		p.add(List{d.Notes})
	}
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func proofOfAnswer(d document.Add) string {
	switch {
	case d.Fits:
		return "Nothing that is wired is changed; the changed inventory was worked out anew and breaks no rule that held before"
	case d.Proved:
		return "Proved: no other arrangement on what is built takes more"
	}
	return "Not proved: there are more arrangements on what is built than were tried"
}

func placedBlocks(d document.Add) []Block {
	if len(d.Placed) == 0 {
		return nil
	}
	t := Table{ID: "placed", Columns: []Column{{Name: "circuit"}, {Name: "takes", Part: 1}, {Name: "load before", Unit: "A", Part: 1}, {Name: "after", Unit: "A", Part: 1},
		{Name: "limit", Unit: "A", Part: 1}, {Name: "used", Unit: "%", Part: 1}, {Name: "governing limit", Part: 1},
		{Name: "required before", Unit: "A", Part: 2}, {Name: "required after", Unit: "A", Part: 2}, {Name: "breaker", Unit: "A", Part: 2}, {Name: "worst state of the day", Part: 2}}}
	for _, p := range d.Placed {
		t.Rows = append(t.Rows, []Cell{text(p.Circuit), whole(p.Count), number(p.LoadBeforeAmps, 2), number(p.LoadAmps, 2), maybe(p.LimitAmps, 2), maybe(p.AfterPercent, 1),
			text(p.Binds), number(p.RequiredBeforeAmps, 2), number(p.RequiredAfterAmps, 2), maybe(p.BreakerAmps, 0), text(p.State)})
	}
	return []Block{Heading{2, "Where they go"}, t}
}

// refusedBlocks list the circuits that say no; those that say it for the same
// reason stand together.
func refusedBlocks(d document.Add) []Block {
	if len(d.Refused) == 0 {
		return nil
	}
	data := Table{ID: "refused", DataOnly: true, Columns: []Column{{Name: "circuit"}, {Name: "rule"}, {Name: "short", Unit: "A"}, {Name: "reason"}}}
	shown := Table{ID: "refused", ReadOnly: true, Columns: []Column{{Name: "circuit"}, {Name: "short", Unit: "A"}, {Name: "one more is stopped by"}, {Name: "why"}}}
	at := map[string]int{}
	for _, r := range d.Refused {
		data.Rows = append(data.Rows, []Cell{text(r.Circuit), text(r.Rule), absent(r.ShortAmps), text(r.Reason)})
		name, rule, why := r.Circuit, r.Rule, strings.TrimPrefix(r.Reason, "circuit "+r.Circuit+": ")
		if name == "" {
			name = "(panel)"
		}
		if rule == "" {
			rule = "no place for it"
		}
		if i, ok := at[why]; ok {
			shown.Rows[i][0].text += ", " + name
			continue
		}
		at[why] = len(shown.Rows)
		shown.Rows = append(shown.Rows, []Cell{text(name), absent(r.ShortAmps), text(rule), text(why)})
	}
	title := "Where no more goes"
	if len(d.Placed) == 0 {
		title = "Where it does not go"
	}
	return []Block{Heading{2, title}, shown, data}
}

func newCircuitBlocks(d document.Add, s System) []Block {
	if len(d.NewCircuits) == 0 {
		return nil
	}
	t := circuitTable(document.Plan{Circuits: d.NewCircuits, GroundCalled: d.GroundCalled}, s)
	for _, c := range d.NewCircuits {
		t.Rows = append(t.Rows, circuitRow(c, s))
	}
	title := "New circuits that would carry the rest"
	if len(d.Placed) == 0 {
		title = "New circuits that would carry " + times(d.Count, d.Item)
	}
	return []Block{Heading{2, title}, t}
}

func addedPanelBlocks(d document.Add) []Block {
	if len(d.Panels) == 0 || len(d.Placed) == 0 {
		return nil
	}
	t := Table{ID: "panels", Columns: []Column{{Name: "panel"}, {Name: "leg"}, {Name: "before", Unit: "A"}, {Name: "after", Unit: "A"}}}
	needs := Table{ID: "needs of panels", Columns: []Column{{Name: "of"}, {Name: "required before", Unit: "A"}, {Name: "after", Unit: "A"}, {Name: "rated", Unit: "A"}}}
	for _, p := range d.Panels {
		for i, leg := range p.Legs {
			t.Rows = append(t.Rows, []Cell{text(p.Panel), text(leg), number(p.LegBeforeAmps[i], 2), number(p.LegAfterAmps[i], 2)})
		}
		what := "main of " + p.Panel
		if p.Service {
			what += ", the service"
		}
		if p.LeastLoad {
			what += "; at least, the current of a load is not known"
		}
		needs.Rows = append(needs.Rows, []Cell{text(what), number(p.RequiredBeforeAmps, 2), number(p.RequiredAfterAmps, 2), maybe(p.MainAmps, 0)})
		if f := p.Feeder; f != nil {
			needs.Rows = append(needs.Rows, []Cell{text("feeder of " + p.Panel + " in " + f.From), number(f.RequiredBeforeAmps, 2), number(f.RequiredAfterAmps, 2), maybe(f.BreakerAmps, 0)})
		}
	}
	return []Block{Heading{2, "What that does to the panels"}, t, needs}
}

func addedHeatBlocks(d document.Add, s System) []Block {
	if d.Heat == nil {
		return []Block{Heading{2, "Heat"}, Text{Text: "It stands in no room of the file; its heat is counted nowhere."}}
	}
	h := d.Heat
	f := []Field{{"adds", s.heatText(*d.HeatAddedBTUH) + " in the hour in which it adds most"},
		{"peak", fmt.Sprintf("%s becomes %s", s.heatText(h.BeforeBTUH), s.heatText(h.AfterBTUH)) + bothAtLeast(h.AtLeast)},
		{"stated cooling", coverText(h)}}
	t := Table{ID: "cooling", Columns: []Column{{Name: "room", DataOnly: true}, {Name: "with what is added"}, {Name: "needed", Unit: s.heatUnit()},
		{Name: "stated", Unit: s.heatUnit()}, {Name: "covered"}}}
	for _, c := range h.Cooling {
		t.Rows = append(t.Rows, []Cell{text(h.Room), text(c.What), s.heat(c.NeededBTUH), s.maybeHeat(c.InstalledBTUH), text(c.Covers)})
	}
	return []Block{Heading{2, "Heat of room " + h.Room}, Fields{f}, t}
}

func bothAtLeast(least bool) string {
	if least {
		return "; both at least, for a part is not counted"
	}
	return ""
}

func coverWord(answer string) string {
	switch answer {
	case "yes":
		return "it covers the room"
	case "no":
		return "it does not cover the room"
	}
	return "cannot be told whether it covers the room"
}

func coverText(h *document.AddedHeat) string {
	s := coverWord(h.Covered)
	switch {
	case h.CoveredBefore == h.Covered && h.Covered == "no":
		s += ", nor does it without what is added"
	case h.CoveredBefore == h.Covered && h.Covered == "yes":
		s += " with what is added"
	case h.CoveredBefore != h.Covered:
		s += " with what is added; without it " + coverWord(h.CoveredBefore)
	}
	for _, c := range h.Cooling {
		if c.Why != "" {
			return s + ": " + c.Why
		}
	}
	return s
}
