package document

import (
	"fmt"
	"strings"

	"branchwork/circuits"
)

// Directory is the circuit directory of a panel: odd spaces on the left, even
// ones on the right.
type Directory struct {
	Panel    string         `json:"panel"`
	Legs     []string       `json:"legs"`
	Rows     []DirectoryRow `json:"rows"`
	LegVA    []LegVA        `json:"leg_va" jsonschema_description:"connected, by leg, sub-panels included"`
	Vacant   *int           `json:"vacant" jsonschema:"nullable" jsonschema_description:"spaces without a breaker; null where the number of spaces is not known"`
	Beyond   int            `json:"beyond" jsonschema_description:"spaces drawn that the panel does not have"`
	Counted  bool           `json:"counted" jsonschema_description:"false where the number of spaces is not known"`
	Unlisted bool           `json:"unlisted" jsonschema_description:"a space without a breaker here may hold one that the file does not list"`
}

// DirectoryRow is two spaces on one leg.
type DirectoryRow struct {
	Leg   string `json:"leg"`
	Left  Slot   `json:"left"`
	Right Slot   `json:"right"`
}

// Slot is one space. A breaker of several poles shows at its first space; the
// others continue it.
type Slot struct {
	Space       int      `json:"space"`
	Circuit     string   `json:"circuit,omitempty"`
	Feeds       string   `json:"feeds,omitempty" jsonschema_description:"the panel whose feeder starts here"`
	Continues   bool     `json:"continues"`
	Description string   `json:"description,omitempty"`
	BreakerAmps *float64 `json:"breaker_amps" jsonschema:"nullable"`
	Poles       int      `json:"poles"`
	VA          *float64 `json:"va" jsonschema:"nullable" jsonschema_description:"connected on this space's leg; null where the current of a load is not known"`
}

// LegVA is a leg's volt-amperes.
type LegVA struct {
	Leg string   `json:"leg"`
	VA  *float64 `json:"va" jsonschema:"nullable" jsonschema_description:"null where the current of a load on it is not known"`
}

func directories(r Results) []Directory {
	out := []Directory{}
	for _, p := range r.Plan.Panels {
		out = append(out, directory(r, p))
	}
	return out
}

func directory(r Results, p circuits.Panel) Directory {
	d := Directory{Panel: p.Name, Legs: list(p.LegNames), Rows: []DirectoryRow{}, Counted: p.Spaces.Known(), Unlisted: p.Unlisted()}
	slots := map[int]Slot{}
	last := p.Spaces.Or(0)
	for _, c := range r.Plan.Circuits {
		if c.Panel != p.Name {
			continue
		}
		for i, n := range c.Spaces {
			slots[n] = Slot{Space: n, Circuit: c.Name, Continues: i > 0, BreakerAmps: known(c.Breaker), Poles: c.Supply.Poles, VA: share(connected(c), len(c.Spaces))}
			last = max(last, n)
		}
		if len(c.Spaces) > 0 {
			s := slots[c.Spaces[0]]
			s.Description = describe(r, c)
			slots[c.Spaces[0]] = s
		}
	}
	for _, x := range r.Plan.Panels {
		f := x.Feeder
		if f == nil || f.From != p.Name {
			continue
		}
		va := feederVA(r, x, p)
		for i, n := range f.Spaces {
			s := Slot{Space: n, Feeds: x.Name, Continues: i > 0, BreakerAmps: known(f.Breaker), Poles: f.Poles}
			if i < len(f.Legs) {
				s.VA = va[p.LegNames[f.Legs[i]]]
			}
			if i == 0 {
				s.Description = "feeder to panel " + x.Name
				if t := f.Transformer; t != nil {
					s.Description += ", through its transformer"
				}
			}
			slots[n] = s
			last = max(last, n)
		}
	}
	d.fill(p, slots, last)
	legs := legVA(r, p)
	for _, l := range p.LegNames {
		d.LegVA = append(d.LegVA, LegVA{l, legs[l]})
	}
	return d
}

// fill lays the spaces out two to a row; neighbours left and right share a leg.
func (d *Directory) fill(p circuits.Panel, slots map[int]Slot, last int) {
	spaces, counted := p.Spaces.Get()
	vacant := 0
	at := func(n int) Slot {
		s, ok := slots[n]
		if s.Space = n; !ok {
			s.VA = number(0.0)
		}
		switch {
		case !ok && n <= spaces:
			vacant++
		case ok && counted && n > spaces:
			d.Beyond++
		}
		return s
	}
	for n := 1; n <= last; n += 2 {
		d.Rows = append(d.Rows, DirectoryRow{Leg: p.LegNames[(n-1)/2%len(p.LegNames)], Left: at(n), Right: at(n + 1)})
	}
	if counted {
		d.Vacant = &vacant
	}
}

// connected is the apparent power of everything on a circuit.
func connected(c circuits.Circuit) *float64 {
	if unknownLoad(c) {
		return nil
	}
	var va float64
	for _, l := range c.Loads {
		va += float64(l.Draw.VA) * float64(l.Count)
	}
	return &va
}

// share is a figure in equal parts.
func share(x *float64, parts int) *float64 {
	if x == nil {
		return nil
	}
	return number(*x / float64(parts))
}

// legVA is a panel's connected apparent power by leg, a load between legs in
// equal parts on each.
func legVA(r Results, p circuits.Panel) map[string]*float64 {
	out := map[string]*float64{}
	for _, l := range p.LegNames {
		out[l] = number(0.0)
	}
	for _, c := range r.Plan.Circuits {
		if c.Panel == p.Name {
			for _, l := range c.Legs {
				out[p.LegNames[l]] = plus(out[p.LegNames[l]], share(connected(c), len(c.Legs)))
			}
		}
	}
	for _, x := range r.Plan.Panels {
		if x.Feeder != nil && x.Feeder.From == p.Name {
			for leg, va := range feederVA(r, x, p) {
				out[leg] = plus(out[leg], va)
			}
		}
	}
	return out
}

// feederVA is what a sub-panel puts on the legs of the panel that feeds it: leg
// by leg where they are of one system, in equal parts through a transformer.
func feederVA(r Results, x, from circuits.Panel) map[string]*float64 {
	inner := legVA(r, x)
	if x.Feeder.Transformer == nil {
		return inner
	}
	all := number(0.0)
	for _, leg := range x.LegNames { // in their order: a sum depends on it
		all = plus(all, inner[leg])
	}
	out := map[string]*float64{}
	for _, l := range x.Feeder.Legs {
		out[from.LegNames[l]] = share(all, len(x.Feeder.Legs))
	}
	return out
}

// describe says what a circuit serves, so that nobody takes it for another: what,
// how many, which of them, where.
func describe(r Results, c circuits.Circuit) string {
	var parts []string
	for _, l := range c.Loads {
		known, _ := r.Set.Named(l.Item)
		i, who := known.Item, l.Who()
		s := fmt.Sprintf("%d %s %s", l.Count, who, noun(i, l.Count))
		if strings.Contains(who, noun(i, 1)) || noun(i, 1) == otherNoun {
			s = fmt.Sprintf("%d %s", l.Count, who)
		}
		switch {
		case l.First > 0 && l.Count > 1:
			s += ", nos. " + UnitNumbers(l.First, l.Every, l.Count)
		case l.First > 0:
			s += fmt.Sprintf(", no. %d", l.First)
		}
		if l.Room != "" {
			s += ", " + l.Room
		}
		parts = append(parts, s)
	}
	if c.Controller != "" {
		parts = append(parts, "through controller "+c.Controller)
	}
	return strings.Join(parts, "; ")
}
