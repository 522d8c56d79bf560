package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Air changes per hour taken where the file gives none. The first is common practice,
// no source; the second is a building modeller's figure for a tight house (bldg-sim
// 2004, seen).
const (
	closedRoom   = 0.1 // cooled by machine, planned as closed
	ordinaryRoom = 0.5
)

// defaultAirChanges returns the air changes taken where none are given. A room under
// its own exhaust draws its air in through that. Where the air outside is not
// described nothing is taken.
func (m *model) defaultAirChanges() units.Known[float64] {
	described := m.room.Inside || m.inv.Site.Outdoor.Summer.Known()
	switch {
	case m.room.AirChanges.Known():
		return m.room.AirChanges
	case m.room.Exhaust.Known():
		return units.Unknown[float64]("the exhaust draws the air in")
	case !described || !wallArea(m.room).Known():
		return units.Unknown[float64]("not given, and the air outside or the room's size is not described")
	case m.cooled():
		return units.Is(closedRoom)
	}
	return units.Is(ordinaryRoom)
}

// cooled reports whether cooling equipment serves the room.
func (m *model) cooled() bool {
	for _, l := range m.loads {
		if sourceOf(l) == CoolingFans || l.Item.Kind == inventory.Chiller {
			return true
		}
	}
	return false
}

// setLeak finds the flow of air that leaks in.
func (m *model) setLeak() {
	n, ok := m.defaultAirChanges().Get()
	if !ok {
		if !m.room.Exhaust.Known() {
			m.note("air leaking in is left out: air_changes and the air outside are not given")
		}
		return
	}
	length, ok1 := m.room.Length.Get()
	width, ok2 := m.room.Width.Get()
	height, ok3 := m.room.Height.Get()
	if !ok1 || !ok2 || !ok3 {
		m.miss("rooms.%s.size: not given, so that %s air changes per hour cannot be turned into a flow", m.room.Name, units.Round(n, 2))
		return
	}
	if !m.room.AirChanges.Known() {
		m.assume("air_changes", units.Round(n, 2)+" per hour", "not given; 0.1 for a closed, cooled room and 0.5 for an ordinary one", seen("bldg-sim-ach", ""))
	}
	m.leak = AirChange(n, length, width, height)
	m.work.Add(steps.Result("air leaking in", "n · l · w · h / 60", m.leak, "CFM", seen("bayar-m101", ""), steps.In("n", n, "per hour"),
		steps.In("l", length, "ft"), steps.In("w", width, "ft"), steps.In("h", height, "ft")))
	if m.leak > 0 {
		m.assumeSurroundings()
	}
}

// carried returns what a flow of outside air brings into the room in an hour. The
// two halves may be unknown apart.
func (m *model) carried(name string, v units.Airflow, a around, lit float64, w *steps.Work) (sensible, latent units.Known[units.Heat]) {
	sensible = units.Unknown[units.Heat](a.temp.Why())
	latent = units.Unknown[units.Heat](a.ratio.Why())
	if t, ok := a.temp.Get(); ok {
		q := mix(lit, SensibleOfAir(v, rise(t, m.on.temp), m.against), SensibleOfAir(v, rise(t, m.off.temp), m.against))
		w.Add(steps.Result(name+", dry heat", "1.08 · (p/p₀) · V · (t outside − t room)", q.BTUPerHour(), "BTU/h", flowCite(),
			steps.In("p/p₀", m.against, ""), steps.In("V", v, "CFM"), steps.In("t outside", t.Fahrenheit(), "°F"),
			steps.In("t room", m.setPoint(lit).Fahrenheit(), "°F")))
		sensible = units.Is(q)
	}
	if x, ok := a.ratio.Get(); ok {
		q := mix(lit, LatentOfAir(v, x-m.on.ratio, m.against), LatentOfAir(v, x-m.off.ratio, m.against))
		w.Add(steps.Result(name+", water vapour", "4840 · (p/p₀) · V · (W outside − W room)", q.BTUPerHour(), "BTU/h", flowCite(),
			steps.In("p/p₀", m.against, ""), steps.In("V", v, "CFM"), steps.In("W outside", x, "lb/lb"),
			steps.In("W room", m.humidity(lit), "lb/lb")))
		latent = units.Is(q)
	}
	return sensible, latent
}

// humidity returns the mean humidity ratio held in an hour.
func (m *model) humidity(lit float64) air.HumidityRatio {
	return units.Times(m.on.ratio, lit) + units.Times(m.off.ratio, 1-lit)
}
