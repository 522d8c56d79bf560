package loads

import (
	"fmt"
	"sort"
	"strings"

	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Build returns the loads of an inventory, with every value that the file does
// not give listed among the assumptions.
func Build(inv *inventory.Inventory, code CodeValues) Set {
	b := builder{inv: inv, code: code}
	set := Set{Loads: make([]Load, 0, len(inv.Items))}
	for i := range inv.Items {
		set.Loads = append(set.Loads, b.load(&inv.Items[i]))
	}
	sort.SliceStable(set.Loads, func(i, j int) bool { return units.NaturalLess(set.Loads[i].Name, set.Loads[j].Name) })
	sort.SliceStable(b.assumed, func(i, j int) bool { return units.NaturalLess(b.assumed[i].Subject, b.assumed[j].Subject) })
	set.Assumptions = b.assumed
	set.index = make(map[string]int, len(set.Loads))
	for i, l := range set.Loads {
		set.index[l.Name] = i
	}
	return set
}

type builder struct {
	inv     *inventory.Inventory
	code    CodeValues
	assumed []Assumption
}

func (b *builder) assume(path, key, value, why string, cite steps.Cite) {
	b.assumed = append(b.assumed, Assumption{Subject: path + "." + key, Value: value, Why: why, Cite: cite})
}

func (b *builder) load(item *inventory.Item) Load {
	d := defaultsOf(item)
	l := Load{Item: item, Name: item.Name, Path: item.Path(), Room: item.Room, Count: item.Count,
		Category: d.category, Heater: item.Kind == inventory.Heater, NonLinear: d.nonLinear,
		Interlock: item.Interlock, Continuous: item.Continuous, Drivers: item.Drivers.Or(1), motors: b.code.Motors}
	room := b.room(item.Room)
	l.Panels = b.panels(item, room)
	l.Phases = item.Phases.Or(0)
	l.Motor = item.Motor
	l.Interlock, l.Member = exclusive(item.Interlock, item.Path())
	if l.Interlock == "" && item.Table == inventory.Fixtures && room != nil {
		l.Interlock, l.Member = exclusive(room.Interlock, "rooms."+room.Name)
	}
	b.setVoltage(&l)
	b.setPF(&l, d)
	b.setPower(&l, d)
	b.setConnection(&l, d)
	b.setHours(&l, room)
	b.setAlone(&l)
	return l
}

// exclusive reads an interlock: "flip" makes each thing that names it a member
// of its own, "flip:A" puts all that name it on side A. Of one interlock only
// one member can be on.
func exclusive(interlock, self string) (group, member string) {
	group, _, ok := strings.Cut(interlock, ":")
	if ok {
		return group, interlock
	}
	return group, self
}

func (b *builder) room(name string) *inventory.Room {
	for i := range b.inv.Rooms {
		if b.inv.Rooms[i].Name == name {
			return &b.inv.Rooms[i]
		}
	}
	return nil
}

func (b *builder) panels(item *inventory.Item, room *inventory.Room) []string {
	switch {
	case item.Panel != "":
		return []string{item.Panel}
	case room != nil && len(room.Panels) > 0:
		return room.Panels
	case len(b.inv.Panels) == 1:
		return []string{b.inv.Panels[0].Name}
	}
	return nil
}

func (b *builder) setVoltage(l *Load) {
	if v, ok := l.Item.Voltage.Get(); ok {
		l.Voltage = v
		return
	}
	if n := len(l.Item.Currents); n > 0 {
		for _, c := range l.Item.Currents {
			l.Voltage.List = append(l.Voltage.List, c.Voltage)
		}
		b.assume(l.Path, "voltage", l.Voltage.String(), "not given; the voltages of its label currents are taken", steps.CommonPractice)
		return
	}
	l.Voltage = units.VoltageSet{List: []units.Voltage{120}}
	b.assume(l.Path, "voltage", "120 V", "not given; 120 V only is taken until the label is read", steps.CommonPractice)
}

func (b *builder) setPF(l *Load, d defaults) {
	if pf, ok := l.Item.PowerFactor.Get(); ok {
		l.PF = pf
		return
	}
	l.PF = d.pf
	b.assume(l.Path, "power_factor", d.pf.String(), "not given; "+d.pfWhy, d.pfCite)
}

// setPower finds the sizing and the running power of one unit.
func (b *builder) setPower(l *Load, d defaults) {
	b.setOutlet(l)
	b.setCooling(l)
	nominal := l.Item.Power
	if !nominal.Known() {
		nominal = b.derivedPower(l)
	}
	l.Power = nominal
	if boost, ok := l.Item.Boost.Get(); ok {
		if p, known := nominal.Get(); !known || boost > p {
			l.Power = units.Is(boost)
		}
	}
	p, ok := nominal.Get()
	if !ok {
		l.Running = nominal
		return
	}
	l.Running = units.Is(units.Times(p, float64(l.Item.Level.Or(1))*float64(l.Item.Duty.Or(1))))
}

// setOutlet gives a general outlet the load that the code counts for it.
func (b *builder) setOutlet(l *Load) {
	i := l.Item
	if i.Kind != inventory.Outlet || i.Power.Known() || i.Apparent.Known() || len(l.labels()) > 0 || i.Nameplate.Known() {
		return
	}
	item := *i
	item.Apparent = units.Is(b.code.Outlet)
	l.Item = &item
	b.assume(l.Path, "power", b.code.Outlet.String(), "not given; the load that the code counts for a general outlet is taken", b.code.OutletCite)
}

// usualEER is the efficiency taken for cooling equipment whose power is not
// given, in BTU/h per W. Common practice, no source.
const usualEER = 10

// setCooling estimates the power of cooling equipment that states nothing but its
// capacity, so that what removes the heat is in the panel too.
func (b *builder) setCooling(l *Load) {
	i := l.Item
	q, ok := i.Cooling.Get()
	if !ok || i.Power.Known() || i.Apparent.Known() || i.Motor.Known() || i.Nameplate.Known() || len(l.labels()) > 0 {
		return
	}
	p := coolingPower(q)
	item := *i
	item.Power = units.Is(p)
	l.Item = &item
	b.assume(l.Path, "power", p.String(), "not given; its cooling over 10 BTU/h per W is taken until its nameplate is read", steps.CommonPractice)
}

func coolingPower(q units.Heat) units.Power { return units.Power(q.BTUPerHour() / usualEER) }

// derivedPower finds the input power of equipment that states a current, an
// apparent power or a motor rating instead. It serves heat and energy; sizing
// rests on what was stated.
func (b *builder) derivedPower(l *Load) units.Known[units.Power] {
	if va, ok := l.Item.Apparent.Get(); ok {
		return units.Is(va.Watts(l.PF))
	}
	if hp, ok := l.Motor.Get(); ok {
		b.assume(l.Path, "efficiency", fmt.Sprint(motorEfficiency), "not given; the heat of a motor is its output over its efficiency", motorEfficiencyCite)
		return units.Is(units.Times(hp.Watts(), 1/motorEfficiency))
	}
	if q, ok := l.Item.Cooling.Get(); ok && l.Item.Nameplate.Known() {
		p := coolingPower(q)
		b.assume(l.Path, "power", p.String(), "not given; its cooling over 10 BTU/h per W is taken for energy, its nameplate sizes its circuit", steps.CommonPractice)
		return units.Is(p)
	}
	if labels := l.labels(); len(labels) > 0 {
		phases := l.Phases
		if phases == 0 {
			phases = 1
		}
		var most units.Apparent
		for _, c := range labels {
			most = max(most, ApparentPower(c.Current, c.Voltage, phases))
		}
		return units.Is(most.Watts(l.PF))
	}
	return units.Unknown[units.Power]("neither power nor current is given, only a nameplate")
}

func (b *builder) setConnection(l *Load, d defaults) {
	if plug, ok := l.Item.Plug.Get(); ok && plug != "" {
		l.Plug = plug
	}
	if wired, ok := l.Item.Wired.Get(); ok {
		l.Corded = !wired
		return
	}
	if l.Item.Plug.Known() {
		l.Corded = true
		return
	}
	l.Corded = d.corded
	how := "wired permanently"
	if d.corded {
		how = "by cord and plug"
	}
	b.assume(l.Path, "wired", fmt.Sprint(!d.corded), "not given; connection "+how+" is taken", steps.CommonPractice)
}

func (b *builder) setHours(l *Load, room *inventory.Room) {
	if h, ok := l.Item.Hours.Get(); ok {
		l.Hours, l.HoursKnown = h, true
	} else if room != nil && l.Item.Table == inventory.Fixtures {
		if h, ok := room.Lights.Get(); ok {
			l.Hours, l.HoursKnown = h, true
		}
	}
	if l.HoursKnown && l.Hours.IsNever() {
		// What is connected can be switched on; a circuit is not sized on the
		// promise that it never is.
		b.assume(l.Path, "hours", "on at any time, for sizing", "a window of never does not keep connected equipment off", steps.CommonPractice)
	}
	if !l.HoursKnown {
		l.Hours = clock.Always()
		b.assume(l.Path, "hours", "always", "not given; unknown hours count as on in every state and as continuous", steps.CommonPractice)
	}
}

// aloneFrom is the power from which dehumidifiers and pumps take a circuit of
// their own. Common practice, no source.
const aloneFrom = 500 * units.Watt

func (b *builder) setAlone(l *Load) {
	if d, ok := l.Item.Dedicated.Get(); ok {
		l.Alone, l.AloneWhy = d, "the file asks for a circuit of its own"
		return
	}
	p, known := l.Power.Get()
	large := !known || p >= aloneFrom
	switch l.Item.Kind {
	case inventory.AirConditioner, inventory.Heater, inventory.Chiller:
		l.Alone, l.AloneWhy = true, "heating and cooling equipment takes a circuit of its own"
	case inventory.Dehumidifier, inventory.Pump, inventory.Humidifier:
		l.Alone, l.AloneWhy = large, "equipment of "+aloneFrom.String()+" and more takes a circuit of its own"
	}
	if l.Item.Nameplate.Known() {
		l.Alone, l.AloneWhy = true, "equipment marked with a circuit takes that circuit to itself"
	}
	if l.Motor.Known() && l.Item.Table != inventory.Fans {
		l.Alone, l.AloneWhy = true, "a motor with a rating takes a circuit of its own, so that its device can follow the motor rule"
	}
	if l.Alone {
		b.assume(l.Path, "dedicated", "true", "not given; "+l.AloneWhy, steps.CommonPractice)
	}
}
