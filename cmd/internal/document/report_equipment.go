package document

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// EquipmentType is a line of the equipment schedule: the units of one item that
// are served alike. Figures are of one unit.
type EquipmentType struct {
	Tag            string       `json:"tag" jsonschema_description:"letter and number of the type: F fixture, V fan, K controller, E equipment"`
	Item           string       `json:"item"`
	Noun           string       `json:"noun" jsonschema_description:"what it is, in the trade's words"`
	Room           string       `json:"room,omitempty"`
	Count          int          `json:"count"`
	Volts          *float64     `json:"volts" jsonschema:"nullable" jsonschema_description:"as served; null where no circuit feeds it or its current is not known"`
	Phases         int          `json:"phases"`
	WattsEach      *float64     `json:"watts_each" jsonschema:"nullable" jsonschema_description:"sizing power: nameplate or boost"`
	LabelAmps      *float64     `json:"label_amps" jsonschema:"nullable" jsonschema_description:"stated for this voltage; null where none is"`
	AmpsEach       *float64     `json:"amps_each" jsonschema:"nullable" jsonschema_description:"that its circuit is sized for"`
	VAEach         *float64     `json:"va_each" jsonschema:"nullable"`
	VAAll          *float64     `json:"va_all" jsonschema:"nullable" jsonschema_description:"of all its units"`
	PowerFactor    float64      `json:"power_factor"`
	Drivers        *int         `json:"drivers,omitempty" jsonschema_description:"of a fixture"`
	MaxPerBreaker  []PerBreaker `json:"max_per_breaker" jsonschema_description:"the maker's limit"`
	MinCircuitAmps *float64     `json:"min_circuit_amps,omitempty" jsonschema_description:"marked on its nameplate"`
	MaxDeviceAmps  *float64     `json:"max_device_amps,omitempty" jsonschema_description:"largest overcurrent device that its maker allows"`
	LeakageMA      *float64     `json:"leakage_ma" jsonschema:"nullable" jsonschema_description:"of one driver, of equipment of one unit"`
	InrushAmps     *float64     `json:"inrush_amps" jsonschema:"nullable" jsonschema_description:"peak"`
	Wired          bool         `json:"wired"`
	Plug           string       `json:"plug,omitempty"`
	Location       *string      `json:"location" jsonschema:"nullable" jsonschema_description:"dry, damp or wet, as listed"`
	Hours          *string      `json:"hours" jsonschema:"nullable"`
	Basis          *string      `json:"basis" jsonschema:"nullable" jsonschema_description:"where its figures come from"`
	Circuits       []string     `json:"circuits"`
}

// PerBreaker is how many units a maker allows behind one breaker.
type PerBreaker struct {
	BreakerAmps *float64 `json:"breaker_amps" jsonschema:"nullable" jsonschema_description:"null: any rating"`
	Count       int      `json:"count"`
}

// equipmentTypes lists every item of the file, in its order, once for each
// supply it is served at.
func equipmentTypes(r Results) []EquipmentType {
	out := []EquipmentType{}
	numbers := map[string]int{}
	for _, i := range r.Inventory.Items {
		l, ok := r.Set.Named(i.Name)
		if !ok {
			continue
		}
		numbers[letter(i)]++
		tag := fmt.Sprintf("%s%d", letter(i), numbers[letter(i)])
		list, fed := supplies(r, i.Name)
		for _, s := range list {
			out = append(out, equipmentType(tag, l).on(s))
		}
		if fed < i.Count {
			e := equipmentType(tag, l)
			e.Count = i.Count - fed
			out = append(out, e)
		}
	}
	return out
}

// letter is the first part of a tag.
func letter(i inventory.Item) string {
	switch i.Table {
	case inventory.Fixtures:
		return "F"
	case inventory.Fans:
		return "V"
	case inventory.Controllers:
		return "K"
	}
	return "E"
}

// served is the units of an item on circuits of one supply.
type served struct {
	draw     loads.Draw
	count    int
	circuits []string
}

func supplies(r Results, item string) (list []served, fed int) {
	for _, c := range r.Plan.Circuits {
		for _, l := range c.Loads {
			if l.Item != item {
				continue
			}
			fed += l.Count
			list = join(list, c, l)
		}
	}
	return list, fed
}

func join(list []served, c circuits.Circuit, l circuits.Load) []served {
	for i := range list {
		if list[i].draw.Supply == l.Draw.Supply {
			list[i].count += l.Count
			list[i].circuits = append(list[i].circuits, c.Name)
			return list
		}
	}
	return append(list, served{l.Draw, l.Count, []string{c.Name}})
}

func equipmentType(tag string, l loads.Load) EquipmentType {
	i := l.Item
	e := EquipmentType{Tag: tag, Item: i.Name, Noun: noun(i, 1), Room: i.Room, Count: i.Count, Phases: max(1, l.Phases), WattsEach: known(l.Power),
		PowerFactor: float64(l.PF), MaxPerBreaker: []PerBreaker{}, MaxDeviceAmps: known(i.MaxBreaker), Wired: !l.Corded, Plug: l.Plug,
		Location: given(i.Location), Basis: given(i.Basis), Circuits: []string{}}
	if i.Table == inventory.Fixtures {
		e.Drivers = &l.Drivers
	}
	if mark, ok := i.Nameplate.Get(); ok {
		e.MinCircuitAmps = known(mark.MinCircuit)
		if e.MaxDeviceAmps == nil {
			e.MaxDeviceAmps = known(mark.MaxBreaker)
		}
	}
	for _, m := range i.MaxPerBreaker {
		p := PerBreaker{Count: m.Count}
		if m.Rating > 0 {
			p.BreakerAmps = number(m.Rating)
		}
		e.MaxPerBreaker = append(e.MaxPerBreaker, p)
	}
	if leak, ok := i.Leakage.Get(); ok {
		e.LeakageMA = number(units.Per(leak, units.Milliampere))
	}
	if in, ok := i.Inrush.Get(); ok {
		e.InrushAmps = number(in.Peak)
	}
	if l.HoursKnown {
		e.Hours = word(l.Hours.String())
	}
	return e
}

// on returns the type as it is served on some circuits.
func (e EquipmentType) on(s served) EquipmentType {
	e.Count, e.Circuits = s.count, s.circuits
	if s.draw.Amps <= 0 {
		return e
	}
	e.Phases = s.draw.Supply.Phases
	e.Volts, e.AmpsEach, e.VAEach, e.LabelAmps = number(s.draw.Supply.Volts), number(s.draw.Amps), number(s.draw.VA), known(s.draw.Stated)
	e.VAAll = number(float64(s.draw.VA) * float64(s.count))
	if w, ok := s.draw.Watts.Get(); ok {
		e.WattsEach = number(w)
	}
	e.PowerFactor = float64(s.draw.PF)
	return e
}

// otherNoun is what is none of the kinds.
const otherNoun = "equipment"

// noun says what an item is.
func noun(i *inventory.Item, n int) string {
	one := i.Kind
	switch {
	case i.Table == inventory.Fixtures:
		one = "luminaire"
	case i.Table == inventory.Fans:
		one = "fan"
	case i.Table == inventory.Controllers:
		one = "controller"
	case i.Kind == inventory.AirConditioner:
		one = "air conditioner"
	case i.Kind == inventory.CO2Burner:
		one = "CO2 burner"
	case i.Kind == inventory.Other, i.Kind == "":
		return otherNoun
	}
	if n == 1 {
		return one
	}
	return one + "s"
}
