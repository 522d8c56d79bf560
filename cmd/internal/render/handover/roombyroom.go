package handover

import (
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// roomByRoom tells the grower which breaker feeds what, room by room.
func (p *page) roomByRoom() []Block {
	out := []Block{Paragraph{Spans: spans(text("What is still free on a circuit is for continuous load and for the electrician to confirm; a plug that fits is not a permission. " +
		"Never raise a breaker to stop it from tripping."))}}
	for _, room := range p.roomList() {
		of := room
		title, caption := spans(text("Room "), p.room(room)), "Circuits that feed room "+svg.Plain(room)
		if room == "" {
			of, title, caption = "none", spans(text("In no room")), "Circuits that feed what stands in no room"
		}
		t := Table{Name: "rooms", Of: of, OfHead: "Room", Sheet: "Rooms", Caption: caption, Columns: []Column{col("Feeds"), fig("Units", ""), col("Circuit"), col("Panel"), col("Spaces"), fig("Breaker", "A"), fig("Each", "A"), fig("Circuit load", "A"), fig("Free", "A")}}
		for i, c := range p.d.Plan.Circuits {
			for k, l := range c.Loads {
				if l.Room == room {
					t.Rows = append(t.Rows, p.feeds(i, k, c, l))
				}
			}
		}
		out = append(out, Heading{Level: 3, Spans: title}, t)
	}
	return out
}

func (p *page) feeds(i, k int, c document.Circuit, l document.Load) Row {
	key := func(s string) string { return path("plan.circuits", i, s) }
	return Row{Cells: []Cell{in(p.load(l)), figure(count(l.Count, path(key("loads"), k, "count"))), in(append(spans(p.circuit(c.Name)), p.findingLinks("circuit", c.Name)...)...), in(p.panel(c.Panel)), cellText(numbersText(c.Spaces)),
		figure(maybeAmount(c.BreakerAmps, 2, key("breaker_amps"))), figure(maybe(l.AmpsEach, 2, path(key("loads"), k, "amps_each"))), figure(maybe(c.LoadAmps, 2, key("load_amps"))), free(c, key("free_amps"))}}
}

// free is what a circuit could still carry, where it may carry anything else.
func free(c document.Circuit, key string) Cell {
	switch {
	case c.Over():
		return cellText("over")
	case c.StandsAlone:
		return blank()
	}
	return figure(maybe(c.FreeAmps, 2, key))
}

// roomList is the rooms that circuits feed, in the order of the file, and none
// where something stands in none.
func (p *page) roomList() []string {
	fed := map[string]bool{}
	for _, c := range p.d.Plan.Circuits {
		for _, l := range c.Loads {
			fed[l.Room] = true
		}
	}
	var out []string
	for _, r := range p.d.Heat.Rooms {
		if fed[r.Room] {
			out = append(out, r.Room)
		}
	}
	if fed[""] {
		out = append(out, "")
	}
	return out
}
