package handover

import (
	"slices"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
)

// Identifiers in the page are made of the places of things in the document, not
// of their names, which may hold anything.
//
//	c3   circuit in the schedule of its panel       h3   its home run
//	f1c3 circuit in the key of a floor plan         wc3  its working
//	p2   panel, wp2 its working                     r1   room, wr1 its working
//	e4   line of the equipment schedule             n5   finding

func id(prefix string, i int) string { return prefix + strconv.Itoa(i) }

// index finds the place of things by name.
type index struct {
	circuits, panels, rooms map[string]int
	items                   map[string]int   // first line of the equipment schedule
	floors                  map[string][]int // by circuit
	working                 map[string]bool  // anchors of working that is printed
}

func indexOf(d document.Report) index {
	x := index{circuits: map[string]int{}, panels: map[string]int{}, rooms: map[string]int{}, items: map[string]int{}, floors: map[string][]int{}, working: map[string]bool{}}
	for i, c := range d.Plan.Circuits {
		x.circuits[c.Name] = i
	}
	for i, p := range d.Plan.Panels {
		x.panels[p.Name] = i
	}
	for i, r := range d.Heat.Rooms {
		x.rooms[r.Room] = i
	}
	for i, e := range d.Equipment {
		if _, ok := x.items[e.Item]; !ok {
			x.items[e.Item] = i
		}
	}
	for i, f := range d.Floors {
		for _, u := range f.Units {
			if u.Circuit != "" && !slices.Contains(x.floors[u.Circuit], i) {
				x.floors[u.Circuit] = append(x.floors[u.Circuit], i)
			}
		}
	}
	return x
}

// link gives a span its target, where that is printed.
func (p *page) link(s Span, section, anchor string) Span {
	if p.has[section] {
		s.Href = "#" + anchor
	}
	return s
}

// circuit names a circuit with a link to its line in the schedule of its panel.
func (p *page) circuit(c string) Span {
	if !p.has[atDirectories] {
		return p.named(c, p.at.circuits, atHomeRuns, "h")
	}
	return p.named(c, p.at.circuits, atDirectories, "c")
}

func (p *page) panel(s string) Span { return p.named(s, p.at.panels, atDirectories, "p") }

func (p *page) room(s string) Span { return p.named(s, p.at.rooms, atHVAC, "r") }

func (p *page) item(s string) Span { return p.named(s, p.at.items, atEquipment, "e") }

// load is the name of a load's units with a link to the item that they are of.
func (p *page) load(l document.Load) Span {
	s := name(l.Item)
	s.Href = p.item(l.Of()).Href
	return s
}

// named is a name with a link to where it stands in a section.
func (p *page) named(s string, places map[string]int, section, prefix string) Span {
	i, ok := places[s]
	if !ok {
		return name(s)
	}
	return p.link(name(s), section, id(prefix, i))
}

// place names what something concerns: "circuit LP1-3".
func (p *page) place(x document.Place) []Span {
	switch x.Kind {
	case "circuit":
		return spans(text("circuit "), p.circuit(x.Name))
	case "panel":
		return spans(text("panel "), p.panel(x.Name))
	case "room":
		return spans(text("room "), p.room(x.Name))
	case "item":
		return spans(p.item(x.Name))
	}
	return spans(text("the site"))
}

// see lists where else a circuit stands, the place that asks left out.
func (p *page) see(c string, from string) []Span {
	i := p.at.circuits[c]
	var out []Span
	add := func(word, section, anchor string) {
		if section == from || !p.has[section] {
			return
		}
		if len(out) > 0 {
			out = append(out, Span{Text: " · ", Class: Nav})
		}
		out = append(out, p.link(Span{Text: word, Class: Nav}, section, anchor))
	}
	add("directory", atDirectories, id("c", i))
	add("run", atHomeRuns, id("h", i))
	for _, f := range p.at.floors[c] {
		add("plan", atFloors, id("f", f)+id("c", i))
	}
	if p.at.working[id("wc", i)] {
		add("working", atWorking, id("wc", i))
	}
	return out
}

// findingLinks lists the findings about something: " findings 1, 2".
func (p *page) findingLinks(kind, name string) []Span {
	var out []Span
	list := p.about(kind, name)
	for k, i := range list {
		between := ", "
		switch {
		case k > 0:
		case len(list) == 1:
			between = " finding "
		default:
			between = " findings "
		}
		out = append(out, span(between, Finding), Span{Text: strconv.Itoa(p.findingNumber(i)), Href: "#" + id("n", i), Class: Finding})
	}
	return out
}

// about lists the findings about something by their places in the report, the
// gravest first.
func (p *page) about(kind, name string) []int {
	var out []int
	for i := len(p.d.About) - 1; i >= 0; i-- {
		if x := p.d.About[i]; x.Kind == kind && x.Name == name {
			out = append(out, i)
		}
	}
	return out
}

// found lists the numbers of the findings about something, for programs.
func (p *page) found(kind, name string) Cell {
	var numbers []string
	for _, i := range p.about(kind, name) {
		numbers = append(numbers, strconv.Itoa(p.findingNumber(i)))
	}
	return cellText(strings.Join(numbers, ", "))
}

// called names a circuit at the head of its row, with how it stands and what was
// found about it.
func (p *page) called(c document.Circuit) Cell {
	return in(append(append(spans(strong(c.Name)), standing(c)...), p.findingLinks("circuit", c.Name)...)...)
}

// findingNumber is the number that a finding has on the page: the gravest comes
// first there, last in the document.
func (p *page) findingNumber(i int) int { return len(p.d.Plan.Findings) - i }

// itemLinks names items, with commas between.
func (p *page) itemLinks(names []string) []Span {
	var lists [][]Span
	for _, n := range names {
		lists = append(lists, spans(p.item(n)))
	}
	return joined(", ", lists...)
}
