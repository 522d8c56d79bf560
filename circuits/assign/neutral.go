package assign

import (
	"math"
	"sort"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// sharing returns the circuits of the file that share a neutral with one of
// them, itself among them, in order of panel and space; nil where it has a
// neutral of its own. It is enough that one of them names another. Circuits on
// paper never share a neutral.
func (pl *planner) sharing(name string) []inventory.Circuit {
	in := map[string]bool{name: true}
	for grew := true; grew; {
		grew = false
		for _, x := range pl.inv.Circuits {
			for _, other := range x.SharesNeutral {
				if in[x.Name] != in[other] {
					in[x.Name], in[other], grew = true, true, true
				}
			}
		}
	}
	var out []inventory.Circuit
	for _, x := range pl.inv.Circuits {
		if in[x.Name] {
			out = append(out, x)
		}
	}
	if len(out) < 2 {
		return nil
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Panel != out[j].Panel {
			return units.NaturalLess(out[i].Panel, out[j].Panel)
		}
		return out[i].Spaces[0] < out[j].Spaces[0]
	})
	return out
}

// How the legs of circuits that share a neutral stand to one another.
type standing int

const (
	alone      standing = iota // one circuit
	opposite                   // two legs 180° apart: the neutral carries their difference
	twoOfThree                 // two legs of a wye
	allThree                   // all three legs of a wye
	stacked                    // legs that are not known to differ: the neutral carries their sum
)

// highLeg is the leg of a high-leg system that stands higher than the others.
const highLeg = 1

// standingOf tells how the legs of a group stand.
func (pl *planner) standingOf(group []inventory.Circuit) standing {
	if len(group) == 0 {
		return alone
	}
	seen := map[int]bool{}
	for _, x := range group {
		host, ok := pl.panel(x.Panel)
		if !ok || x.Panel != group[0].Panel || len(x.Spaces) != 1 {
			return stacked
		}
		seen[panel.LegsOf(host.System, x.Spaces)[0]] = true
	}
	host, _ := pl.panel(group[0].Panel)
	switch {
	case len(seen) < len(group), host.System.Form == inventory.HighLeg && seen[highLeg]:
		return stacked
	case host.System.Form == inventory.Wye && len(group) == host.System.Legs:
		return allThree
	case host.System.Form == inventory.Wye:
		return twoOfThree
	}
	return opposite
}

// neutral tells whether a circuit's neutral counts among the conductors that
// carry current, and what a shared one carries.
//
//	one leg and neutral                     counted: it carries what the leg does
//	two legs 180° apart and neutral         not counted: it carries their difference
//	two legs of a wye and neutral           counted: about the current of a leg
//	three legs of a wye and neutral         counted where most of the load is electronic
//
// Source: 310.15(E), 310.15(B)(5) in 2017. Rows of the table that say so are
// checked by TestTheNeutralCountsAsTheCodeSays.
func (pl *planner) neutral(c *circuits.Circuit, w *steps.Work) circuits.Neutral {
	if !c.Supply.Neutral {
		return circuits.Neutral{}
	}
	n := circuits.Neutral{Runs: true, Cite: pl.p.Wires.NeutralCite, Amps: units.Unknown[units.Current]("it is shared with no other circuit")}
	var group []inventory.Circuit
	if c.Existing {
		group = pl.sharing(c.Name)
	}
	for _, x := range group {
		if x.Name != c.Name {
			n.SharedWith = append(n.SharedWith, x.Name)
		}
	}
	how := pl.standingOf(group)
	var list []circuits.Circuit
	for _, x := range group {
		member := *c
		if x.Name != c.Name {
			member = pl.built(x)
			member.Settle(pl.set, pl.p, nil)
		}
		list = append(list, member)
	}
	n.Counted, n.Why = counts(how, pl.mostlyElectronic(list))
	if how != alone {
		n.Amps = units.Is(pl.sharedCurrent(how, list, w))
	}
	return n
}

