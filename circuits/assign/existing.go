package assign

import (
	"sort"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// readExisting takes the circuits of the file as facts.
func (pl *planner) readExisting() {
	for _, x := range pl.inv.Circuits {
		if _, ok := pl.panel(x.Panel); !ok {
			continue
		}
		c := pl.built(x)
		for _, cl := range c.Loads {
			pl.left[cl.Item] -= cl.Count
		}
		pl.describe(&c)
		pl.take(c)
	}
}

// built is a circuit of the file with what it feeds.
func (pl *planner) built(x inventory.Circuit) circuits.Circuit {
	host, _ := pl.panel(x.Panel)
	c := circuits.Circuit{Name: x.Name, Panel: x.Panel, Spaces: append([]int{}, x.Spaces...), Existing: true,
		Supply: supplyOf(host.System, x), Breaker: units.Is(x.Breaker), FullRated: x.FullRated,
		Receptacle: x.Receptacle.Or(""), GFCI: x.GFCI, Measured: x.Measured, MeasuredIn: x.State.Or(""), Length: x.Length}
	sort.Ints(c.Spaces)
	c.Legs = panel.LegsOf(host.System, c.Spaces)
	c.ToGround = host.System.ToGround(c.Supply)
	for _, f := range x.Feeds {
		if l, ok := pl.set.Named(f.Item); ok {
			c.Loads = append(c.Loads, pl.carries(l, f.Count, c.Supply))
		}
	}
	return c
}

// supplyOf finds how a circuit in the wall is supplied, from its spaces and,
// where the file states it, its voltage.
func supplyOf(sys inventory.System, x inventory.Circuit) inventory.Supply {
	var byPoles inventory.Supply
	for _, s := range sys.Supplies() {
		if s.Poles != len(x.Spaces) {
			continue
		}
		if v, ok := x.Voltage.Get(); ok && units.SameNominal(v, s.Volts) {
			return s
		}
		byPoles = s
	}
	return byPoles
}

// describe fills what follows from a circuit's loads: its rooms, category and
// how they are connected.
func (pl *planner) describe(c *circuits.Circuit) {
	rooms := map[string]bool{}
	corded, unitsOn, box := false, 0, pl.boxOn(c.Loads)
	c.Rooms, c.Controller, c.Category = nil, box, ""
	for _, cl := range c.Loads {
		l, _ := pl.set.Named(cl.Item)
		if cl.Room != "" && !rooms[cl.Room] {
			rooms[cl.Room] = true
			c.Rooms = append(c.Rooms, cl.Room)
		}
		if c.Category == "" && cl.Item != box {
			c.Category = cl.Category
		}
		if l.Item.Controller != "" {
			c.Controller = l.Item.Controller
		}
		corded = corded || l.Corded
		unitsOn += cl.Count
	}
	sort.Slice(c.Rooms, func(i, j int) bool { return units.NaturalLess(c.Rooms[i], c.Rooms[j]) })
	c.Wired = !corded && c.Receptacle == ""
	c.Individual = unitsOn == 1 || box != ""
	c.Protection = pl.protection(*c, corded)
	if !c.Existing {
		c.GFCI = units.Is(c.Protection.Needed)
		if c.Protection.Open != "" {
			c.GFCI = units.Unknown[bool](c.Protection.Open)
		}
		if corded && c.Receptacle == "" {
			c.Receptacle = pl.receptacle(*c)
		}
	}
}

// boxOn returns the controller through which a circuit feeds everything else that
// is on it, so that it has one outlet only; empty where there is none.
func (pl *planner) boxOn(list []circuits.Load) string {
	box := ""
	if len(list) < 2 {
		return box
	}
	for _, cl := range list {
		if l, _ := pl.set.Named(cl.Item); l.Item.Table == inventory.Controllers && l.Item.Feed.Known() && cl.Count == 1 {
			box = cl.Item
		}
	}
	for _, cl := range list {
		if l, _ := pl.set.Named(cl.Item); cl.Item != box && l.Item.Controller != box {
			return ""
		}
	}
	return box
}

// settle works a circuit's figures out anew.
func (pl *planner) settle(c *circuits.Circuit) {
	var w steps.Work
	c.Settle(pl.set, pl.p, &w)
	c.Steps = w.Steps()
}

// hasLighting reports whether a circuit feeds luminaires.
func hasLighting(c circuits.Circuit) bool {
	for _, l := range c.Loads {
		if l.Category == loads.Lighting {
			return true
		}
	}
	return false
}
