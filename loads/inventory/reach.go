package inventory

import (
	"fmt"
	"strings"

	"branchwork/loads/units"
)

// reach finds the panels that can feed an item.
type reach struct {
	all    []*Panel
	panels map[string]*Panel
	rooms  map[string]*Room
	fed    map[string][]string // panels of the circuits that feed an item
}

func newReach(inv *Inventory) reach {
	x := reach{nil, map[string]*Panel{}, map[string]*Room{}, map[string][]string{}}
	for i := range inv.Panels {
		x.all = append(x.all, &inv.Panels[i])
		x.panels[inv.Panels[i].Name] = &inv.Panels[i]
	}
	for i := range inv.Rooms {
		x.rooms[inv.Rooms[i].Name] = &inv.Rooms[i]
	}
	for _, c := range inv.Circuits {
		for _, f := range c.Feeds {
			x.fed[f.Item] = append(x.fed[f.Item], c.Panel)
		}
	}
	return x
}

// of returns the panels in reach of an item: its own, else those of its room,
// else every panel; and those of circuits that feed it already. It returns none
// where one of them is not in the file or has no system: that was reported.
func (x reach) of(i *Item) []*Panel {
	var names []string
	switch room := x.rooms[i.Room]; {
	case i.Panel != "":
		names = []string{i.Panel}
	case room != nil && len(room.Panels) > 0:
		names = room.Panels
	default:
		return whole(x.all)
	}
	var out []*Panel
	for _, name := range append(append([]string{}, names...), x.fed[i.Name]...) {
		out = append(out, x.panels[name])
	}
	return whole(out)
}

func whole(list []*Panel) []*Panel {
	for _, p := range list {
		if p == nil || p.System.Legs == 0 {
			return nil
		}
	}
	return list
}

// supplies checks that some panel in reach supplies each voltage asked for.
func (r *reader) supplies() {
	x := newReach(r.inv)
	for i := range r.inv.Items {
		r.itemSupply(x, &r.inv.Items[i])
	}
	for _, c := range r.inv.Circuits {
		v, ok := c.Voltage.Get()
		list := whole([]*Panel{x.panels[c.Panel]})
		if ok && len(list) > 0 && !supplied(list, single(v), 0) {
			k := r.tree.root.down("circuits", c.Name, "voltage")
			r.report(k.value, k.path(), fmt.Sprintf("panel %s does not supply %s", quote(c.Panel), quote(v.String())), "panels here: "+offers(list))
		}
	}
	v, ok := r.inv.Plan.Voltage.Get()
	if list := whole(x.all); ok && len(list) > 0 && !supplied(list, single(v), 0) {
		k := r.tree.root.down("plan", "voltage")
		r.report(k.value, k.path(), fmt.Sprintf("no panel supplies %s", quote(v.String())), "panels here: "+offers(list))
	}
}

func (r *reader) itemSupply(x reach, i *Item) {
	n := r.tree.root.down(i.Table, i.Name)
	volts, asked := i.Voltage.Get()
	at := n.kid("voltage")
	if at == nil && len(i.Currents) > 0 {
		for _, c := range i.Currents {
			volts.List = append(volts.List, c.Voltage)
		}
		asked, at = true, n.kid("currents")
	}
	phases, three := i.Phases.Or(0), i.Phases.Or(0) == 3
	if !asked && !three {
		return
	}
	list := x.of(i)
	switch {
	case len(list) == 0:
		return
	case !asked:
		k := n.kid("phases")
		for _, p := range list {
			if p.System.Legs == 3 {
				return
			}
		}
		r.report(k.value, k.path(), "no panel in reach has three phases", "panels in reach: "+offers(list))
	case !supplied(list, volts, phases):
		what := quote(volts.String())
		if three {
			what += " on three phases"
		}
		r.report(at.value, at.path(), "no panel in reach supplies "+what, "panels in reach: "+offers(list))
	}
}

func single(v units.Voltage) units.VoltageSet { return units.VoltageSet{List: []units.Voltage{v}} }

// supplied reports whether a panel supplies one of the voltages; phases 0 is
// any number of them.
func supplied(list []*Panel, set units.VoltageSet, phases int) bool {
	for _, p := range list {
		for _, s := range p.System.Supplies() {
			if set.Accepts(s.Volts) && (phases == 0 || phases == s.Phases) {
				return true
			}
		}
	}
	return false
}

// offers lists panels with what they supply.
func offers(list []*Panel) string {
	var out []string
	for i, p := range list {
		if i == 6 && len(list) > 7 {
			out = append(out, fmt.Sprintf("and %d more", len(list)-i))
			break
		}
		volts := []string{}
		for _, s := range p.System.Supplies() {
			if v := s.Volts.String(); len(volts) == 0 || volts[len(volts)-1] != v {
				volts = append(volts, v)
			}
		}
		out = append(out, fmt.Sprintf("%s (%s)", printable(p.Name), strings.Join(volts, ", ")))
	}
	return strings.Join(out, "; ")
}
