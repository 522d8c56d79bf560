package day

import (
	"fmt"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// The days whose running shares differ, in the order in which ties are settled.
const (
	mean = iota
	summer
	winter
	kinds
)

func dayName(kind int) heat.DayName {
	return [kinds]heat.DayName{heat.Mean, heat.Summer, heat.Winter}[kind]
}

func kindOf(day heat.DayName) int {
	for k := range kinds {
		if dayName(k) == day {
			return k
		}
	}
	return mean
}

// draw is a load as the day sees it: what it draws while it runs, and when it runs.
type draw struct {
	load  *loads.Load
	known bool
	full  units.Power // of all units while running: level applied, duty not
	level *levels     // one for all loads of the same hours: share of full by the clock: windows and ramps
	runs  [kinds][24]float64
}

// newDraw sets a load's draw and windows; its running share is its duty, 1 where none is
// stated.
//
//	P_full = n · P₁ / duty      W; P₁ the mean power of one unit while on
func (s *site) newDraw(l *loads.Load) draw {
	d := draw{load: l}
	duty := float64(l.Item.Duty.Or(1))
	p, ok := l.Running.Get()
	if !ok {
		p, ok = s.estimated(l)
		p = units.Times(p, duty)
	}
	d.known = ok
	if ok && duty > 0 {
		d.full = units.Times(p, float64(l.Count)/duty)
	}
	for k := range d.runs {
		for h := range d.runs[k] {
			d.runs[k][h] = duty
		}
	}
	windows, ramp := s.windows(l)
	key := fmt.Sprint(windows, ramp)
	if s.levels[key] == nil {
		s.levels[key] = levelsOf(windows, ramp)
	}
	d.level = s.levels[key]
	return d
}

// windows returns when a load is on, and the ramp of its lights. Hours that are not
// known count as always, as everywhere; a burner for carbon dioxide runs while the lights
// are on, as in the heat balance.
func (s *site) windows(l *loads.Load) (clock.Windows, clock.Minute) {
	room, ok := s.room(l.Room)
	switch {
	case l.HoursKnown && l.Item.Table == inventory.Fixtures && ok:
		return l.Hours, room.Ramp.Or(0)
	case l.HoursKnown:
		return l.Hours, 0
	case l.Item.Kind == inventory.CO2Burner && ok:
		return s.lit(room), 0
	}
	return clock.Always(), 0
}

// lit returns when a room's lights are on: its own window, else those of its fixtures,
// else always.
func (s *site) lit(room inventory.Room) clock.Windows {
	if w, ok := room.Lights.Get(); ok {
		return w
	}
	w := clock.Never()
	for _, l := range s.set.Loads {
		if l.Room == room.Name && l.Item.Table == inventory.Fixtures {
			if !l.HoursKnown {
				return clock.Always()
			}
			w = w.Union(l.Hours)
		}
	}
	return w
}

func (s *site) room(name string) (inventory.Room, bool) {
	if i, ok := s.roomAt[name]; ok {
		return s.inv.Rooms[i], true
	}
	return inventory.Room{}, false
}

// estimated returns the watts of one unit of cooling equipment that states none, as the
// heat balance takes them from its capacity.
func (s *site) estimated(l *loads.Load) (units.Power, bool) {
	r, _ := s.heat.Room(l.Room)
	for _, e := range r.Equipment.Estimated {
		if e.Item == l.Name {
			return e.Watts, true
		}
	}
	return 0, false
}

// cycling reports whether a load runs only part of its time on some day.
func (d draw) cycling() bool {
	for k := range d.runs {
		for h := range d.runs[k] {
			if x := d.runs[k][h]; x > 0 && x < 1 {
				return true
			}
		}
	}
	return false
}
