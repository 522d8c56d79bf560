package circuits

import (
	"fmt"
	"math"
	"sort"

	"branchwork/loads/units"
)

// Scarce is something that a panel has so much of, and how much a plan uses.
type Scarce struct {
	Panel string
	What  string // "circuit", "spaces", "main", "bus", "leg balance", "leakage"
	Name  string // of the circuit
	Used  float64
	Have  float64
	Unit  string
	Share float64
	Buys  string   // what more of it would carry, in circuits like the plan's own
	Like  *Circuit // the circuit that Buys speaks of; nil where it speaks of none
	// Least tells that the current of a load is not known: Used is a least value, and
	// nothing is promised of what is left.
	Least bool
	Fits  int // how many more of it fit in what is left, as far as this thing goes
}

// Scarcest lists what each panel has least of, the scarcest first: circuits that
// are over their limit already; spaces, where the file lists all that stands in
// them; the main and the bus, the balance of its legs where uneven legs cost a circuit, and
// the leakage of the fullest circuit behind a ground-fault device. At the service
// the main is the service's. What is not known cannot be ranked and is left out;
// the rules report it.
func Scarcest(p Plan) []Scarce {
	var out []Scarce
	for _, x := range p.Panels {
		like, lacks := p.typical(x), p.UndrawnBelow(&x) != nil
		out = append(out, p.overloaded(x.Name)...)
		taken, all := x.Taken()
		if have, ok := x.Spaces.Get(); ok && have > 0 && all {
			out = append(out, roomInPanel(x, taken, have, like))
		}
		for _, r := range []struct {
			what string
			amps units.Known[units.Current]
		}{{"main", x.Main}, {"bus", x.Bus}} {
			if have, ok := r.amps.Get(); ok && have > 0 {
				out = append(out, ampsOf(x, r.what, have, like, lacks))
				if r.what == "main" && !lacks {
					out = append(out, unevenness(x, have, like)...)
				}
			}
		}
		out = append(out, p.leakage(x.Name)...)
	}
	for i := range out {
		out[i].Share = out[i].Used / out[i].Have
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// overloaded are the circuits of a panel that carry more than a limit in amperes.
func (p Plan) overloaded(panel string) []Scarce {
	var out []Scarce
	for _, c := range p.Circuits {
		if l, over := c.over(); over && c.Panel == panel && c.Name != "" {
			out = append(out, Scarce{Panel: panel, What: "circuit", Name: c.Name, Used: l.Actual.Value, Have: l.Limit.Value, Unit: l.Limit.Unit})
		}
	}
	return out
}

// over returns the fullest limit in amperes that a circuit is over.
func (c Circuit) over() (Limit, bool) {
	for _, l := range c.Limits {
		if l.Limit.Unit == "A" && units.Exceeds(l.Actual.Value, l.Limit.Value) {
			return l, true
		}
	}
	return Limit{}, false
}

func roomInPanel(x Panel, taken, have int, like *Circuit) Scarce {
	s := Scarce{Panel: x.Name, What: "spaces", Used: float64(taken), Have: float64(have), Unit: "spaces"}
	if like != nil && like.Panel == x.Name {
		s.Like, s.Fits = like, max(0, have-taken)/like.Supply.Poles
		s.Buys = fmt.Sprintf("%d more would carry one more circuit like %s (%s)", like.Supply.Poles, like.Name, feeds(*like))
	}
	return s
}

// ampsOf counts whole circuits on the fullest leg; on another leg more may fit.
func ampsOf(x Panel, what string, have units.Current, like *Circuit, lacks bool) Scarce {
	s := Scarce{Panel: x.Name, What: what, Used: float64(x.Required), Have: float64(have), Unit: "A", Least: lacks}
	if like != nil && like.Required > 0 && !lacks {
		s.Like, s.Fits = like, whole(have-x.Required, like.Required)
		s.Buys = fmt.Sprintf("%s more on the fullest leg would carry one more circuit like %s (%s); there is room for %d on it",
			like.Required, like.Name, feeds(*like), s.Fits)
	}
	return s
}

// unevenness tells what even legs would carry beside what the fullest leg leaves:
// nothing, where that is not one circuit more.
func unevenness(x Panel, main units.Current, like *Circuit) []Scarce {
	if like == nil || like.Required <= 0 || len(x.Legs) < 2 || x.Balance.Worst == 0 {
		return nil
	}
	over := units.Times(x.Required, float64(x.Balance.Worst-x.Balance.Even)/float64(x.Balance.Worst))
	n := whole(main-x.Required+over, like.Required) - whole(main-x.Required, like.Required)
	if n < 1 {
		return nil
	}
	s := Scarce{Panel: x.Name, What: "leg balance", Used: float64(x.Required), Have: float64(main), Unit: "A", Like: like, Fits: n}
	more := "one circuit"
	if n > 1 {
		more = fmt.Sprintf("%d circuits", n)
	}
	s.Buys = fmt.Sprintf("even legs would leave about %s more on the fullest, %s more like %s (%s)", over, more, like.Name, feeds(*like))
	if x.Balance.Proved {
		s.Buys += "; while existing circuits stay, no layout of these is more even in the worst state of the day"
	}
	return []Scarce{s}
}

// leakageRule is the rule whose share of a circuit's limits is its leakage.
const leakageRule = "leakage-sum"

// leakage is the circuit of a panel that uses most of what its ground-fault
// device lets leak.
func (p Plan) leakage(panel string) []Scarce {
	var fullest *Circuit
	var limit Limit
	for i := range p.Circuits {
		c := &p.Circuits[i]
		for _, l := range c.Limits {
			if c.Panel == panel && l.Rule == leakageRule && l.Share > limit.Share {
				fullest, limit = c, l
			}
		}
	}
	if fullest == nil || fullest.Units() == 0 {
		return nil
	}
	s := Scarce{Panel: panel, What: "leakage", Used: limit.Actual.Value, Have: limit.Limit.Value, Unit: limit.Actual.Unit}
	if len(fullest.Loads) > 1 {
		return []Scarce{s} // its units differ in what they leak
	}
	s.Like = fullest
	each := limit.Actual.Value / float64(fullest.Units())
	s.Fits = int(math.Max(0, math.Floor((s.Have-s.Used)/each+1e-9)))
	s.Buys = fmt.Sprintf("%s %s more would let one more unit share circuit %s (%s); there is room for %d by leakage",
		units.Round(each, 2), s.Unit, fullest.Name, feeds(*fullest), s.Fits)
	return []Scarce{s}
}

// Units counts the units on a circuit.
func (c Circuit) Units() (n int) {
	for _, l := range c.Loads {
		n += l.Count
	}
	return n
}

// whole counts the times that one current fits another.
func whole(room, one units.Current) int {
	return int(math.Max(0, math.Floor(units.Per(room, one)+1e-9)))
}

// typical is the circuit of a panel that there is most of: the first of those
// that feed the same things and are not over a limit, of which nobody wants more. A panel without circuits of its own is spoken of in
// those of the panels that it feeds without a transformer between.
func (p Plan) typical(x Panel) *Circuit {
	counts := map[string]int{}
	first := map[string]*Circuit{}
	best := ""
	in := p.FedFrom(x.Name)
	own := false
	for i := range p.Circuits {
		own = own || p.Circuits[i].Panel == x.Name && len(p.Circuits[i].Loads) > 0
	}
	for i := range p.Circuits {
		c := &p.Circuits[i]
		if _, over := c.over(); over || len(c.Loads) == 0 || c.Panel != x.Name && (own || !in[c.Panel]) {
			continue
		}
		k := feeds(*c)
		counts[k]++
		if first[k] == nil {
			first[k] = c
		}
		if best == "" || counts[k] > counts[best] {
			best = k
		}
	}
	return first[best]
}

// FedFrom returns the panels that a panel feeds, directly or not, without a
// transformer between.
func (p Plan) FedFrom(name string) map[string]bool {
	in := map[string]bool{name: true}
	for grew := true; grew; {
		grew = false
		for _, x := range p.Panels {
			if f := x.Feeder; f != nil && f.Transformer == nil && in[f.From] && !in[x.Name] {
				in[x.Name], grew = true, true
			}
		}
	}
	return in
}
