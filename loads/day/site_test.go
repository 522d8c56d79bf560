package day_test

import (
	"fmt"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// testSite builds an inventory by hand. Its items have a power factor of one, so that
// watts are volt-amperes unless a test says otherwise.
type testSite struct {
	inv *inventory.Inventory
	n   int
}

func newSite() *testSite {
	return &testSite{inv: &inventory.Inventory{Site: inventory.Site{Name: "Fernhill"}}}
}

func (s *testSite) day() day.Day { return day.Of(s.inv, s.set()) }

func (s *testSite) set() loads.Set { return loads.Build(s.inv, loads.CodeValues{}) }

// room adds a room lit in a window; its lights draw p in all.
func (s *testSite) room(name string, lights clock.Windows, p units.Power, also ...func(*inventory.Room)) {
	r := inventory.Room{Name: name, Lights: units.Is(lights), Inside: true}
	for _, set := range also {
		set(&r)
	}
	s.inv.Rooms = append(s.inv.Rooms, r)
	s.inv.Items = append(s.inv.Items, inventory.Item{Table: inventory.Fixtures, Name: "lights-" + name, Room: name, Count: 1,
		Power: units.Is(p), PowerFactor: units.Is(units.Ratio(1))})
}

// item adds an item and returns it, to be changed before the day is worked.
func (s *testSite) item(table, kind, room string, p units.Power) *inventory.Item {
	s.n++
	s.inv.Items = append(s.inv.Items, inventory.Item{Table: table, Kind: kind, Name: fmt.Sprintf("item-%d", s.n), Room: room, Count: 1,
		Power: units.Is(p), PowerFactor: units.Is(units.Ratio(1))})
	return &s.inv.Items[len(s.inv.Items)-1]
}

// equipment adds equipment that runs in a window.
func (s *testSite) equipment(kind, room string, p units.Power, hours clock.Windows) *inventory.Item {
	i := s.item(inventory.Equipment, kind, room, p)
	i.Hours = units.Is(hours)
	return i
}

func (s *testSite) fans(room string, p units.Power) *inventory.Item {
	i := s.item(inventory.Fans, "", room, p)
	i.Hours = units.Is(clock.Always())
	return i
}

// window reads a window, which a test writes as a user does.
func window(s string) clock.Windows {
	w, err := clock.Parse(s)
	if err != nil {
		panic(err)
	}
	return w
}

func between(from, to clock.Minute) clock.Windows {
	w, err := clock.Between(from%clock.Day, to%clock.Day)
	if err != nil {
		panic(err)
	}
	return w
}

// startsFrom lets a room begin in a window.
func startsFrom(w string) func(*inventory.Room) {
	return func(r *inventory.Room) { r.StartsFrom = units.Is(window(w)) }
}

func apart(names ...string) func(*inventory.Room) {
	return func(r *inventory.Room) { r.Apart = names }
}

func interlock(name string) func(*inventory.Room) {
	return func(r *inventory.Room) { r.Interlock = name }
}

func ramp(m clock.Minute) func(*inventory.Room) {
	return func(r *inventory.Room) { r.Ramp = units.Is(m) }
}
