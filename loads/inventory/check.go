package inventory

import (
	"fmt"

	"branchwork/loads/units"
)

// check is what can be said only when every table is read. It runs on what is
// readable: a value that was reported already is not known, and is not reported
// again.
func (r *reader) check() {
	r.uniqueItems()
	r.references()
	r.panels()
	r.feeders()
	r.takenSpaces()
	r.neutrals()
	r.outdoor()
	for i := range r.inv.Rooms {
		r.room(&r.inv.Rooms[i])
	}
	for i := range r.inv.Items {
		r.item(&r.inv.Items[i])
	}
	r.fedUnits()
	r.supplies()
	r.inAll()
}

// outdoor checks the outdoor design temperatures against each other.
func (r *reader) outdoor() {
	o, n := r.inv.Site.Outdoor, r.tree.root.down("site", "outdoor")
	dry, ok := o.Summer.Get()
	if !ok || n == nil {
		return
	}
	at := n.kid("summer").value
	if wet, ok := o.SummerWetBulb.Get(); ok && wet > dry {
		k := n.kid("summer_wet_bulb")
		r.report(k.value, k.path(), fmt.Sprintf("the wet bulb %s is above the dry bulb %s", r.shown(cell{k, nil}), r.shown(cell{n.kid("summer"), nil})),
			"a wet bulb is at most the dry bulb; they may be the wrong way round", at)
	}
	if cold, ok := o.Winter.Get(); ok && cold > dry {
		k := n.kid("winter")
		r.report(k.value, k.path(), fmt.Sprintf("the winter design %s is warmer than the summer design %s", r.shown(cell{k, nil}), r.shown(cell{n.kid("summer"), nil})),
			"they may be the wrong way round", at)
	}
}

// inAll refuses counts that add up to more than any site has, at the count that
// goes past it.
func (r *reader) inAll() {
	sum := 0
	for _, i := range r.inv.Items {
		if sum += i.Count; sum > maxCount {
			if k := r.tree.root.down(i.Table, i.Name, "count"); k != nil {
				r.report(k.value, k.path(), fmt.Sprintf("the counts of this file add up to more than %s", sepInt(maxCount)), "plan so large a site in parts, one file for each")
				return
			}
		}
	}
}

// panels checks that what describes a feeder has one, and that what it feeds is
// there: no transformer makes three phases of one.
func (r *reader) panels() {
	legs := map[string]int{}
	for _, p := range r.inv.Panels {
		legs[p.Name] = p.System.Legs
	}
	for _, p := range r.inv.Panels {
		n := r.tree.root.down("panels", p.Name)
		for _, name := range []string{"feeder", "transformer"} {
			if k := n.kid(name); k != nil && n.kid("fed_by") == nil {
				r.report(k.key, k.path(), fmt.Sprintf("%s without fed_by", name),
					`name the panel that feeds this one: fed_by = "MDP"`)
			}
		}
		if k := n.kid("fed_by"); k != nil && p.System.Legs == 3 && (legs[p.FedBy] == 1 || legs[p.FedBy] == 2) {
			r.report(k.value, k.path(), fmt.Sprintf("panel %s has three phases, and panel %s, which feeds it, has one", quote(p.Name), quote(p.FedBy)),
				"feed it from a three-phase panel, or look its system up again", n.kid("system").value)
		}
	}
}

func (r *reader) room(room *Room) {
	n := r.tree.root.down("rooms", room.Name)
	for _, name := range []string{"walls", "roof", "floor"} {
		if u := n.down(name, "u"); u != nil && n.down(name, "r") != nil {
			r.report(u.key, u.path(), fmt.Sprintf("both r and u of the %s", name), "u is 1 / r; keep one of them")
		}
	}
	for i, other := range room.Apart {
		if other == room.Name {
			k := n.kid("apart")
			if len(k.kids) > i {
				k = k.kids[i]
			}
			r.report(k.value, k.path(), fmt.Sprintf("room %s is apart from itself", quote(other)), "name other rooms")
		}
	}
}

