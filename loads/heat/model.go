package heat

import (
	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// model is a room as the balance sees it: everything that does not change from hour
// to hour, found once.
type model struct {
	record
	inv   *inventory.Inventory
	room  inventory.Room
	loads []loads.Load

	pressure air.Pressure
	against  units.Ratio // pressure over that of sea level
	on, off  held

	windows  clock.Windows // with the lights on
	lit      hours         // share of each hour
	hasLight bool
	litKnown bool // false where the lights' hours are not given and "on" is taken

	electric  []electric
	dryers    []dryer
	moistener []moistener
	burners   []burner
	coolers   []loads.Load
	heaters   []loads.Load

	surfaces []surface
	leak     units.Airflow
	water    transpiration

	worked map[key]Day
	sums   [24]electricSum // of the electric loads, by hour
}

func newModel(inv *inventory.Inventory, room inventory.Room, set loads.Set) *model {
	m := &model{inv: inv, room: room, worked: map[key]Day{}}
	m.record.room = room.Name
	for i := range set.Loads {
		if set.Loads[i].Room == room.Name {
			m.loads = append(m.loads, set.Loads[i])
		}
	}
	m.setLit()
	m.setPressure()
	m.setPoints()
	for _, l := range m.loads {
		m.place(l)
	}
	m.setSurfaces()
	m.setLeak()
	m.setWater()
	return m
}

// setLit finds when the room is lit: the room's own window, else the union of its
// fixtures' windows.
func (m *model) setLit() {
	windows, known := m.room.Lights.Get()
	if !known {
		windows, known = clock.Never(), true
		for _, l := range m.loads {
			if sourceOf(l) == Lights {
				windows = windows.Union(l.Hours)
				known = known && l.HoursKnown
			}
		}
	}
	for _, l := range m.loads {
		m.hasLight = m.hasLight || sourceOf(l) == Lights
	}
	m.hasLight = m.hasLight || m.room.Lights.Known()
	m.litKnown = known
	if !known {
		windows = clock.Always()
		m.note("when the lights are on is not given: they count as on all day, and the dark hours cannot be told")
	}
	m.windows, m.lit = windows, shares(windows)
}

// mix weighs what holds while lit and while dark by their shares of an hour.
func mix(lit float64, on, off units.Heat) units.Heat {
	return units.Times(on, lit) + units.Times(off, 1-lit)
}

// place sorts a load of the room among the terms of the balance.
func (m *model) place(l loads.Load) {
	if k := l.Item.Kind; l.Item.Cooling.Known() && k != inventory.AirConditioner && k != inventory.Chiller {
		m.note("%s.cooling: left out; it counts of air conditioners and chillers only", l.Path)
	}
	if l.Item.Outdoors {
		p := l.Running.Or(0)
		m.leftOut = append(m.leftOut, LeftOut{l.Name, units.Times(p, float64(l.Count)), "stands outdoors" + indoorFans(l)})
		if l.Item.Kind == inventory.AirConditioner || l.Item.Kind == inventory.Chiller {
			m.coolers = append(m.coolers, l)
		}
		return
	}
	switch sourceOf(l) {
	case Outlets:
		m.placeOutlet(l)
	case Dehumidifiers:
		m.placeDryer(l)
	case Humidifiers:
		m.placeMoistener(l)
	case Burners:
		m.placeBurner(l)
	case CoolingFans:
		m.coolers = append(m.coolers, l)
		m.placeCooler(l)
	case Heaters:
		m.heaters = append(m.heaters, l)
		if !m.runsByItself(l) {
			return
		}
		if q, ok := l.Item.Burns.Get(); ok {
			m.placeVented(l, q)
			return
		}
		m.placeElectric(l)
	default:
		if l.Item.Kind == inventory.Chiller {
			m.coolers = append(m.coolers, l)
			m.note("%s stands in the room: the heat it takes from its water stays there, so that only its own watts count", l.Path)
		}
		m.placeElectric(l)
	}
}

// runsByItself reports whether a load's hours or duty are stated. A heater whose are
// not is run by the room's thermostat: it is a means of heating, not a gain.
func (m *model) runsByItself(l loads.Load) bool {
	if l.Item.Hours.Known() || l.Item.Duty.Known() {
		return true
	}
	m.note("%s runs only when the room asks for heat; it is no gain in the balance", l.Path)
	return false
}
