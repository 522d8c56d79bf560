package assign

import (
	"sort"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// cell is loads that may share circuits: one panel, one room, one group of
// categories, one controller. A circuit that serves one room can be switched off
// without darkening another, and its home run has one length.
type cell struct {
	key   cellKey
	host  inventory.Panel   // the panel chosen
	hosts []inventory.Panel // those that can feed it, the preferred first
	loads []loads.Load
}

type cellKey struct {
	panel, room, group, controller string
}

// Groups of categories that stay apart where the file does not say which.
// Common practice, no source: lighting; air movement and controls, which must
// keep running when a light trips; wet equipment; heat and cooling; outlets.
var defaultGroups = map[loads.Category]string{
	loads.Lighting:    "1 lighting",
	loads.AirMovement: "2 air movement and controls",
	loads.Control:     "2 air movement and controls",
	loads.Water:       "3 water",
	loads.Climate:     "4 climate",
	loads.Receptacles: "5 outlets",
	loads.OtherLoads:  "6 other",
}

// sharedGroup is what [plan].separate does not name.
const sharedGroup = "9 shared"

// groupOf returns the group a category belongs to: what [plan].separate names
// stays apart from everything else, the rest may share.
func (pl *planner) groupOf(c loads.Category) string {
	if pl.inv.Plan.Separate == nil {
		return defaultGroups[c]
	}
	for _, name := range pl.inv.Plan.Separate {
		if name == string(c) {
			return defaultGroups[c][:2] + name
		}
	}
	return sharedGroup
}

// cells returns what is left to place, grouped, in a fixed order. Loads that
// several panels can feed are one cell for all of them; the panel is chosen when
// the cell is packed.
func (pl *planner) cells() []cell {
	byKey := map[cellKey]*cell{}
	for _, l := range pl.set.Loads {
		n := pl.left[l.Name]
		if n == 0 {
			continue
		}
		hosts := pl.hosts(l)
		if len(hosts) == 0 {
			pl.unserved(l, n)
			continue
		}
		k := pl.keyOf(hosts, l)
		if byKey[k] == nil {
			byKey[k] = &cell{key: k, host: hosts[0], hosts: hosts}
		}
		byKey[k].loads = append(byKey[k].loads, l)
	}
	out := make([]cell, 0, len(byKey))
	for _, c := range byKey {
		out = append(out, *c)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].key.before(out[j].key) })
	return out
}

func (pl *planner) keyOf(hosts []inventory.Panel, l loads.Load) cellKey {
	return cellKey{names(hosts), l.Room, pl.groupOf(l.Category), l.Item.Controller}
}

// fastened reports whether a load is equipment fastened in place, luminaires not
// counted: beside anything else it may take only a share of a circuit.
func fastened(l loads.Load) bool { return !l.Corded && l.Category != loads.Lighting }

// mixed reports whether a cell holds both.
func (c cell) mixed() bool {
	fixed := 0
	for _, l := range c.loads {
		if fastened(l) {
			fixed++
		}
	}
	return fixed > 0 && fixed < len(c.loads)
}

func (a cellKey) before(b cellKey) bool {
	for _, p := range [][2]string{{a.panel, b.panel}, {a.room, b.room}, {a.group, b.group}, {a.controller, b.controller}} {
		if p[0] != p[1] {
			return units.NaturalLess(p[0], p[1])
		}
	}
	return false
}

// ratings are the breaker ratings that circuits of a cell may have: those the
// user allows or will buy; otherwise the planned rating, a smaller one where a
// maker's limit asks for it, and larger ones for luminaires whose maker allows
// them outside a dwelling.
func (pl *planner) ratings(c cell) []units.Current {
	want := pl.inv.Plan.Breakers
	if len(want) == 0 {
		want = c.host.Breakers
	}
	b := pl.p.Branch
	if len(want) == 0 {
		want = []units.Current{b.Default}
		for _, l := range c.loads {
			most, ok := l.Item.MaxBreaker.Get()
			switch {
			case pl.dwellingLuminaire(l) && b.Default > b.DwellingLighting:
				want = append(want, b.DwellingLighting)
			case ok && most < b.Default:
				want = append(want, b.Ratings...)
			case ok && most > b.Default && l.Category == loads.Lighting && pl.inv.Site.Use != inventory.Dwelling:
				want = append(want, b.Ratings...)
			}
		}
	}
	var out []units.Current
	for _, r := range b.Ratings {
		for _, w := range want {
			if w == r && r >= b.Least {
				out = append(out, r)
				break
			}
		}
	}
	return out
}

// dwellingLuminaire reports whether a load is a luminaire wired in place in a
// dwelling, where the code has a limit of its own for it.
func (pl *planner) dwellingLuminaire(l loads.Load) bool {
	return pl.p.Branch.DwellingLighting > 0 && pl.inv.Site.Use == inventory.Dwelling && l.Category == loads.Lighting && !l.Corded
}

// mayShare reports whether a unit may hang on a shared circuit of a rating.
func (pl *planner) mayShare(l loads.Load, s inventory.Supply, r units.Current) bool {
	d, ok := l.At(s)
	most, limited := pl.maxBreaker(l, d)
	switch {
	case !ok || limited && units.Exceeds(r, most):
		return false
	case pl.dwellingLuminaire(l) && r > pl.p.Branch.DwellingLighting:
		return false
	case l.Category == loads.Lighting && r > pl.p.Branch.LightingUpTo && (!limited || pl.inv.Site.Use == inventory.Dwelling):
		return false
	case l.Corded && units.Exceeds(d.Amps, units.Times(r, float64(pl.p.Branch.OnePlug))):
		return false
	case l.Corded && l.Plug == "":
		_, ok := pl.p.ReceptacleFor(r, s.Volts, s.Phases, s.Neutral)
		return ok
	}
	return true
}

// tooLarge reports whether no shared circuit can hold one unit.
func (pl *planner) tooLarge(l loads.Load) bool {
	hosts := pl.hosts(l)
	for _, host := range hosts {
		for _, s := range pl.supplies(host, l) {
			for _, r := range pl.ratings(cell{host: host, loads: []loads.Load{l}}) {
				if pl.mayShare(l, s, r) && pl.weight(l, s) <= pl.capacity(r) {
					return false
				}
			}
		}
	}
	return len(hosts) > 0
}

// fits reports whether a circuit that exists may take loads of a cell: it
// serves the room and nothing of another group or controller, and its conductor
// is known.
func (pl *planner) fits(c circuits.Circuit, k cell) bool {
	if c.Panel != k.host.Name || c.Controller != k.key.controller || c.Conductor.Size == "" || len(c.Loads) == 0 {
		return false
	}
	for _, cl := range c.Loads {
		l, _ := pl.set.Named(cl.Item)
		if cl.Room != k.key.room || pl.groupOf(cl.Category) != k.key.group || l.Alone || cl.Draw.MinCircuit.Known() {
			return false
		}
	}
	return true
}