func counts(how standing, electronic bool) (bool, string) {
	switch how {
	case alone:
		return true, "one leg and neutral: it carries all that the leg does"
	case opposite:
		return false, "legs in opposition: it carries their difference only"
	case twoOfThree:
		return true, "two legs of a wye: it carries about the current of one"
	case stacked:
		return true, "the circuits that share it are not known to stand on different legs: it carries their sum"
	}
	if electronic {
		return true, "three legs of a wye, and most of the load to neutral is electronic: harmonics add up in it"
	}
	return false, "three legs of a wye, and most of the load to neutral is linear: it carries what is out of balance only"
}

// mostlyElectronic reports whether electronic supplies are the larger part of
// the volt-amperes of some circuits.
func (pl *planner) mostlyElectronic(list []circuits.Circuit) bool {
	var every, electronic units.Apparent
	for _, c := range list {
		for _, cl := range c.Loads {
			s := units.Times(cl.Draw.VA, float64(cl.Count))
			every += s
			if l, _ := pl.set.Named(cl.Item); l.NonLinear {
				electronic += s
			}
		}
	}
	return units.Exceeds(electronic, units.Times(every, 0.5))
}

// sharedCurrent is the most that a shared neutral carries, each circuit in its
// worst state, and records it. H is the third harmonic of electronic loads,
// which adds up on a wye and cancels on legs in opposition.
func (pl *planner) sharedCurrent(how standing, list []circuits.Circuit, w *steps.Work) units.Current {
	var in []steps.Input
	var amps [3]float64
	most, sum, electronic := 0.0, 0.0, 0.0
	for i, c := range list {
		x := float64(c.Load)
		in = append(in, steps.In(c.Name, x, "A"))
		most, sum = math.Max(most, x), sum+x
		if i < len(amps) {
			amps[i] = x
		}
		if pl.mostlyElectronic(list[i : i+1]) {
			electronic += x
		}
	}
	const name = "current of the shared neutral"
	switch how {
	case stacked:
		w.Add(steps.Result(name, "Σ I", sum, "A", steps.Cite{}, in...))
		return units.Current(sum)
	case opposite:
		w.Add(steps.Result(name+", one circuit off", "max(A, B)", most, "A", steps.Cite{}, steps.In("A", amps[0], "A"), steps.In("B", amps[1], "A")))
		return units.Current(most)
	}
	h := thirdHarmonic * electronic
	w.Add(steps.Result("third harmonic of electronic loads on the shared neutral", "h · In", h, "A", steps.CommonPractice,
		steps.In("h", thirdHarmonic, ""), steps.In("In", electronic, "A")))
	a, b, c := amps[0], amps[1], amps[2]
	i := math.Max(most, math.Sqrt(math.Max(0, a*a+b*b+c*c-a*b-b*c-c*a+h*h)))
	w.Add(steps.Result(name, "max(A, B, C, √(max(0, A · A + B · B + C · C − A · B − B · C − C · A + H · H)))", i, "A", steps.Cite{},
		steps.In("A", a, "A"), steps.In("B", b, "A"), steps.In("C", c, "A"), steps.In("H", h, "A")))
	return units.Current(i)
}

// inRaceway is the circuits of a neutral and how many such groups lie in one
// raceway: circuits that share a neutral lie together.
func (pl *planner) inRaceway(n circuits.Neutral) (legs, groups int) {
	per := max(1, pl.inv.Site.Conductors.PerRaceway.Or(1))
	size := 1 + len(n.SharedWith)
	return size, (per + size - 1) / size
}

// carryingOf is the conductors that carry current in the raceway of a circuit,
// with its neutral where that counts, and without it.
func (pl *planner) carryingOf(s inventory.Supply, n circuits.Neutral) (with, without int) {
	size, groups := pl.inRaceway(n)
	without = s.Poles * size * groups
	with = without
	if n.Counted {
		with += groups
	}
	return with, without
}

// recordNeutral writes down whether a neutral counts.
func recordNeutral(n circuits.Neutral, carrying int, w *steps.Work) {
	if !n.Runs {
		return
	}
	says := "not counted"
	if n.Counted {
		says = "counted"
	}
	w.Add(steps.Choice("neutral among the conductors that carry current", says, n.Why, n.Cite, steps.In("n", float64(carrying), "")))
}
