package day

import (
	"slices"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Move is a room whose photoperiod begins later, around the clock.
type Move struct {
	Room string
	By   clock.Minute
}

// Moved returns an inventory and its loads with the photoperiods of some rooms moved.
// What they were made from is left as it was.
//
// A room's lights window moves as a whole, hours kept, with the windows of all its
// fixtures. Other items of the room move with it where their hours are exactly the lights'
// or exactly the dark; all other hours stand, for nothing says what they follow. Rooms
// whose lights are not known do not move.
func Moved(inv *inventory.Inventory, set loads.Set, moves []Move) (*inventory.Inventory, loads.Set) {
	out := *inv
	out.Rooms = slices.Clone(inv.Rooms)
	out.Items = slices.Clone(inv.Items)
	set.Loads = slices.Clone(set.Loads)
	for _, m := range moves {
		i := slices.IndexFunc(out.Rooms, func(r inventory.Room) bool { return r.Name == m.Room })
		if i < 0 {
			continue
		}
		room := inv.Rooms[i]
		w, ok := room.Lights.Get()
		if !ok {
			continue
		}
		out.Rooms[i].Lights = units.Is(shifted(w, m.By))
		for k, item := range inv.Items {
			if h, ok := item.Hours.Get(); ok && item.Room == m.Room && goesWith(room, item.Table, h) {
				out.Items[k].Hours = units.Is(shifted(h, m.By))
			}
		}
		for k, l := range set.Loads {
			if l.Room != m.Room || !l.HoursKnown || !goesWith(room, l.Item.Table, l.Hours) {
				continue
			}
			l.Hours = shifted(l.Hours, m.By)
			if l.Item.Hours.Known() {
				item := *l.Item
				item.Hours = units.Is(l.Hours)
				l.Item = &item
			}
			set.Loads[k] = l
		}
	}
	return &out, set
}

// goesWith reports whether hours of an item move with the room's lights.
func goesWith(room inventory.Room, table string, hours clock.Windows) bool {
	lights, ok := room.Lights.Get()
	switch {
	case !ok || hours.IsAlways() || hours.IsNever():
		return false
	case table == inventory.Fixtures:
		return true
	}
	return hours.Equal(lights) || hours.Equal(lights.Without())
}

// companions lists the items of a room, fixtures on the room's own window aside, whose
// hours move with it, and those whose hours stand though they switch.
func companions(set loads.Set, room inventory.Room) (with, stand []string) {
	for _, l := range set.Loads {
		h, ok := l.Item.Hours.Get()
		if l.Room != room.Name || !ok || h.IsAlways() || h.IsNever() {
			continue
		}
		if goesWith(room, l.Item.Table, h) {
			with = append(with, l.Path)
		} else {
			stand = append(stand, l.Path)
		}
	}
	return with, stand
}
