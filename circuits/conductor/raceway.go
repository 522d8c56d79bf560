package conductor

import (
	"fmt"
	"math"
	"strings"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Wire is conductors of one kind in a raceway, grounding conductors among them.
type Wire struct {
	Size, Insulation string
	Count            int
	Area             float64 // of one, in square inches; zero: by size and insulation. A cable counts as one conductor by its own diameter
}

// HomeRun returns what a circuit puts into its raceway: the live conductors, the
// neutral where there is one, and the grounding conductor.
func HomeRun(c Choice, live int, neutral bool) []Wire {
	if neutral {
		live++
	}
	list := []Wire{{Size: c.Size, Insulation: c.Insulation, Count: live}}
	if c.Ground != "" {
		list = append(list, Wire{Size: c.Ground, Insulation: c.Insulation, Count: 1})
	}
	return list
}

// Fill is a raceway with what is in it.
type Fill struct {
	Trade      string  // "3/4 in"
	Conductors int     // in it
	Area       float64 // of all of them, square inches
	Inside     float64 // of the raceway, square inches
	Allowed    units.Ratio
	Limit      units.Ratio // Allowed, or what whole conductors of one size may fill by the note on their number
	Share      units.Ratio // filled
	Rests      []steps.Cite
}

// Holds reports whether the raceway may hold what is in it.
func (f Fill) Holds() bool { return !units.Exceeds(f.Share, f.Limit) }

// spareFraction: where all conductors are of one size, a computed number whose
// decimal is 0.8 or more counts as the next whole one (Chapter 9 note 7).
const spareFraction = 0.2

// Raceway returns the smallest trade size of a raceway that holds the wires.
//
//	Σ n · a <= Inside · share(number of conductors)
//
// Source: Chapter 9 Tables 1, 4, 5. Range: raceways and insulations that the
// profile has tables for; jamming and bends are not looked at. Checked by
// testdata/published/conduit.toml.
func Raceway(kind string, list []Wire, p *codes.Profile, w *steps.Work) (Fill, error) {
	b, err := contents(kind, list, p, w)
	if err != nil {
		return Fill{}, err
	}
	for _, row := range b.trade.Rows {
		if f, ok := b.in(row.Key, nil); ok && f.Holds() {
			f, _ = b.in(row.Key, w)
			w.Add(steps.Choice("raceway", row.Key+" "+kind, "the smallest that holds them", f.Rests[1], steps.In("conductors", float64(f.Conductors), "")))
			return f, nil
		}
	}
	return Fill{}, Beyond{fmt.Sprintf("%d conductors of %s sq in do not fit %s up to %s", b.Conductors, units.Round(b.Area, 3), kind, b.trade.Rows[len(b.trade.Rows)-1].Key)}
}

// Filled returns how full a raceway of a trade size is of the wires.
func Filled(kind, size string, list []Wire, p *codes.Profile, w *steps.Work) (Fill, error) {
	b, err := contents(kind, list, p, w)
	if err != nil {
		return Fill{}, err
	}
	f, ok := b.in(size, w)
	if !ok {
		return Fill{}, Beyond{fmt.Sprintf("no area of %s %s in %s", size, kind, p.Title)}
	}
	return f, nil
}

// bundle is wires that lie together, with the table of the raceway they go into.
type bundle struct {
	Fill
	trade    codes.Table
	edition  string
	fillCite steps.Cite
	same     bool // all of one size
}

// contents adds up the areas of wires.
func contents(kind string, list []Wire, p *codes.Profile, w *steps.Work) (bundle, error) {
	b := bundle{edition: p.Edition, same: true}
	var ok bool
	if b.trade, ok = p.Wires.Trade[kind]; !ok {
		return b, Beyond{fmt.Sprintf("no table of trade sizes for %q in %s", kind, p.Title)}
	}
	var terms []string
	var in []steps.Input
	areas := steps.Cite{}
	for i, x := range list {
		a := x.Area
		if a == 0 {
			table, ok := p.Wires.Outside[x.Insulation]
			if !ok {
				return b, Beyond{fmt.Sprintf("no table of areas for conductors with %q insulation in %s", x.Insulation, p.Title)}
			}
			v, how, ok := table.Value(x.Size, table.Columns[0])
			if !ok {
				return b, Beyond{fmt.Sprintf("no area of %s %s in %s", x.Size, x.Insulation, p.Title)}
			}
			a, areas = v, table.Cite(p.Edition, how)
		}
		n, s := fmt.Sprintf("n%d", i+1), fmt.Sprintf("a%d", i+1)
		terms = append(terms, n+" · "+s)
		in = append(in, steps.In(n, float64(x.Count), ""), steps.In(s, a, "sq in"))
		b.Area += float64(x.Count) * a
		b.Conductors += x.Count
		b.same = b.same && x.Size == list[0].Size && x.Insulation == list[0].Insulation && x.Area == list[0].Area
	}
	if b.Conductors == 0 {
		return b, fmt.Errorf("a raceway without conductors")
	}
	if b.Allowed, b.fillCite, ok = p.Wires.FillShare(b.Conductors); !ok {
		return b, Beyond{fmt.Sprintf("no fill for %d conductors in %s", b.Conductors, p.Title)}
	}
	b.Rests = []steps.Cite{b.fillCite}
	w.Add(steps.Result("area of the conductors", strings.Join(terms, " + "), b.Area, "sq in", areas, in...))
	return b, nil
}

// in puts the wires into a raceway of a trade size; ok is false where the table
// has none.
func (b bundle) in(size string, w *steps.Work) (Fill, bool) {
	inside, how, ok := b.trade.Value(size, "100 %")
	if !ok {
		return Fill{}, false
	}
	f := b.Fill
	f.Trade, f.Inside, f.Share, f.Limit = size, inside, units.Ratio(b.Area/inside), b.Allowed
	f.Rests = append(append([]steps.Cite{}, f.Rests...), b.trade.Cite(b.edition, how))
	allowed := inside * float64(b.Allowed)
	w.Add(steps.Result("area that may be filled", "A · share", allowed, "sq in", b.fillCite, steps.In("A", inside, "sq in"), steps.In("share", b.Allowed, "")))
	w.Add(steps.Result("share of the raceway that is filled", "a / A", f.Share, "", f.Rests[1], steps.In("a", b.Area, "sq in"), steps.In("A", inside, "sq in")))
	one := b.Area / float64(b.Conductors)
	if whole := math.Floor(allowed/one + spareFraction); b.same && b.Conductors > 1 && whole*one > allowed {
		f.Limit = units.Ratio(whole * one / inside)
		s := steps.Result("share that whole conductors of one size may fill", "N · a1 / A", f.Limit, "", b.fillCite,
			steps.In("N", whole, ""), steps.In("a1", one, "sq in"), steps.In("A", inside, "sq in"))
		s.Note = "a computed number of conductors of one size whose decimal is 0.8 or more counts as the next whole one"
		w.Add(s)
	}
	return f, true
}
