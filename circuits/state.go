package circuits

import (
	"math"
	"strings"

	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Carried is what a circuit carries per pole in one state of the day.
type Carried struct {
	State      loads.State
	Continuous units.Current // counted with the allowance for continuous load
	Other      units.Current // counted as it is
	Marked     units.Current // asked for by nameplates, which hold the allowance already
	Load       units.Current // what flows
	Required   units.Current // least rating of the overcurrent device
}

// Carry returns what a circuit carries in each state of the day. A changeover
// counts what only overlaps without the allowance, because it lasts minutes; but
// for space heating where the code asks for the allowance at all times.
//
// Of loads that are interlocked only the member with the most current is
// counted.
func Carry(c Circuit, set loads.Set, p *codes.Profile) []Carried {
	list := make([]loads.Load, len(c.Loads))
	for i, l := range c.Loads {
		list[i], _ = set.Named(l.Item)
	}
	var out []Carried
	for _, s := range loads.States(list) {
		k := Carried{State: s}
		dropped := interlocked(c.Loads, list, s)
		for i, l := range c.Loads {
			if !s.On[i] || dropped[i] {
				continue
			}
			k.add(l, l.ContinuousIn(s, i))
		}
		k.Required = p.Continuous.Required(k.Continuous, k.Other, c.FullRated) + k.Marked
		out = append(out, k)
	}
	return out
}

// ContinuousIn reports whether the load, the i-th of its circuit, counts as
// continuous in a state of the day.
func (l Load) ContinuousIn(s loads.State, i int) bool {
	return l.Continuous && (l.Always || !s.Changeover || !s.Brief[i])
}

func (k *Carried) add(l Load, continuous bool) {
	i := l.Amps()
	k.Load += i
	if mca, ok := l.Draw.MinCircuit.Get(); ok {
		k.Marked += units.Times(mca, float64(l.Count))
		return
	}
	if continuous {
		k.Continuous += i
	} else {
		k.Other += i
	}
}

// interlocked marks the loads of a state that an interlock keeps off: all but
// the member of each group with the most current.
func interlocked(carried []Load, list []loads.Load, s loads.State) []bool {
	amps := map[string]map[string]units.Current{}
	for i, l := range list {
		if s.On[i] && l.Interlock != "" {
			if amps[l.Interlock] == nil {
				amps[l.Interlock] = map[string]units.Current{}
			}
			amps[l.Interlock][l.Member] += carried[i].Amps()
		}
	}
	off := make([]bool, len(list))
	for i, l := range list {
		if !s.On[i] || l.Interlock == "" {
			continue
		}
		group := amps[l.Interlock]
		for member, a := range group {
			if member != l.Member && (a > group[l.Member] || a == group[l.Member] && member < l.Member) {
				off[i] = true
			}
		}
	}
	return off
}

// Worst returns the state that asks for the largest rating; of two that ask for
// the same, the earlier one.
func Worst(list []Carried) Carried {
	var worst Carried
	for i, k := range list {
		if i == 0 || units.Exceeds(k.Required, worst.Required) {
			worst = k
		}
	}
	return worst
}

// stays says of a changeover what counts as continuous in it.
func (c Circuit) stays(s loads.State) string {
	if !s.Changeover {
		return ""
	}
	var names []string
	also := ""
	for i, l := range c.Loads {
		if s.On[i] && l.ContinuousIn(s, i) {
			names = append(names, l.Who())
			if s.Brief[i] {
				also = ", and fixed space heating at all times"
			}
		}
	}
	says := "at a changeover only what is on before and after it is continuous" + also + ": "
	if len(names) == 0 {
		return says + "nothing"
	}
	return says + strings.Join(names, ", ")
}

// Settle computes what the circuit carries in its worst state and records the
// working. Breaker and loads must be set.
func (c *Circuit) Settle(set loads.Set, p *codes.Profile, w *steps.Work) {
	worst := Worst(Carry(*c, set, p))
	c.State, c.Load, c.Required = worst.State.Name, worst.Load, worst.Required
	c.Continuous = worst.Continuous
	excess := c.compare(set, p)
	for _, l := range c.Loads {
		for _, s := range l.Draw.Steps {
			s.Name = l.Item + ": " + s.Name
			w.Add(s)
		}
		w.Add(steps.Choice(l.Item+": continuous or not", l.counted(), l.Why, l.Cite))
		w.Add(steps.Result(l.Item+": current of its units", "n · I", l.Amps(), "A", steps.Cite{},
			steps.In("n", float64(l.Count), ""), steps.In("I", l.Draw.Amps, "A")))
	}
	sum := steps.Result("current in the worst state of the day, "+worst.State.Name, "Ic + In + Im", worst.Load, "A", steps.Cite{},
		steps.In("Ic", worst.Continuous, "A"), steps.In("In", worst.Other, "A"), steps.In("Im", worst.Load-worst.Continuous-worst.Other, "A"))
	sum.Note = c.stays(worst.State)
	w.Add(sum)
	factor, cite := p.Continuous.Factor(), c.leastCite(p)
	if c.FullRated {
		factor = 1
	}
	w.Add(steps.Result("least rating of the overcurrent device", "k · Ic + In + MCA", worst.Required, "A", cite,
		steps.In("k", factor, ""), steps.In("Ic", worst.Continuous, "A"), steps.In("In", worst.Other, "A"), steps.In("MCA", worst.Marked, "A")))
	c.recordDevice(p, w)
	if m, ok := c.Measured.Get(); ok {
		predicted := c.Predicted.Or(0)
		w.Add(steps.Result("measured above what its loads explain", "max(0, measured − predicted)", excess, "A", steps.CommonPractice,
			steps.In("measured", m, "A"), steps.In("predicted", predicted, "A")))
	}
	if excess > 0 {
		c.Load += excess
		c.Continuous += excess
		c.Required += units.Times(excess, factor)
		w.Add(steps.Result("least rating with the current that was measured", "required + k · excess", c.Required, "A", cite,
			steps.In("required", worst.Required, "A"), steps.In("k", factor, ""), steps.In("excess", excess, "A")))
	}
	c.Free = 0
	_, lacks := c.Undrawn() // then nothing is promised, nor of a motor's or marked equipment's own circuit
	if b, ok := c.Breaker.Get(); ok && !lacks && c.Governed() == ByLoad {
		c.Free = max(0, units.Times(b-c.Required, 1/factor))
		w.Add(steps.Result("continuous load that the breaker still allows", "max(0, (breaker − required) / k)", c.Free, "A", cite,
			steps.In("breaker", b, "A"), steps.In("required", c.Required, "A"), steps.In("k", factor, "")))
	}
}

// compare finds what the circuit's loads explain in the state in which it was
// measured, and returns how much more was measured. Where no state of the
// circuit is called that (it has no lights, or none that go off), it may have
// been any, and the least of them is compared. What a meter shows and no load
// explains is there all the same; it counts as continuous, because nobody knows
// when it stops.
func (c *Circuit) compare(set loads.Set, p *codes.Profile) units.Current {
	if !c.Measured.Known() {
		return 0
	}
	named, least := math.Inf(1), math.Inf(1)
	for _, k := range Carry(*c, set, p) {
		if k.State.Changeover {
			continue
		}
		least = math.Min(least, float64(k.Load))
		if c.holdsIn(k.State, set) {
			named = math.Min(named, float64(k.Load))
		}
	}
	if math.IsInf(named, 1) {
		named = least
	}
	c.Predicted = units.Is(units.Current(named))
	return c.Excess()
}

// Excess is the current that was measured on a circuit and no load explains.
func (c *Circuit) Excess() units.Current {
	m, ok := c.Measured.Get()
	p, known := c.Predicted.Get()
	if !ok || !known {
		return 0
	}
	return max(0, m-p)
}

// holdsIn reports whether a state of the day is the one the meter was read in: a
// state whose name begins with what the file says, or the one at a time of day.
// Where the file says nothing it may have been any, and the least of them is
// compared.
func (c *Circuit) holdsIn(s loads.State, set loads.Set) bool {
	if c.MeasuredIn == "" || strings.HasPrefix(s.Name, c.MeasuredIn) {
		return true
	}
	m, err := clock.ParseMinute(c.MeasuredIn)
	if err != nil {
		return false
	}
	for i, l := range c.Loads {
		if load, ok := set.Named(l.Item); ok && load.OnAt(m) != s.On[i] {
			return false
		}
	}
	return true
}
