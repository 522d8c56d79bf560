package handover

import (
	"fmt"
	"slices"
	"strconv"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// drawn puts a figure into the page. What a figure holds was escaped when it was
// drawn.
func drawn(f svg.Figure, key []KeyItem, caption ...Span) Drawing {
	return Drawing{ID: f.ID, Markup: f.Markup, Description: svg.Plain(f.Desc), Key: key, Spans: append(spans(text(f.Title+". ")), caption...)}
}

// oneLine is the one-line diagram.
func (p *page) oneLine() []Block {
	var out []Block
	for _, f := range svg.OneLine("ol", p.d, p.m) {
		out = append(out, drawn(f, nil))
	}
	return append(out, Paragraph{Class: "quiet", Spans: spans(text("Symbols of IEC 60617: a blade with a cross is a circuit breaker, two circles that overlap are a transformer, " +
		"a crossed circle is lighting, M is motor load, an arrow is any other load. Grounding and bonding are not drawn: they are the licensed professional's."))})
}

// floors are the rooms with their fixtures by circuit.
func (p *page) floors() []Block {
	out := []Block{Paragraph{Spans: spans(text("Fixtures stand in rows along the longer side of a room and are numbered there and back; each circuit has a hatch, a color and a label. " +
		"The label is the circuit's first space; a wedge marks where its home run arrives. The place of a fixture is its middle; its outline is not to scale."))}}
	room := ""
	for i, f := range p.d.Floors {
		if f.Room != room {
			out = append(out, Heading{Level: 3, Spans: spans(text("Room "), p.room(f.Room))})
			room = f.Room
		}
		out = append(out, p.floor(i, f))
		if o := p.others(f); o != nil {
			out = append(out, *o)
		}
	}
	return out
}

func (p *page) floor(i int, f document.Floor) Drawing {
	marks := p.marks(f)
	figure := svg.Floor(id("f", i), id("floors.", i), f, marks, p.m)
	var key []KeyItem
	for _, k := range marks {
		c := p.at.circuits[k.Circuit]
		s := spans(Span{Text: k.Label, Class: "strong"}, text(" "), p.circuit(k.Circuit), text(": nos. "+svg.Numbers(f, k.Circuit)))
		s = append(s, span(" · ", Nav))
		s = append(append(s, p.see(k.Circuit, atFloors)...), p.findingLinks("circuit", k.Circuit)...)
		key = append(key, KeyItem{ID: id("f", i) + id("c", c), Swatch: svg.Swatch(figure, k.Hatch), Spans: s})
	}
	unfed := 0
	for _, u := range f.Units {
		if u.Circuit == "" {
			unfed++
		}
	}
	if unfed > 0 {
		key = append(key, KeyItem{Spans: spans(text(plural(unfed, "unit has", "units have") + " no circuit and a dashed outline"))})
	}
	return drawn(figure, key)
}

// marks gives each circuit of a floor its hatch and its label: its first space,
// with the panel where several feed the room.
func (p *page) marks(f document.Floor) []svg.Mark {
	var out []svg.Mark
	panels := []string{}
	for _, u := range f.Units {
		if u.Circuit == "" || slices.ContainsFunc(out, func(k svg.Mark) bool { return k.Circuit == u.Circuit }) {
			continue
		}
		c := p.d.Plan.Circuits[p.at.circuits[u.Circuit]]
		if !slices.Contains(panels, c.Panel) {
			panels = append(panels, c.Panel)
		}
		label := svg.Short(c.Name, 8)
		if len(c.Spaces) > 0 {
			label = strconv.Itoa(c.Spaces[0])
		}
		out = append(out, svg.Mark{Circuit: c.Name, Label: label, Hatch: len(out)})
	}
	if len(panels) > 1 {
		for i, k := range out {
			out[i].Label = svg.Short(p.d.Plan.Circuits[p.at.circuits[k.Circuit]].Panel, 6) + "-" + k.Label
		}
	}
	return out
}

// others says what else is in the room and is not drawn.
func (p *page) others(f document.Floor) *Paragraph {
	if len(f.Others) == 0 {
		return nil
	}
	var lists [][]Span
	for _, o := range f.Others {
		lists = append(lists, append(spans(text(fmt.Sprintf("%d × ", o.Count)), name(o.Item), text(" on ")), p.circuit(o.Circuit)))
	}
	return &Paragraph{Class: "quiet", Spans: append(spans(text("Also in this room, its place not given: ")), joined("; ", lists...)...)}
}
