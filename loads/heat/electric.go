package heat

import (
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// electric is a load whose watts become heat in the room.
type electric struct {
	load   loads.Load
	source Source
	inside float64 // share of its heat that stays in the room
	share  hours   // mean level in each hour
}

// watts returns the power of all units in an hour that stays in the room.
//
//	P = n · P₁ · s · (1 − remote) · (1 − duct)      W
//
// P₁ is the mean input power of one unit while on (its level and duty applied), s the
// share of the hour that it is on. Input watts count whole: in an enclosed room what
// a lamp sends out as light or a fan as moving air ends as heat too. The share that
// photosynthesis stores, about 1 % of a fixture's watts, is neglected on the safe side.
//
// Source: boulderlamp.com and pllight.com (seen): a watt is a watt, whatever the lamp.
func (e *electric) watts(h int) units.Power {
	p, _ := e.load.Running.Get()
	return units.Times(p, float64(e.load.Count)*e.inside*e.share[h])
}

func (e *electric) gain(h int, w *steps.Work) Gain {
	p, _ := e.load.Running.Get()
	q := e.watts(h).Heat()
	if w != nil && e.share[h] > 0 {
		w.Add(noted(steps.Result("heat of "+e.load.Name, "n · P · s · r · 3.412142", q.BTUPerHour(), "BTU/h", wattCite(),
			steps.In("n", float64(e.load.Count), ""), steps.In("P", p, "W"), steps.In("s", e.share[h], ""), steps.In("r", e.inside, "")),
			"s: share of the hour that it is on; r: share of its heat that stays in the room"))
	}
	return Gain{Sensible: q}
}

// electricSum is what the electric loads of a room give off in an hour.
type electricSum struct {
	gains map[Source]Gain
	watts units.Power
}

// electricAt adds up the electric loads of the room in an hour; recorded, or once for
// all days.
func (m *model) electricAt(h int, w *steps.Work) electricSum {
	if m.sums[h].gains != nil && w == nil {
		return m.sums[h]
	}
	sum := electricSum{gains: map[Source]Gain{}}
	for i := range m.electric {
		e := &m.electric[i]
		sum.gains[e.source] = sum.gains[e.source].Plus(e.gain(h, w))
		sum.watts += e.watts(h)
	}
	m.sums[h] = sum
	return sum
}

func wattCite() steps.Cite { return seen("boulderlamp", "") }

// placeElectric adds a load that gives off its watts as dry heat.
func (m *model) placeElectric(l loads.Load) {
	p, ok := l.Running.Get()
	if !ok {
		m.miss("%s: its watts are not known (%s)", l.Path, why(l.Running.Why()))
		return
	}
	e := electric{load: l, source: sourceOf(l), share: m.shareOf(l)}
	remote, duct := float64(l.Item.RemoteDriver.Or(0)), float64(l.Item.Duct.Or(0))
	all := units.Times(p, float64(l.Count))
	if remote > 0 {
		m.leftOut = append(m.leftOut, LeftOut{l.Name, units.Times(all, remote), "its drivers stand outside the room and heat the place where they stand"})
	}
	if duct > 0 {
		m.leftOut = append(m.leftOut, LeftOut{l.Name, units.Times(all, (1-remote)*duct), "leaves with the ducted air"})
	}
	e.inside = (1 - remote) * (1 - duct)
	m.electric = append(m.electric, e)
}

// placeOutlet adds what is plugged into a general outlet where the file says how much
// that is. The figure that a code counts for an outlet sizes its circuit; it is no heat.
func (m *model) placeOutlet(l loads.Load) {
	for k := range m.inv.Items {
		i := &m.inv.Items[k]
		if i.Table == l.Item.Table && i.Name == l.Name && !i.Power.Known() && !i.Apparent.Known() && !i.Current.Known() && len(i.Currents) == 0 {
			m.note("%s: what is plugged in is not given and no heat is counted for it; the code's figure for an outlet sizes its circuit only", l.Path)
			return
		}
	}
	m.placeElectric(l)
}

// shareOf returns the mean level of a load in each hour. Lights brighten and dim over
// the room's ramp.
func (m *model) shareOf(l loads.Load) hours {
	switch {
	case !l.HoursKnown && sourceOf(l) == Lights:
		return m.lit
	case !l.HoursKnown:
		return always()
	case sourceOf(l) == Lights:
		return ramped(l.Hours, m.room.Ramp.Or(0))
	}
	return shares(l.Hours)
}

func always() hours {
	var h hours
	for i := range h {
		h[i] = 1
	}
	return h
}

func why(s string) string {
	if s == "" {
		return "not given"
	}
	return s
}

// Indoor fan of cooling equipment per ton: 400 CFM per ton, the usual flow, at 365 W
// per 1,000 CFM, the default of the rating standard for units without a fan of their
// own.
const fanWattsPerTon = 400 * 0.365

// indoorFans says what of cooling that stands outdoors is in the room all the same, or in
// the air that it is supplied with, and is not counted: a net capacity has it taken off.
func indoorFans(l loads.Load) string {
	q, ok := l.Item.Cooling.Get()
	switch {
	case l.Item.Kind != inventory.AirConditioner && l.Item.Kind != inventory.Chiller:
		return ""
	case !ok || l.Item.Kind == inventory.Chiller:
		return "; its indoor fans are not counted"
	}
	return "; its indoor fan, some " + units.Power(fanWattsPerTon*q.Tons()*float64(l.Count)).String() + " at 400 CFM per ton, is not counted"
}

// usualEER is the efficiency taken for cooling equipment where none is known, in
// BTU/h per W at the rating point. Common practice, no source.
const usualEER = 10

// placeCooler adds the indoor fan of an air conditioner whose condenser stands
// outside. Compressor and condenser give their heat off outdoors.
//
//	P = 146 W per ton
//
// A maker's net capacity has the fan already taken off; counting it as load as well
// errs on the safe side by some 4 %.
//
// Source: 400 CFM per ton (seen); 365 W per 1,000 CFM (recalled).
func (m *model) placeCooler(l loads.Load) {
	each, ok := l.Item.Cooling.Get()
	if !ok {
		p, known := l.Running.Get()
		if !known {
			m.miss("%s: neither its watts nor its cooling is known, nor the heat of its indoor fan", l.Path)
			return
		}
		each = units.FromBTUPerHour(usualEER * float64(p))
	}
	fan := units.Power(fanWattsPerTon * each.Tons())
	m.assumeOf(l.Path+".indoor_fan", fan.String(), "not given; 400 CFM per ton at 0.365 W per CFM; the rest of its heat is given off outdoors",
		recalled("ahri-210-240", "default fan power"))
	if p, known := l.Running.Get(); known && p > fan {
		m.leftOut = append(m.leftOut, LeftOut{l.Name, units.Times(p-fan, float64(l.Count)), "compressor and condenser give it off outdoors"})
	}
	f := l
	f.Running = units.Is(fan)
	m.electric = append(m.electric, electric{load: f, source: CoolingFans, inside: 1, share: m.shareOf(l)})
}
