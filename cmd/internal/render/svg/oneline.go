package svg

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Rows of the one-line diagram, in drawing units. A bus runs down the page; what
// hangs on it goes off to the right; a sub-panel's bus stands one step further
// to the right.
const (
	rowHeight  = 36.0
	busStep    = 236.0
	busLeft    = 26.0
	loadText   = 300.0
	topRoom    = 118.0
	mostInOne  = 26 // rows that stay legible in one drawing
	textBefore = 34.0
)

// OneLine draws the one-line diagram: one drawing of everything where that stays
// legible, otherwise one of the panels and one of each panel's circuits.
func OneLine(id string, d document.Report, m Measure) []Figure {
	rows := 0
	for _, n := range d.OneLine {
		rows += len(n.Groups) + 2
	}
	if rows <= mostInOne {
		return []Figure{oneLine(id+"-0", "One-line diagram", d, d.OneLine, m, true)}
	}
	out := []Figure{oneLine(id+"-0", "One-line diagram of the panels", d, d.OneLine, m, false)}
	for i, n := range d.OneLine {
		if len(n.Groups) > 0 {
			out = append(out, oneLine(fmt.Sprintf("%s-%d", id, i+1), "One-line diagram of panel "+Plain(n.Panel), d, []document.Node{n}, m, true))
		}
	}
	return out
}

// riser is a drawing under way.
type riser struct {
	*canvas
	doc    document.Report
	m      Measure
	nodes  map[string]document.Node
	groups bool
	deep   float64 // rightmost bus
	y      float64 // of the next row
}

func oneLine(id, title string, d document.Report, nodes []document.Node, m Measure, groups bool) Figure {
	r := riser{canvas: &canvas{id: id}, doc: d, m: m, nodes: map[string]document.Node{}, groups: groups, y: 20}
	for _, n := range nodes {
		r.nodes[n.Panel] = n
	}
	var desc strings.Builder
	for _, n := range nodes {
		if _, inside := r.nodes[n.From]; !inside {
			r.head(n)
		}
		describeNode(&desc, d, n, m, groups)
	}
	return r.figure(title, desc.String(), r.deep+busStep+loadText, r.y+8)
}

// head starts a tree: at the utility, or at the feeder of a panel drawn alone.
func (r *riser) head(x document.Node) {
	at := busLeft
	p := r.panel(x.Panel)
	if p.Feeder != nil {
		r.text("label", left, at+14, r.y+14, "from panel "+Short(p.Feeder.From, 30))
		r.line("wire", at, r.y, at, r.y+30)
		r.bus(x, at, r.y+30)
		return
	}
	r.text("label strong", left, at+18, r.y+10, "Utility service, "+p.System)
	r.circle("symbol", at, r.y+6, 9)
	r.path("symbol thin", fmt.Sprintf("M%s %sq2.75 -6 5.5 0t5.5 0", n(at-5.5), n(r.y+6)))
	r.line("wire", at, r.y+15, at, r.y+28)
	r.rect("symbol", at-15, r.y+28, 30, 18)
	r.line("symbol thin", at-15, r.y+32, at+15, r.y+32)
	r.text("tiny", middle, at, r.y+42.5, "kWh")
	r.line("wire", at, r.y+46, at, r.y+58)
	r.breakerDown(at, r.y+58)
	r.text("label", left, at+18, r.y+74, "main "+amps(p.MainAmps)+bus(p.BusAmps))
	r.bus(x, at, r.y+topRoom-32)
	r.y += 22
}

func bus(a *float64) string {
	if a == nil {
		return ""
	}
	return ", bus " + amps(a)
}

// bus draws a panel's bus from y down, with all that hangs on it.
func (r *riser) bus(x document.Node, at, y float64) {
	r.deep = max(r.deep, at)
	p := r.panel(x.Panel)
	r.text("label strong", left, at+14, y+12, "Panel "+Short(x.Panel, 26)+" – "+p.System)
	least := ""
	if p.LeastLoad {
		least = "at least "
	}
	r.text("label", left, at+14, y+26, fmt.Sprintf("%s%s VA connected, %s VA calculated; fullest leg needs %s A",
		least, units.Round(p.ConnectedVA, 0), units.Round(p.DemandVA, 0), units.Round(p.RequiredAmps, 1)))
	r.y = y + 52
	last := y + 30
	if r.groups {
		for _, g := range x.Groups {
			r.group(g, at)
			last = r.y
			r.y += rowHeight
		}
	} else if len(x.Groups) > 0 {
		r.text("label", left, at+14, y+40, circuitsOf(x)+", drawn below")
		last, r.y = y+42, y+64
	}
	for _, name := range x.Feeds {
		n, drawn := r.nodes[name]
		last = r.y
		r.feeder(n, name, at, drawn)
	}
	r.line("bus", at, y, at, last+6)
}