// item checks the keys of one item against each other.
func (r *reader) item(i *Item) {
	n := r.tree.root.down(i.Table, i.Name)
	r.draw(i, n)
	r.labels(i, n)
	if p, b, k := i.Power.Or(0), i.Boost.Or(0), n.kid("boost"); k != nil && p > 0 && b > 0 && b < p {
		r.report(k.value, k.path(), fmt.Sprintf("the boosted power %s is below the power %s", b, p),
			"boost is the most it can be set to; leave it out where it cannot be raised")
	}
	if all, part, k := i.Cooling.Or(0), i.Sensible.Or(0), n.kid("sensible"); k != nil && all > 0 && units.Exceeds(part, all) {
		r.report(k.value, k.path(), fmt.Sprintf("sensible cooling %s is more than all cooling %s", part, all),
			"sensible is the part of cooling that lowers temperature")
	}
	if wired, k := n.kid("wired"), n.kid("plug"); wired != nil && k != nil {
		r.report(k.key, k.path(), "both plug and wired", "an item has a plug or is wired in; keep one of them")
	}
	if k := n.down("power"); k != nil && i.Motor.Known() && n.kid("hp") != nil && !i.Power.Known() && !i.Apparent.Known() {
		r.hpTwice(i, n)
	}
	if plate, ok := i.Nameplate.Get(); ok {
		r.nameplate(plate, n.kid("nameplate"))
	}
	if k, long := n.down("link", "units"), i.Link.Or(Link{}).Units.Or(0); k != nil && i.Count > 0 && long > i.Count {
		r.report(k.value, k.path(), fmt.Sprintf("a chain of %d where there are %d", long, i.Count),
			"write how many stand in the longest chain")
	}
}

// hpTwice reports a motor rating given by both power and hp.
func (r *reader) hpTwice(i *Item, n *node) {
	p := n.kid("power")
	raw := string(r.src[p.value.start:p.value.end])
	if len(raw) > 3 && raw[len(raw)-3:len(raw)-1] == "hp" {
		r.report(p.value, p.path(), "the motor's rating is given twice, by power and by hp", "keep hp; power is what it draws")
	}
}

func (r *reader) nameplate(plate Nameplate, n *node) {
	least, most := plate.MinCircuit.Or(0), plate.MaxBreaker.Or(0)
	switch {
	case len(n.kids) == 0:
		r.report(n.value, n.path(), "an empty nameplate", `write { min_circuit = "18 A", max_breaker = "30 A" }`)
	case least > 0 && most > 0 && units.Exceeds(least, most):
		k := n.kid("min_circuit")
		r.report(k.value, k.path(), fmt.Sprintf("the least circuit %s is above the largest breaker %s", least, most),
			"read the nameplate again; they may be the wrong way round")
	}
}

// draw checks that something says what an item draws.
func (r *reader) draw(i *Item, n *node) {
	sources := []string{"power", "current", "currents"}
	switch {
	case i.Table == Controllers, i.Kind == Outlet, i.Kind == CO2Burner:
		return
	case i.Table == Equipment && i.Kind == "": // reported
		return
	case i.Table == Fans:
		sources = append(sources, "hp")
	case i.Table == Equipment:
		sources = append(sources, "hp", "nameplate")
		if i.Kind == AirConditioner || i.Kind == Chiller {
			sources = append(sources, "cooling") // its power is then estimated, and said to be
		}
	}
	for _, s := range sources {
		if r.has(n, s) {
			return
		}
	}
	r.report(n.key, n.path(), fmt.Sprintf("%s has no power", n.path()),
		`add it, for example power = "640 W", or one of `+listed(sources[1:]))
}

// labels checks currents against the voltages they are given at.
func (r *reader) labels(i *Item, n *node) {
	v, known := i.Voltage.Get()
	if k := n.kid("current"); k != nil && i.Current.Known() {
		switch {
		case !r.has(n, "voltage"):
			r.report(k.key, k.path(), "current without the voltage that it is drawn at",
				`add voltage = "240 V", or write currents = { "240 V" = "2.7 A" }`)
		case known && (v.Low < v.High || len(v.List) != 1):
			at := n.kid("voltage")
			r.report(k.key, k.path(), fmt.Sprintf("current where voltage is %s", r.shown(cell{at, nil})),
				"a current holds at one voltage only\n"+`write currents = { "120 V" = "5.6 A", "277 V" = "2.5 A" }`, at.key)
		}
	}
	k := n.kid("currents")
	if k == nil || !known || len(i.Currents) == 0 {
		return
	}
	for _, entry := range k.kids {
		at, err := units.Parse[units.Voltage](entry.name)
		if err == nil && !v.Accepts(at) {
			r.report(entry.key, entry.path(), fmt.Sprintf("a current at %s, which voltage = %s does not take in", quote(entry.name), quote(v.String())),
				"widen voltage, or leave this current out", n.kid("voltage").key)
		}
	}
}
