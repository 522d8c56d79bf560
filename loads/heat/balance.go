package heat

import (
	"cmp"
	"slices"
	"sort"

	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Balance works the heat of every room of an inventory inv. set is its loads, from
// loads.Build: their running watts (level and duty applied) and hours.
//
// It never fails. What cannot be told is listed with the room it belongs to, and so is
// every value that was taken where the file is silent.
func Balance(inv *inventory.Inventory, set loads.Set) Result {
	var r Result
	for _, room := range inv.Rooms {
		r.Rooms = append(r.Rooms, newModel(inv, room, set).solve())
	}
	sort.SliceStable(r.Rooms, func(i, j int) bool { return units.NaturalLess(r.Rooms[i].Name, r.Rooms[j].Name) })
	for _, room := range r.Rooms {
		for _, a := range room.Assumptions {
			if !slices.ContainsFunc(r.Assumptions, func(b loads.Assumption) bool { return a.Subject == b.Subject }) {
				r.Assumptions = append(r.Assumptions, a)
			}
		}
	}
	sortAssumptions(r.Assumptions)
	known := map[string]bool{}
	for i := range r.Rooms {
		known[r.Rooms[i].Name] = true
	}
	for i := range set.Loads {
		if l := &set.Loads[i]; !known[l.Room] {
			r.Notes = append(r.Notes, l.Path+" stands in no room of this file; its heat is counted nowhere")
		}
	}
	r.Block, r.SummerRatio = block(r.Rooms), summerRatio(inv.Site)
	return r
}

func sortAssumptions(list []loads.Assumption) {
	sort.SliceStable(list, func(i, j int) bool { return units.NaturalLess(list[i].Subject, list[j].Subject) })
}

// block finds the worst hour of the building: the largest sum of the rooms in one
// hour of one design day.
func block(rooms []Room) Block {
	var b Block
	if len(rooms) == 0 {
		return b
	}
	first := true
	for d := range 2 { // summer, winter
		for h := range 24 {
			sum := units.Heat(0)
			whole := true
			for _, r := range rooms {
				day := r.Days()[d]
				whole = whole && day.Whole
				sum += day.Hours[h].Total()
			}
			// A day on which a room's walls are unknown does not compete with one
			// that is whole.
			if first || sum > b.Total && (whole || d == 0) {
				b.Day, b.At, b.Total, first = rooms[0].Days()[d].Name, h, sum, false
			}
		}
	}
	for _, r := range rooms {
		b.SumOfPeaks += r.Peak.Total()
		b.AtLeast = b.AtLeast || r.AtLeast
		b.Lacks, b.Sunless = b.Lacks || r.Lacks, b.Sunless || r.Sunless
	}
	return b
}

// solve works one room.
func (m *model) solve() Room {
	r := Room{Name: m.room.Name}
	r.Summer, r.Winter, r.Mean = m.day(Summer, asItIs()), m.day(Winter, asItIs()), m.day(Mean, asItIs())
	c := m.room.Climate
	r.HeldOn = m.on.state(c.LightsOn.Known() && c.HumidityOn.Known(), m.pressure)
	r.HeldOff = m.off.state(c.LightsOff.Known() && c.HumidityOff.Known(), m.pressure)
	m.tellWhatIsOutside()
	m.pick(&r)
	r.Water = m.toRemove()
	m.ventilation(&r)
	m.heatAndDry(&r)
	m.equip(&r)
	m.checkLight(&r)
	m.checkCeiling(r)
	sortAssumptions(m.assumed)
	slices.SortStableFunc(m.leftOut, func(a, b LeftOut) int {
		switch {
		case units.NaturalLess(a.Name, b.Name):
			return -1
		case units.NaturalLess(b.Name, a.Name):
			return 1
		}
		return cmp.Compare(a.Why, b.Why)
	})
	r.AtLeast, r.Lacks, r.Sunless, r.Missing, r.Notes = m.leastWhy() != "", m.atLeast, m.sunless, m.missing, m.notes
	r.LeftOut, r.Assumptions, r.Steps = m.leftOut, m.assumed, m.work.Steps()
	return r
}

// tellWhatIsOutside lists what the balance lacks about the air around.
func (m *model) tellWhatIsOutside() {
	walls := slices.ContainsFunc(m.surfaces, func(s surface) bool { return !s.ground })
	byAir := m.leak > 0 || m.room.Exhaust.Known()
	if m.room.Inside || !walls && !byAir {
		return
	}
	o := m.inv.Site.Outdoor
	stated := m.room.AirChanges.Known() || m.room.Exhaust.Known()
	const humid = "site.outdoor.summer_wet_bulb: not given, so that the water that outside air brings cannot be told"
	switch {
	case !o.Summer.Known():
		m.miss("site.outdoor.summer: not given, so that the heat that comes in from outside cannot be told")
	case byAir && !o.SummerWetBulb.Known() && stated:
		m.miss(humid)
	case byAir && !o.SummerWetBulb.Known():
		m.note(humid)
	}
	if !o.Winter.Known() {
		// It bears on heating only: totals for cooling are no less whole without it.
		m.missing = appendOnce(m.missing, "site.outdoor.winter: not given, so that the heat lost in winter cannot be told")
	}
}
