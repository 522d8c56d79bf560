package heat

import (
	"slices"

	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// surface is a wall, roof or floor with its area and transmittance.
type surface struct {
	name   string
	u      units.Transmittance
	area   units.Area
	ground bool // its far side is the ground
}

// setSurfaces finds the surfaces that the file describes. A surface with a U or R
// value and no area takes that of the room's size.
func (m *model) setSurfaces() {
	r := m.room
	for _, s := range []struct {
		name   string
		given  inventory.Surface
		area   units.Known[units.Area]
		ground bool
	}{
		{"walls", r.Walls, wallArea(r), false},
		{"roof", r.Roof, floorArea(r), false},
		{"floor", r.Floor, floorArea(r), true},
	} {
		m.setSurface(s.name, s.given, s.area, s.ground)
	}
	if len(m.surfaces) > 0 {
		m.assumeSurroundings()
		m.sunless = m.sunFalls()
		if m.sunless {
			m.note("sun on and through walls and roof is not counted")
		}
		return
	}
	if r.Walls.U.Known() || r.Roof.U.Known() || r.Floor.U.Known() {
		return
	}
	m.assume("walls", "no heat through walls, roof and floor", "not given; give area and R or U", steps.CommonPractice)
}

// sunFalls reports whether the room has a wall or a roof out of doors.
func (m *model) sunFalls() bool {
	return !m.room.Inside && slices.ContainsFunc(m.surfaces, func(s surface) bool { return !s.ground })
}

// letsLight is the transmittance, in BTU/(h·ft²·°F), from which a wall or a roof is
// taken as one that lets light through. Insulated ones stand well below it, single glass
// is commonly put at 1.13 and double film at 0.70. Common practice, no source.
const letsLight = 0.35

// glazed reports whether sun may come in through the walls or the roof.
func (m *model) glazed() bool {
	return m.sunless && slices.ContainsFunc(m.surfaces, func(s surface) bool { return !s.ground && s.u >= letsLight })
}

func (m *model) setSurface(name string, given inventory.Surface, area units.Known[units.Area], ground bool) {
	u, hasU := given.U.Get()
	a, hasA := given.Area.Get()
	switch {
	case !hasU && !hasA:
		return
	case !hasU:
		m.miss("rooms.%s.%s: its R or U value is not given", m.room.Name, name)
		return
	case !hasA:
		if a, hasA = area.Get(); !hasA {
			m.miss("rooms.%s.%s: neither its area nor the room's size is given", m.room.Name, name)
			return
		}
		m.assume(name+".area", a.String(), "not given; taken from the room's size", steps.CommonPractice)
	}
	s := surface{name, u, a, ground}
	m.surfaces = append(m.surfaces, s)
	m.work.Add(steps.Result("heat through the "+name+" per degree", "U · A", float64(u)*float64(a), "BTU/(h·°F)", conductionCite(),
		steps.In("U", u, "BTU/(h·ft²·°F)"), steps.In("A", a, "ft²")))
	if ground && !m.room.Inside {
		m.assume("floor.ground", fahrenheit(m.ground()), "the temperature under the floor is not given", steps.CommonPractice)
	}
}

func conductionCite() steps.Cite { return seen("egee102", "") }

func wallArea(r inventory.Room) units.Known[units.Area] {
	l, ok1 := r.Length.Get()
	w, ok2 := r.Width.Get()
	h, ok3 := r.Height.Get()
	if !ok1 || !ok2 || !ok3 {
		return units.Unknown[units.Area]("the room's size is not given")
	}
	return units.Is(units.Area(2 * (float64(l) + float64(w)) * float64(h)))
}

func floorArea(r inventory.Room) units.Known[units.Area] {
	l, ok1 := r.Length.Get()
	w, ok2 := r.Width.Get()
	if !ok1 || !ok2 {
		return units.Unknown[units.Area]("the room's size is not given")
	}
	return units.Is(units.Area(float64(l) * float64(w)))
}

// conducted returns the heat through all surfaces in an hour; ok is false where the
// temperature outside is not known.
func (m *model) conducted(a around, lit float64, w *steps.Work) (g Gain, ok bool) {
	for _, s := range m.surfaces {
		far, known := a.temp.Get()
		if s.ground {
			far, known = m.ground(), true
		}
		if !known {
			return g, false
		}
		q := mix(lit, Conduction(s.u, s.area, rise(far, m.on.temp)), Conduction(s.u, s.area, rise(far, m.off.temp)))
		w.Add(steps.Result("heat through the "+s.name, "U · A · (t outside − t room)", q.BTUPerHour(), "BTU/h", conductionCite(),
			steps.In("U", s.u, "BTU/(h·ft²·°F)"), steps.In("A", s.area, "ft²"), steps.In("t outside", far.Fahrenheit(), "°F"),
			steps.In("t room", m.setPoint(lit).Fahrenheit(), "°F")))
		g.Sensible += q
	}
	return g, true
}

// setPoint returns the mean set point of an hour.
func (m *model) setPoint(lit float64) units.Temperature {
	return units.Times(m.on.temp, lit) + units.Times(m.off.temp, 1-lit)
}
