package handover

import (
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// Directory is the odd/even directory of a panel, as it hangs in the door.
type Directory struct {
	Of, Caption string
	Called      string // in short, what equipment is grounded by
	Rows        []DirectoryRow
	Legs        []LegSum
	Sum         []Span
	totals      []Field
}

// DirectoryRow is two spaces on one leg.
type DirectoryRow struct {
	Leg         string
	Left, Right Slot
}

// Slot is one space. Amps and Poles are empty where no breaker starts.
type Slot struct {
	Number      Cell
	Text        []Span
	Wire        string // conductor, ground and raceway
	Amps, Poles Span
	VA          Cell
	Vacant      bool
}

// LegSum is what is connected on a leg.
type LegSum struct {
	Leg string
	VA  Span
}

func (p *page) directory(i int, x document.Panel) Directory {
	d := p.d.Directories[i]
	out := Directory{Of: x.Name, Called: p.d.Plan.GroundCalled, Caption: "Circuit directory of panel " + svg.Plain(x.Name)}
	for k, r := range d.Rows {
		key := path(path("directories", i, "rows"), k, "")
		out.Rows = append(out.Rows, DirectoryRow{Leg: r.Leg, Left: p.slot(r.Left, d.Unlisted, key+"left."), Right: p.slot(r.Right, d.Unlisted, key+"right.")})
	}
	for k, l := range d.LegVA {
		out.Legs = append(out.Legs, LegSum{l.Leg, maybe(l.VA, 0, path(path("directories", i, "leg_va"), k, "va"))})
	}
	out.sum(i, x, d)
	return out
}

func (d *Directory) sum(i int, x document.Panel, of document.Directory) {
	key := func(k string) string { return path("plan.panels", i, k) }
	connected, calculated := connectedVA(x, key("connected_va")), number(x.DemandVA, 0, key("demand_va"))
	vacant := maybeCount(of.Vacant, path("directories", i, "vacant"))
	with := "with the allowance for continuous load" + other(x)
	if x.LeastLoad {
		with += ", a least value: the current of a load is not known"
	}
	without := "spaces without a breaker"
	if of.Unlisted {
		without = "spaces of which the file lists no breaker"
	}
	d.Sum = spans(text("Connected "), connected, text(" VA; calculated load "), calculated, text(" VA "+with+"; "), vacant, text(" "+without))
	d.totals = []Field{{"Connected, all legs, VA", spans(connected)}, {"Calculated load " + with + ", VA", spans(calculated)}, {strings.ToUpper(without[:1]) + without[1:], spans(vacant)}}
	if of.Beyond > 0 {
		beyond := count(of.Beyond, path("directories", i, "beyond"))
		d.Sum = append(d.Sum, text("; "), beyond, text(" spaces drawn here do not exist in the panel"))
		d.totals = append(d.totals, Field{"Spaces drawn that do not exist in the panel", spans(beyond)})
	}
	d.Sum = append(d.Sum, text("."))
}

// connectedVA is what is connected to a panel, which is not known where the current
// of a load is not.
func connectedVA(x document.Panel, key string) Span {
	if x.LeastLoad {
		return maybe(nil, 0, key)
	}
	return number(x.ConnectedVA, 0, key)
}

// other says that a calculated load holds load that is not listed.
func other(x document.Panel) string {
	if x.OtherLoadAmps == nil && x.MeasuredPeakAmps == nil {
		return ""
	}
	return " and the load that the file does not list"
}

func (p *page) slot(s document.Slot, unlisted bool, key string) Slot {
	out := Slot{Number: figure(count(s.Space, key+"space"))}
	switch {
	case s.Circuit == "" && s.Feeds == "":
		says := "space"
		if unlisted {
			says = "not listed"
		}
		out.Vacant, out.Text, out.VA = true, spans(span(says, "quiet")), blank()
		return out
	case s.Continues:
		out.Text = spans(span("same breaker", "quiet"))
	default:
		out.Amps, out.Poles = maybeAmount(s.BreakerAmps, 2, key+"breaker_amps"), count(s.Poles, key+"poles")
		if s.Feeds != "" {
			k := p.at.panels[s.Feeds]
			out.Text = spans(p.link(name(s.Description), atDirectories, id("p", k)))
			f := p.d.Plan.Panels[k].Feeder
			out.Wire = p.short(f.Conductor, f.Ground)
			if f.Transformer != nil {
				out.Wire += ", to the primary"
			}
		} else {
			k := p.at.circuits[s.Circuit]
			c := p.d.Plan.Circuits[k]
			out.Text = append(spans(p.circuit(s.Circuit), text(": "), name(s.Description)), p.findingLinks("circuit", s.Circuit)...)
			out.Wire = p.short(c.Conductor, c.Ground) + p.racewayOf(k) + unheld(c)
		}
	}
	out.VA = figure(maybe(s.VA, 0, key+"va"))
	return out
}

// short writes conductor and ground for a narrow column: the insulation stands in
// the schedule.
func (p *page) short(c document.Conductor, g document.Ground) string {
	c.Insulation = nil
	return c.Words() + "; " + orUnknown(g.Size) + " " + p.d.Plan.GroundCalled
}

// Columns of the directory as a table, which its totals follow from.
const (
	doorOddVA  = 5
	doorLeg    = 6
	doorEvenVA = 7
	doorWidth  = 13
)

// Table sets the directory out, its totals under the volt-amperes of the odd
// spaces.
func (d Directory) Table() Table {
	t := Table{Name: "directories", Of: d.Of, OfHead: "Panel", Sheet: "Panel " + svg.Plain(d.Of), Caption: d.Caption, Columns: []Column{
		fig("No.", "odd"), col("Description, odd"), col("Conductor, " + d.Called + ", raceway, odd"), fig("Breaker, odd", "A"), fig("Poles, odd", ""), fig("Connected, odd", "VA"), col("Leg"),
		fig("Connected, even", "VA"), fig("Poles, even", ""), fig("Breaker, even", "A"), col("Conductor, " + d.Called + ", raceway, even"), col("Description, even"), fig("No.", "even")}}
	for _, r := range d.Rows {
		l, e := r.Left, r.Right
		t.Rows = append(t.Rows, Row{Cells: []Cell{l.Number, in(l.Text...), cellText(l.Wire), breaker(l.Amps), breaker(l.Poles), l.VA, cellText(r.Leg),
			e.VA, breaker(e.Poles), breaker(e.Amps), cellText(e.Wire), in(e.Text...), e.Number}})
	}
	total := func(what string, f Span, by *Formula) {
		cells := make([]Cell, doorWidth)
		for i := range cells {
			cells[i] = gap()
		}
		cells[1], cells[doorOddVA] = cellText(what), following(figure(f), by)
		t.Foot = append(t.Foot, Row{Cells: cells})
	}
	last := len(t.Rows) - 1
	for _, l := range d.Legs {
		total("Connected, leg "+l.Leg+", VA", l.VA, &Formula{Terms: []Term{{Column: doorOddVA, To: last, Where: doorLeg, Is: l.Leg}, {Column: doorEvenVA, To: last, Where: doorLeg, Is: l.Leg}}})
	}
	for i, f := range d.totals {
		var by *Formula
		if i == 0 {
			by = &Formula{Terms: []Term{{Column: doorOddVA, From: last + 1, To: last + len(d.Legs)}}}
		}
		total(f.Name, f.Spans[0], by)
	}
	return t
}

// breaker is a figure of a breaker, where one starts.
func breaker(s Span) Cell {
	if s.Text == "" {
		return blank()
	}
	return figure(s)
}
