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
	Share      units.Ratio // filled
}

// spareFraction: where all conductors are of one size, a computed number whose
// decimal is 0.8 or more counts as the next whole one (Chapter 9 note 7).
const spareFraction = 0.2

// Raceway returns the smallest trade size of a raceway that holds the wires.
//
//	Σ n · a <= Inside · share(number of conductors)
//
// Source: Chapter 9 Tables 1, 4, 5. Range: raceways and insulations that the
// profile has tables for; jamming and bends are not looked at.
func Raceway(kind string, list []Wire, p *codes.Profile, w *steps.Work) (Fill, error) {
	trade, ok := p.Wires.Trade[kind]
	if !ok {
		return Fill{}, fmt.Errorf("no table of trade sizes for %q in %s", kind, p.Title)
	}
	f := Fill{}
	same := true
	var terms []string
	var in []steps.Input
	for i, x := range list {
		a := x.Area
		if a == 0 {
			table, ok := p.Wires.Outside[x.Insulation]
			if !ok {
				return Fill{}, fmt.Errorf("no table of areas for conductors with %q insulation in %s", x.Insulation, p.Title)
			}
			if a, _, ok = table.Value(x.Size, table.Columns[0]); !ok {
				return Fill{}, fmt.Errorf("no area of %s %s in %s", x.Size, x.Insulation, p.Title)
			}
		}
		n, s := fmt.Sprintf("n%d", i+1), fmt.Sprintf("a%d", i+1)
		terms = append(terms, n+" · "+s)
		in = append(in, steps.In(n, float64(x.Count), ""), steps.In(s, a, "sq in"))
		f.Area += float64(x.Count) * a
		f.Conductors += x.Count
		same = same && x.Size == list[0].Size && x.Insulation == list[0].Insulation && x.Area == list[0].Area
	}
	if f.Conductors == 0 {
		return Fill{}, fmt.Errorf("a raceway without conductors")
	}
	share, fillCite, ok := p.Wires.FillShare(f.Conductors)
	if !ok {
		return Fill{}, fmt.Errorf("no fill for %d conductors in %s", f.Conductors, p.Title)
	}
	f.Allowed = share
	w.Add(steps.Result("area of the conductors", strings.Join(terms, " + "), f.Area, "sq in", fillCite, in...))
	one := f.Area / float64(f.Conductors)
	for _, row := range trade.Rows {
		inside, how, ok := trade.Value(row.Key, "100 %")
		if !ok {
			continue
		}
		allowed := inside * float64(share)
		fits := !units.Exceeds(f.Area, allowed)
		if same && f.Conductors > 1 {
			fits = fits || f.Conductors <= int(math.Floor(allowed/one+spareFraction))
		}
		if !fits {
			continue
		}
		f.Trade, f.Inside, f.Share = row.Key, inside, units.Ratio(f.Area/inside)
		w.Add(steps.Result("area that may be filled", "A · share", allowed, "sq in", fillCite, steps.In("A", inside, "sq in"), steps.In("share", share, "")))
		w.Add(steps.Choice("raceway", row.Key+" "+kind, "", trade.Cite(p.Edition, how), steps.In("conductors", float64(f.Conductors), "")))
		return f, nil
	}
	return Fill{}, fmt.Errorf("%d conductors of %s sq in do not fit %s up to %s", f.Conductors, units.Round(f.Area, 3), kind, trade.Rows[len(trade.Rows)-1].Key)
}
