package day

import (
	"fmt"
	"slices"
	"sort"

	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// site is what the day is worked from.
type site struct {
	inv    *inventory.Inventory
	set    loads.Set
	heat   heat.Result
	draws  []*draw
	curves []*curve

	assumed []loads.Assumption
	notes   []string

	roomAt map[string]int // where in inv.Rooms
	levels map[string]*levels
}

// Of works 24 hours of an inventory. set is its loads.
func Of(inv *inventory.Inventory, set loads.Set) Day {
	s := newSite(inv, set)
	d := Day{Heat: s.heat}
	d.Site = group(inv.Site.Name, s.curves)
	d.Rooms = s.rooms()
	d.Categories = s.categories()
	d.Panels = s.panels()
	s.addHeat(&d)
	d.Missing = s.missing()
	d.Cost = s.cost(&d)
	s.tell(&d)
	sort.SliceStable(s.assumed, func(i, j int) bool { return units.NaturalLess(s.assumed[i].Subject, s.assumed[j].Subject) })
	d.Assumptions, d.Notes = s.assumed, s.notes
	for _, c := range s.curves { // quarter-hours are enough from here on
		c.minutes = nil
	}
	return d
}

// newSite finds what every load draws and when.
func newSite(inv *inventory.Inventory, set loads.Set) *site {
	return (&site{inv: inv, set: set, heat: heat.Balance(inv, set)}).work()
}

func (s *site) work() *site {
	s.roomAt, s.levels = map[string]int{}, map[string]*levels{}
	for i := range s.inv.Rooms {
		s.roomAt[s.inv.Rooms[i].Name] = i
	}
	for i := range s.set.Loads {
		d := s.newDraw(&s.set.Loads[i])
		s.draws = append(s.draws, &d)
	}
	for _, r := range s.heat.Rooms {
		in := s.drawsOf(r.Name)
		s.ask(r, in)
		s.tellAsked(r, in)
	}
	s.curves = curvesOf(s.draws)
	return s
}

func (s *site) drawsOf(room string) []*draw {
	var out []*draw
	for _, d := range s.draws {
		if d.load.Room == room {
			out = append(out, d)
		}
	}
	return out
}

// rooms returns the groups of the rooms that have loads.
func (s *site) rooms() []Group {
	var out []Group
	names, in := s.by(func(d *draw) string { return d.load.Room })
	for _, name := range names {
		out = append(out, group(name, in[name]))
	}
	return out
}

// by sorts the curves by some property of their loads, and lists what it can be: in
// natural order, none last.
func (s *site) by(of func(*draw) string) (names []string, in map[string][]*curve) {
	in = map[string][]*curve{}
	for _, c := range s.curves {
		n := of(c.draw)
		if in[n] == nil {
			names = append(names, n)
		}
		in[n] = append(in[n], c)
	}
	sort.Slice(names, func(i, j int) bool {
		if names[i] == "" || names[j] == "" {
			return names[j] == "" && names[i] != ""
		}
		return units.NaturalLess(names[i], names[j])
	})
	return names, in
}

func (s *site) categories() []Group {
	var out []Group
	_, in := s.by(func(d *draw) string { return string(d.load.Category) })
	for _, c := range []loads.Category{loads.Lighting, loads.AirMovement, loads.Control, loads.Water, loads.Climate, loads.Receptacles, loads.OtherLoads} {
		if list := in[string(c)]; list != nil {
			out = append(out, group(string(c), list))
		}
	}
	return out
}

// panelOf returns the panel that a load is counted on: the first that can feed it.
func panelOf(l *loads.Load) string {
	if len(l.Panels) == 0 {
		return ""
	}
	return l.Panels[0]
}

func (s *site) panels() []Panel {
	var out []Panel
	_, in := s.by(func(d *draw) string { return panelOf(d.load) })
	for _, p := range s.inv.Panels {
		own := group(p.Name, in[p.Name])
		all, below := own, s.below(p.Name)
		if len(below) > 1 {
			var list []*curve
			for _, c := range s.curves {
				if below[panelOf(c.draw.load)] {
					list = append(list, c)
				}
			}
			all = group(p.Name, list)
		}
		out = append(out, Panel{FedBy: p.FedBy, Own: own, All: all})
	}
	sort.SliceStable(out, func(i, j int) bool { return units.NaturalLess(out[i].All.Name, out[j].All.Name) })
	if list := in[""]; list != nil {
		g := group("", list)
		out = append(out, Panel{Own: g, All: g})
	}
	return out
}

// below returns a panel and all panels that it feeds, directly or not.
func (s *site) below(name string) map[string]bool {
	in := map[string]bool{name: true}
	for list := []string{name}; len(list) > 0; list = list[1:] {
		for _, p := range s.inv.Panels {
			if p.FedBy == list[0] && !in[p.Name] {
				in[p.Name] = true
				list = append(list, p.Name)
			}
		}
	}
	return in
}

// addHeat copies the heat of the mean day beside the power.
func (s *site) addHeat(d *Day) {
	for _, r := range s.heat.Rooms {
		for h := range 24 {
			q := r.Mean.Hours[h].Total()
			d.Site.Hours[h].Heat += q
			for i := range d.Rooms {
				if d.Rooms[i].Name == r.Name {
					d.Rooms[i].Hours[h].Heat = q
				}
			}
		}
	}
}

func (s *site) missing() []Missing {
	var out []Missing
	for _, d := range s.draws {
		if !d.known {
			why := d.load.Running.Why()
			if why == "" {
				why = "not given"
			}
			out = append(out, Missing{d.load.Path, d.load.Room, d.load.Count, why})
		}
	}
	return out
}

// tell notes what a reader has to know beside the figures.
func (s *site) tell(d *Day) {
	cycling := false
	for _, x := range s.draws {
		cycling = cycling || x.known && x.cycling()
	}
	if cycling {
		s.assume("tariff.coincidence", "all cycling loads on at once", "a month has some 2,900 quarter-hours, and the worst of them is billed", steps.CommonPractice)
	}
	s.assume("tariff.month", "365/12 days", "figures of a month are those of the mean month", steps.CommonPractice)
	for _, x := range s.draws {
		if e := s.heat; x.known && !x.load.Running.Known() {
			for _, a := range e.Assumptions {
				if a.Subject == x.load.Path+".power" {
					s.assume(a.Subject, a.Value, a.Why, a.Cite)
				}
			}
		}
	}
	for _, r := range s.heat.Rooms {
		if r.Equipment.CoolingPower > 0 {
			s.note("rooms.%s: no cooling is stated; equipment that removes its heat draws some %s more, which is in none of these figures", r.Name, r.Equipment.CoolingPower)
		}
	}
	for k := range s.inv.Items {
		i := &s.inv.Items[k]
		if i.Kind == inventory.Outlet && !i.Power.Known() && !i.Apparent.Known() && !i.Current.Known() && len(i.Currents) == 0 {
			s.note("%s: what is plugged in is not known; the load that the code counts is taken in all its hours, which is high for energy", i.Path())
		}
	}
	for _, p := range s.inv.Panels {
		if p.OtherLoad.PerLeg.Known() || p.OtherLoad.Total.Known() {
			s.note("panels.%s.other_load is demand that the file does not list item by item; it is in no figure of power, energy or cost", p.Name)
		}
	}
}

func (s *site) note(format string, a ...any) {
	if text := fmt.Sprintf(format, a...); !slices.Contains(s.notes, text) {
		s.notes = append(s.notes, text)
	}
}

// assume lists a value that the file does not give, once.
func (s *site) assume(subject, value, why string, cite steps.Cite) {
	for _, a := range s.assumed {
		if a.Subject == subject {
			return
		}
	}
	s.assumed = append(s.assumed, loads.Assumption{Subject: subject, Value: value, Why: why, Cite: cite})
}