// group is the branch circuits of one room and category.
func (r *riser) group(g document.Bundle, at float64) {
	size := "conductors differ"
	if g.Size != nil {
		size = *g.Size
	}
	breaker := "ratings differ"
	if g.BreakerAmps != nil && g.Poles != nil {
		breaker = fmt.Sprintf("%s, %d-pole", amps(g.BreakerAmps), *g.Poles)
	}
	r.branch(at, fmt.Sprintf("%d × %s", len(g.Circuits), breaker), size)
	end := at + busStep
	r.load(g.Category, end-8, r.y)
	r.text("label strong", left, end+12, r.y-2, Short(group(g), 40))
	r.text("label", left, end+12, r.y+11, fmt.Sprintf("%s, %s VA", circuits(len(g.Circuits)), voltAmperes(g.VA)))
}

func group(g document.Bundle) string {
	if g.Room == "" {
		return g.Category
	}
	return g.Room + ": " + g.Category
}

func circuits(count int) string {
	if count == 1 {
		return "1 circuit"
	}
	return fmt.Sprintf("%d circuits", count)
}

// circuitsOf counts the branch circuits of a panel.
func circuitsOf(x document.Node) string {
	count := 0
	for _, g := range x.Groups {
		count += len(g.Circuits)
	}
	return circuits(count)
}

// branch is a breaker on the bus and the conductor that leaves it.
func (r *riser) branch(at float64, above, under string) {
	r.line("wire", at, r.y, at+20, r.y)
	r.breaker(at+20, r.y)
	r.line("wire", at+46, r.y, at+busStep-14, r.y)
	r.text("note", left, at+56, r.y-5, above)
	r.text("note", left, at+56, r.y+12, under)
}

// feeder is a feeder with its transformer, and the panel at its end.
func (r *riser) feeder(x document.Node, name string, at float64, drawn bool) {
	p := r.panel(name)
	f := p.Feeder
	above := fmt.Sprintf("%s, %d-pole feeder", amps(f.BreakerAmps), f.Poles)
	r.branch(at, above, wire(f, r.m))
	end := at + busStep
	r.line("wire", end-14, r.y, end, r.y)
	if t := f.Transformer; t != nil {
		r.transformer(end-22, r.y)
		r.text("note", left, at+56, r.y+24, fmt.Sprintf("%s kVA, %s–%s V", units.Round(t.VA/1000, 1), units.Round(t.PrimaryVolts, 0), units.Round(t.SecondaryVolts, 0)))
		r.text("note", left, at+56, r.y+36, "secondary not sized")
	}
	if !drawn {
		r.text("label strong", left, end+8, r.y+4, "panel "+Short(name, 26)+" (its own drawing)")
		r.y += rowHeight
		if f.Transformer != nil {
			r.y += 14
		}
		return
	}
	r.bus(x, end, r.y)
	r.y += 8
}

func wire(f *document.Feeder, m Measure) string {
	c := f.Conductor
	if c.Size == nil {
		return "conductor not known"
	}
	s := *c.Size
	if c.ParallelSets > 1 {
		s = fmt.Sprintf("%d sets of %s", c.ParallelSets, s)
	}
	if c.Material != nil {
		s += " " + *c.Material
	}
	if c.LengthFeet != nil {
		s += ", " + m.lengthText(*c.LengthFeet)
	}
	return s
}

func (r *riser) panel(name string) document.Panel {
	for _, p := range r.doc.Plan.Panels {
		if p.Name == name {
			return p
		}
	}
	return document.Panel{Name: name}
}

// amps writes a rating, a question mark where it is not known.
func amps(a *float64) string {
	if a == nil {
		return "? A"
	}
	return units.Round(*a, 2) + " A"
}

// voltAmperes writes a figure of apparent power, a question mark where it is not
// known.
func voltAmperes(va *float64) string {
	if va == nil {
		return "?"
	}
	return units.Round(*va, 0)
}

func describeNode(b *strings.Builder, d document.Report, x document.Node, m Measure, groups bool) {
	p := (&riser{doc: d}).panel(x.Panel)
	from := "the utility"
	if p.Feeder != nil {
		from = "panel " + Plain(p.Feeder.From) + " through " + amps(p.Feeder.BreakerAmps) + ", " + wire(p.Feeder, m)
		if t := p.Feeder.Transformer; t != nil {
			from += fmt.Sprintf(", to the primary of a transformer of %s kVA, %s to %s V; secondary %s",
				units.Round(t.VA/1000, 1), units.Round(t.PrimaryVolts, 0), units.Round(t.SecondaryVolts, 0), t.Secondary)
		}
	}
	fmt.Fprintf(b, "Panel %s, %s, main %s, fed from %s. ", Plain(x.Panel), p.System, amps(p.MainAmps), from)
	if !groups {
		return
	}
	for _, g := range x.Groups {
		fmt.Fprintf(b, "It feeds %s, %s, %s VA. ", Plain(group(g)), circuits(len(g.Circuits)), voltAmperes(g.VA))
	}
}
