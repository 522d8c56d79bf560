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
	What  string // "spaces", "main", "bus", "leg balance"
	Used  float64
	Have  float64
	Unit  string
	Share float64
	Buys  string // what more of it would carry, in circuits like the plan's own
}

// Scarcest lists what each panel has least of, the scarcest first: spaces, the
// main and the bus. What is not known cannot be ranked and is left out; the rules
// report it.
func Scarcest(p Plan) []Scarce {
	var out []Scarce
	for _, x := range p.Panels {
		like := p.typical(x.Name)
		if have, ok := x.Spaces.Get(); ok && have > 0 {
			s := Scarce{Panel: x.Name, What: "spaces", Used: float64(x.SpacesUsed), Have: float64(have), Unit: "spaces"}
			if like != nil {
				s.Buys = fmt.Sprintf("%d more would carry one more circuit like %s (%s)", like.Supply.Poles, like.Name, feeds(*like))
			}
			out = append(out, s)
		}
		for _, r := range []struct {
			what string
			amps units.Known[units.Current]
		}{{"main", x.Main}, {"bus", x.Bus}} {
			have, ok := r.amps.Get()
			if !ok || have <= 0 {
				continue
			}
			s := Scarce{Panel: x.Name, What: r.what, Used: float64(x.Required), Have: float64(have), Unit: "A"}
			if like != nil && like.Required > 0 {
				n := math.Floor(float64(have-x.Required)/float64(like.Required) + 1e-9)
				s.Buys = fmt.Sprintf("%s more on the fullest leg would carry one more circuit like %s (%s); there is room for %d",
					like.Required, like.Name, feeds(*like), int(max(0, n)))
			}
			out = append(out, s)
		}
	}
	for i := range out {
		out[i].Share = out[i].Used / out[i].Have
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// typical is the circuit of a panel that there is most of: the first of those
// that feed the same things.
func (p Plan) typical(panel string) *Circuit {
	counts := map[string]int{}
	first := map[string]*Circuit{}
	best := ""
	for i := range p.Circuits {
		c := &p.Circuits[i]
		if c.Panel != panel || len(c.Loads) == 0 {
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
