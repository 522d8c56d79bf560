package assign

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Fixtures stand in rows along the length of their room. They are numbered row
// by row, there and back, so that neighbours by number are neighbours in the
// room; each new circuit takes the next numbers. The order costs nothing: units
// of an item are alike, so any packing can be handed out to neighbours.

// number numbers the units of each fixture item over its circuits, existing ones
// first, in the order of the directory. Where the plan asks for alternate
// fixtures, two circuits of one item that follow each other share a stretch and
// take every other unit of it, so that half of it stays lit when one trips.
func (pl *planner) number() {
	next := map[string]int{}
	var open map[string]*circuits.Load // of the last new circuit, still to be paired
	for _, existing := range []bool{true, false} {
		open = map[string]*circuits.Load{}
		for i := range pl.plan.Circuits {
			c := &pl.plan.Circuits[i]
			if c.Existing != existing {
				continue
			}
			for k := range c.Loads {
				cl := &c.Loads[k]
				if l, _ := pl.set.Named(cl.Item); l.Item.Table != inventory.Fixtures {
					continue
				}
				mate := open[cl.Item]
				delete(open, cl.Item)
				if mate != nil && (mate.Count == cl.Count || mate.Count == cl.Count+1) {
					mate.Every, cl.Every = 2, 2
					cl.First = mate.First + 1
				} else {
					cl.First, cl.Every = next[cl.Item]+1, 1
					if pl.inv.Plan.Alternate && !existing {
						open[cl.Item] = cl
					}
				}
				next[cl.Item] += cl.Count
			}
		}
	}
}

// reach returns how much farther than the room's first outlet a circuit's own
// first outlet lies, and the distance between its outlets; ok is false where
// where it stands is not known.
func (pl *planner) reach(c *circuits.Circuit, r inventory.Room) (farther, step units.Length, ok bool) {
	for _, cl := range c.Loads {
		l, _ := pl.set.Named(cl.Item)
		g, known := circuits.GridOf(r, l.Count)
		if cl.First == 0 || !known {
			continue
		}
		first, last := cl.Unit(0)-1, cl.Unit(cl.Count-1)-1
		begins := g.From(first)
		if !ok || begins < farther {
			farther = begins
		}
		step, ok = max(step, units.Times(g.Step(first, last), float64(cl.Every))), true
		pl.assume("rooms."+r.Name+".rows", fmt.Sprintf("%d in a row, rows %s apart", g.PerRow, g.Pitch),
			"where fixtures stand is not given; they stand in rows along the room at its spacing, and each circuit takes neighbours", steps.CommonPractice)
	}
	return farther, step, ok
}
