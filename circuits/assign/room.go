package assign

import (
	"slices"
	"strings"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/abreast"
	"branchwork/loads/inventory"
)

// Room is how many more units of an item a circuit would take, and what stops
// the next.
type Room struct {
	Circuit, Item string
	More          int
	Rule          string
	Reason        string
}

// mostAsked is how many units a circuit is asked for when its room is told.
const mostAsked = 999

// Rooms tells for every circuit of a site as built how many more of each item in
// the file would fit by the rules of the circuit; panels are not asked. Items
// that a circuit cannot serve at all are left out.
func Rooms(inv *inventory.Inventory, set loads.Set, p *codes.Profile, built circuits.Plan) []Room {
	items := make([]*inventory.Item, len(set.Loads))
	for i, l := range set.Loads {
		items[i] = l.Item
	}
	kinds := inventory.FirstAlike(items)
	out := make([][]Room, len(built.Circuits))
	abreast.Do(len(out), func(i int) { out[i] = (&adder{inv: inv, set: set, p: p, base: built}).roomOn(built.Circuits[i], kinds) }, func(int) {})
	return slices.Concat(out...)
}

// kindOn is equal for loads of which a circuit would take as many: alike items, of
// which the circuit feeds alike units, or none.
type kindOn struct {
	kind, count, first, every int
}

// roomOn tells how many more of each item a circuit would take. kinds tells which
// items are alike.
func (a *adder) roomOn(c circuits.Circuit, kinds []int) []Room {
	var out []Room
	var before *codes.Finding
	known := map[kindOn]Room{}
	for i, l := range a.set.Loads {
		a.load = l
		if a.unfit(c) != "" {
			continue
		}
		if out == nil {
			before = a.objection(c, l, 0) // whatever the load
		}
		k := kindOn{kind: kinds[i]}
		if at := slices.IndexFunc(c.Loads, func(cl circuits.Load) bool { return cl.Item == l.Name }); at >= 0 {
			cl := c.Loads[at]
			k.count, k.first, k.every = cl.Count, cl.First, cl.Every
		}
		r, same := known[k]
		if !same {
			n, stop := a.mostFrom(c, l, mostAsked, before)
			r = Room{More: n}
			if stop != nil {
				r.Rule, r.Reason = stop.Rule, stop.Message
			}
			if !strings.Contains(r.Reason, l.Name) { // it holds for all of the kind
				known[k] = r
			}
		}
		r.Circuit, r.Item = c.Name, l.Name
		out = append(out, r)
	}
	return out
}
