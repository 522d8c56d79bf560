package assign

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// boxes plans the controllers that have a supply of their own (`feed`): one
// circuit of that rating feeds the box, and what it switches hangs on the box.
// A controller without one switches ordinary branch circuits; see cells.
func (pl *planner) boxes() {
	for _, box := range pl.set.Loads {
		feed, fed := box.Item.Feed.Get()
		if box.Item.Table != inventory.Controllers || !fed || pl.left[box.Name] == 0 {
			continue
		}
		switched := pl.switchedBy(box.Name)
		if len(switched) == 0 {
			continue // nothing named: it is a small load like any other
		}
		for range pl.left[box.Name] {
			pl.box(box, feed, switched)
		}
		for _, l := range switched {
			if n := pl.left[l.Name]; n > 0 {
				pl.unfed(l, n, fmt.Sprintf("controller %s has no room for it: its supply is %s", box.Name, feed),
					"a further controller, or fewer units on this one")
			}
		}
	}
}

func (pl *planner) switchedBy(name string) []loads.Load {
	var out []loads.Load
	for _, l := range pl.set.Loads {
		if l.Item.Controller == name && pl.left[l.Name] > 0 {
			out = append(out, l)
		}
	}
	return out
}

// box fills one box with whole units, within its supply, its number of outlets
// and the rating of one outlet.
func (pl *planner) box(box loads.Load, feed units.Current, switched []loads.Load) {
	hosts := pl.hosts(box)
	if len(hosts) == 0 {
		pl.unserved(box, 1)
		return
	}
	host := hosts[0]
	s, ok := pl.boxSupply(host, box, switched)
	if !ok {
		pl.unfed(box, 1, "no supply of panel "+host.Name+" suits both the controller and what it switches",
			"a controller for the voltage of what it switches")
		return
	}
	room := pl.capacity(feed) - pl.weight(box, s)
	if room < 0 {
		pl.unfed(box, 1, fmt.Sprintf("by itself it draws more than its supply of %s allows", feed), "its power and the rating of its supply, read again")
		return
	}
	c := circuits.Circuit{Panel: host.Name, Supply: s, ToGround: host.System.ToGround(s), Breaker: units.Is(feed)}
	c.Loads = []circuits.Load{pl.carries(box, 1, s)}
	pl.left[box.Name]--
	outlets := box.Item.Outlets.Or(1 << 30)
	for _, l := range switched {
		n := 0
		each := pl.weight(l, s)
		for pl.left[l.Name] > 0 && outlets > 0 && each <= room && pl.withinOutlet(box, l, s) {
			n++
			pl.left[l.Name]--
			outlets--
			room -= each
		}
		if n > 0 {
			c.Loads = append(c.Loads, pl.carries(l, n, s))
		}
	}
	pl.describe(&c)
	c.Controller, c.Individual = box.Name, true // also where it switches nothing
	pl.take(c)
	pl.spaceBound += int64(s.Poles)
	pl.circuitBound++
}

// boxSupply is a supply that the box and everything it switches accept.
func (pl *planner) boxSupply(host inventory.Panel, box loads.Load, switched []loads.Load) (inventory.Supply, bool) {
	for _, s := range pl.supplies(host, box) {
		all := true
		for _, l := range switched {
			_, ok := l.At(s)
			all = all && ok
		}
		if all {
			return s, true
		}
	}
	return inventory.Supply{}, false
}

func (pl *planner) withinOutlet(box, l loads.Load, s inventory.Supply) bool {
	rating, ok := box.Item.OutletRating.Get()
	if !ok {
		return true // the judge says that it cannot tell
	}
	d, _ := l.At(s)
	on, _, _ := pl.continuous(l, d)
	need := d.Amps
	if on {
		need = pl.p.Continuous.Required(d.Amps, 0, false)
	}
	return !units.Exceeds(need, rating)
}
