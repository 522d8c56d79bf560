package circuits

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// ChangeKind is what happens to a circuit between two plans.
type ChangeKind string

const (
	AddedCircuit   ChangeKind = "added"
	ChangedCircuit ChangeKind = "changed"
	FreedCircuit   ChangeKind = "freed"
)

// Change is one entry of the change order: a circuit or a feeder that is new,
// that is different, or whose spaces are freed.
type Change struct {
	Kind                 ChangeKind
	Circuit              string // of the new plan; of the old one where it is freed
	Panel                string
	Old, New             *Circuit // nil where there is none
	Feeder               string   // the sub-panel, where the entry is a feeder
	OldFeeder, NewFeeder *Feeder
	What                 []string // what is different, in words
	Off                  Outage
}

// Outage is what must be switched off to do the work.
type Outage struct {
	Panel    string   // the panel whose inside is worked on; empty where plugs are moved only
	At       string   // where it is switched off: "main of LP1", "feeder breaker in MDP"
	Circuits []string // circuits that go dark with it
}

// Difference returns the change order from one plan to another: circuits and
// feeders added, changed and freed, in the order of panels and spaces. Circuits
// are the same where panel and first space are. What does not concern the
// electrician (names, figures, findings) is left out. An equipment grounding
// conductor is named by what the trade calls it.
func Difference(before, after Plan, ground string) []Change {
	var out []Change
	old := byPlace(before)
	seen := map[place]bool{}
	for i := range after.Circuits {
		c := &after.Circuits[i]
		p := placeOf(*c)
		was := old[p]
		seen[p] = was != nil
		switch {
		case was == nil:
			out = append(out, Change{Kind: AddedCircuit, Circuit: c.Name, Panel: c.Panel, New: c})
		default:
			if what := differs(*was, *c, ground); len(what) > 0 {
				out = append(out, Change{Kind: ChangedCircuit, Circuit: c.Name, Panel: c.Panel, Old: was, New: c, What: what})
			}
		}
	}
	for i := range before.Circuits {
		if c := &before.Circuits[i]; !seen[placeOf(*c)] {
			out = append(out, Change{Kind: FreedCircuit, Circuit: c.Name, Panel: c.Panel, Old: c})
		}
	}
	out = append(out, feederChanges(before, after, ground)...)
	for i := range out {
		out[i].Off = outage(out[i], before, after)
	}
	slices.SortStableFunc(out, func(a, b Change) int {
		switch {
		case a.Panel != b.Panel && units.NaturalLess(a.Panel, b.Panel):
			return -1
		case a.Panel != b.Panel:
			return 1
		}
		return a.firstSpace() - b.firstSpace()
	})
	return out
}

type place struct {
	panel string
	space int
}

func placeOf(c Circuit) place {
	if len(c.Spaces) == 0 {
		return place{c.Panel, 0}
	}
	return place{c.Panel, c.Spaces[0]}
}

func byPlace(p Plan) map[place]*Circuit {
	out := map[place]*Circuit{}
	for i := range p.Circuits {
		out[placeOf(p.Circuits[i])] = &p.Circuits[i]
	}
	return out
}

func (c Change) firstSpace() int {
	for _, spaces := range [][]int{c.spaces(true), c.spaces(false)} {
		if len(spaces) > 0 {
			return spaces[0]
		}
	}
	return 0
}

func (c Change) spaces(after bool) []int {
	switch {
	case after && c.New != nil:
		return c.New.Spaces
	case !after && c.Old != nil:
		return c.Old.Spaces
	case after && c.NewFeeder != nil:
		return c.NewFeeder.Spaces
	case !after && c.OldFeeder != nil:
		return c.OldFeeder.Spaces
	}
	return nil
}

// differs lists in words what is different between two circuits at one place.
func differs(a, b Circuit, ground string) []string {
	var out []string
	say := func(what string, x, y any) {
		if sx, sy := fmt.Sprint(x), fmt.Sprint(y); sx != sy {
			out = append(out, fmt.Sprintf("%s: %s becomes %s", what, none(sx), none(sy)))
		}
	}
	say("spaces", spacesOf(a.Spaces), spacesOf(b.Spaces))
	say("breaker", a.Breaker.Or(0), b.Breaker.Or(0))
	say("voltage", a.Supply.Volts, b.Supply.Volts)
	say("conductor", a.Conductor.name(), b.Conductor.name())
	say(ground, a.Ground.name(), b.Ground.name())
	say("outlet", a.Receptacle, b.Receptacle)
	if ga, ok1 := a.GFCI.Get(); ok1 {
		if gb, ok2 := b.GFCI.Get(); ok2 && ga != gb {
			say("ground-fault protection", yesNo(ga), yesNo(gb))
		}
	}
	say("feeds", feeds(a), feeds(b))
	return out
}

// spacesOf writes spaces as a panel's directory does: 5,7.
func spacesOf(spaces []int) string {
	return strings.Trim(strings.ReplaceAll(fmt.Sprint(spaces), " ", ","), "[]")
}

