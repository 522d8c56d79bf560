package assign

import (
	"strings"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// hosts returns the panels that can feed a load and supply a voltage that it
// accepts, the preferred first.
func (pl *planner) hosts(l loads.Load) []inventory.Panel {
	var out []inventory.Panel
	for _, name := range l.Panels {
		if x, ok := pl.panel(name); ok && len(pl.supplies(x, l)) > 0 {
			out = append(out, x)
		}
	}
	return out
}

func names(list []inventory.Panel) string {
	parts := make([]string, len(list))
	for i, x := range list {
		parts[i] = x.Name
	}
	return strings.Join(parts, " ")
}

// unserved lists units that no panel can serve, with the reason.
func (pl *planner) unserved(l loads.Load, n int) {
	for _, name := range l.Panels {
		if x, ok := pl.panel(name); ok {
			reason, needs := noSupply(x, l)
			pl.unfed(l, n, reason, needs)
			return
		}
	}
	pl.unfed(l, n, "no panel in the file feeds it", "name the room's panel with `panel`")
}

// tally is what a panel's circuits take so far.
type tally struct {
	spaces int
	va     units.Apparent
}

// take makes a circuit part of the plan.
func (pl *planner) take(c circuits.Circuit) {
	pl.plan.Circuits = append(pl.plan.Circuits, c)
	t := pl.taken[c.Panel]
	t.spaces += c.Supply.Poles
	for _, cl := range c.Loads {
		t.va += units.Times(cl.Draw.VA, float64(cl.Count)*pl.factor(&cl))
	}
	pl.taken[c.Panel] = t
}

// hasRoom estimates whether a panel has spaces and amperes left for more. It
// serves the choice between panels only; the judge has the last word.
func (pl *planner) hasRoom(x inventory.Panel, spaces int, s units.Apparent) bool {
	t := pl.taken[x.Name]
	if have, ok := x.Spaces.Get(); ok && t.spaces+spaces+x.OtherSpaces.Or(0) > have {
		return false
	}
	main, ok := x.Main.Get()
	return !ok || !units.Exceeds(float64(t.va+s), float64(main)*float64(x.System.LineToNeutral)*float64(x.System.Legs))
}
