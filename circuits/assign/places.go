package assign

import (
	"fmt"
	"math"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Fixtures stand in rows along the length of their room. They are numbered row
// by row, there and back, so that neighbours by number are neighbours in the
// room; each new circuit takes the next numbers. The order costs nothing: units
// of an item are alike, so any packing can be handed out to neighbours.

// grid is how the fixtures of a room stand.
type grid struct {
	perRow  int
	spacing units.Length // along a row
	pitch   units.Length // from row to row
}

// gridOf returns how fixtures stand in a room of known size; ok is false where
// the size or the spacing is not known, and every circuit is then taken to begin
// at the room's first outlet.
func gridOf(r inventory.Room, count int) (grid, bool) {
	long, ok1 := r.Length.Get()
	wide, ok2 := r.Width.Get()
	spacing, ok3 := r.Spacing.Get()
	if !ok1 || !ok2 || !ok3 || spacing <= 0 {
		return grid{}, false
	}
	long, wide = max(long, wide), min(long, wide)
	perRow := max(1, int(math.Floor(units.Per(long, spacing)+1e-9)))
	rows := (count + perRow - 1) / perRow
	return grid{perRow: perRow, spacing: spacing, pitch: units.Times(wide, 1/float64(max(1, rows)))}, true
}

// from returns how far unit n (from 0) stands from the first one, along the rows.
func (g grid) from(n int) units.Length {
	row, at := n/g.perRow, n%g.perRow
	if row%2 == 1 {
		at = g.perRow - 1 - at
	}
	return units.Times(g.spacing, float64(at)) + units.Times(g.pitch, float64(row))
}

// step is the distance between neighbours of a circuit that takes units first to
// last: that of a row, or the larger one to the next row where it crosses over.
func (g grid) step(first, last int) units.Length {
	if first/g.perRow != last/g.perRow {
		return max(g.spacing, g.pitch)
	}
	return g.spacing
}

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
		g, known := gridOf(r, l.Count)
		if cl.First == 0 || !known {
			continue
		}
		first, last := cl.First-1, cl.First-1+cl.Every*(cl.Count-1)
		begins := g.from(first)
		if !ok || begins < farther {
			farther = begins
		}
		step, ok = max(step, units.Times(g.step(first, last), float64(cl.Every))), true
		pl.assume("rooms."+r.Name+".rows", fmt.Sprintf("%d in a row, rows %s apart", g.perRow, g.pitch),
			"where fixtures stand is not given; they stand in rows along the room at its spacing, and each circuit takes neighbours", steps.CommonPractice)
	}
	return farther, step, ok
}