func none(s string) string {
	if s == "" || s == "0 A" {
		return "none"
	}
	return s
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func (w Wire) name() string {
	if w.Size == "" {
		return ""
	}
	s := w.Size
	if w.Material != "" {
		s += " " + w.Material
	}
	if w.Insulation != "" {
		s += " " + w.Insulation
	}
	if w.Sets > 1 {
		s = fmt.Sprintf("%d × %s", w.Sets, s)
	}
	return s
}

// feeds lists what a circuit feeds; units of one each that count on by name are told
// together, however the file lists them.
func feeds(c Circuit) string {
	var singles []string
	type part struct{ name, text string }
	var parts []part
	for _, l := range c.Loads {
		switch names := l.Names(); {
		case names != nil:
			singles = append(singles, names...)
		case l.Count == 1:
			singles = append(singles, l.Item)
		default:
			parts = append(parts, part{l.Item, fmt.Sprintf("%d × %s", l.Count, l.Item)})
		}
	}
	sort.SliceStable(singles, func(i, j int) bool { return units.NaturalLess(singles[i], singles[j]) })
	for _, run := range inventory.Runs(singles) {
		if len(run) > 2 {
			parts = append(parts, part{run[0], fmt.Sprintf("%d × %s", len(run), inventory.Listing(run))})
			continue
		}
		for _, name := range run {
			parts = append(parts, part{name, "1 × " + name})
		}
	}
	sort.SliceStable(parts, func(i, j int) bool { return units.NaturalLess(parts[i].name, parts[j].name) })
	texts := make([]string, len(parts))
	for i, p := range parts {
		texts[i] = p.text
	}
	return strings.Join(texts, ", ")
}

// feederChanges compares the feeders of panels that both plans have, and lists
// those that only one has.
func feederChanges(before, after Plan, ground string) []Change {
	find := func(p Plan, name string) *Feeder {
		if x := p.panel(name); x != nil {
			return x.Feeder
		}
		return nil
	}
	var out []Change
	for _, x := range after.Panels {
		a, b := find(before, x.Name), x.Feeder
		switch {
		case b == nil:
		case a == nil:
			out = append(out, Change{Kind: AddedCircuit, Feeder: x.Name, Panel: b.From, NewFeeder: b})
		default:
			var what []string
			say := func(k string, p, q any) {
				if sp, sq := fmt.Sprint(p), fmt.Sprint(q); sp != sq {
					what = append(what, fmt.Sprintf("%s: %s becomes %s", k, none(sp), none(sq)))
				}
			}
			say("fed from", a.From, b.From)
			say("spaces", spacesOf(a.Spaces), spacesOf(b.Spaces))
			say("breaker", a.Breaker.Or(0), b.Breaker.Or(0))
			say("conductor", a.Conductor.name(), b.Conductor.name())
			say(ground, a.Ground.name(), b.Ground.name())
			if a.Transformer != nil && b.Transformer != nil {
				say("transformer", a.Transformer.Rating, b.Transformer.Rating)
			}
			if len(what) > 0 {
				out = append(out, Change{Kind: ChangedCircuit, Feeder: x.Name, Panel: b.From, OldFeeder: a, NewFeeder: b, What: what})
			}
		}
	}
	for _, x := range before.Panels {
		if x.Feeder != nil && find(after, x.Name) == nil {
			out = append(out, Change{Kind: FreedCircuit, Feeder: x.Name, Panel: x.Feeder.From, OldFeeder: x.Feeder})
		}
	}
	return out
}

// outage tells what must be dead for a change. Breakers and conductors are
// landed inside the panel, so the whole panel is: at its main, or at the feeder
// breaker of the panel that feeds it, or by the utility where a service panel
// has no main. Where only what is plugged in changes, the circuit's own breaker
// is enough.
func outage(c Change, before, after Plan) Outage {
	if c.Kind == ChangedCircuit && c.New != nil && c.New.Receptacle != "" && len(c.What) == 1 && feeds(*c.Old) != feeds(*c.New) {
		return Outage{At: "breaker of circuit " + c.Old.Name, Circuits: []string{c.Old.Name}}
	}
	o := Outage{Panel: c.Panel}
	for _, p := range []Plan{before, after} {
		for _, x := range p.Panels {
			if x.Name != c.Panel || o.At != "" {
				continue
			}
			switch {
			case x.Feeder != nil:
				o.At = fmt.Sprintf("feeder breaker of %s in %s", x.Name, x.Feeder.From)
			case x.Main.Known():
				o.At = "main of " + x.Name + "; its supply side stays live"
			default:
				o.At = "by the utility: no main is given for " + x.Name
			}
		}
	}
	dark := map[string]bool{c.Panel: true}
	for range before.Panels {
		for _, x := range before.Panels {
			if x.Feeder != nil && dark[x.Feeder.From] {
				dark[x.Name] = true
			}
		}
	}
	for _, k := range before.Circuits {
		if dark[k.Panel] {
			o.Circuits = append(o.Circuits, k.Name)
		}
	}
	return o
}
