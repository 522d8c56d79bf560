package heat

import (
	"slices"
	"strings"

	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// usualSensible is the sensible share of a cooling unit's rated capacity where it is
// not stated: a nominal ton gives 8,300 to 9,000 BTU/h dry.
//
// Source: Air Conditioning Alphabet (seen), 0.69 to 0.75; other trade pages to 0.80.
const usualSensible = 0.75

// ventedEfficiency is what a vented fuel heater gives to the room of what it burns. Common
// practice, no source.
const ventedEfficiency = 0.8

// stock is the capacity of units of one purpose, unit by unit.
type stock[T ~float64] struct {
	units []T
	why   string // of a capacity that is not known
}

func (s *stock[T]) add(each T, count int) {
	for range count {
		s.units = append(s.units, each)
	}
}

// cover compares the stock with a need. least says why the need is a least value, so
// that a capacity above it proves nothing; empty where it is not.
func (s stock[T]) cover(what, name string, needed T, least string) Cover[T] {
	c := Cover[T]{What: what, Case: name, Needed: max(0, needed), Least: least}
	c.Installed, c.WithoutLargest = s.sums()
	c.Holds, c.HoldsWithoutOne = holds(c.Needed, c.Installed, least != ""), holds(c.Needed, c.WithoutLargest, least != "")
	return c
}

// open is a comparison with a need that is not known.
func (s stock[T]) open(what, name, why string) Cover[T] {
	c := Cover[T]{What: what, Case: name, NeededWhy: why, Holds: CannotTell, HoldsWithoutOne: CannotTell}
	c.Installed, c.WithoutLargest = s.sums()
	return c
}

// sums returns the capacity of all units, and without the largest of them.
func (s stock[T]) sums() (all, less units.Known[T]) {
	if s.why != "" {
		return units.Unknown[T](s.why), units.Unknown[T](s.why)
	}
	sum, largest := T(0), T(0)
	for _, u := range s.units {
		sum, largest = sum+u, max(largest, u)
	}
	return units.Is(sum), units.Is(sum - largest)
}

func holds[T ~float64](needed T, installed units.Known[T], least bool) Answer {
	have, ok := installed.Get()
	switch {
	case needed <= 0 && !least:
		return Yes
	case !ok:
		return CannotTell
	case units.Exceeds(needed, have):
		return No
	case least:
		return CannotTell
	}
	return Yes
}

// equip compares the equipment with the design cases. All three are asked: a unit that
// covers the total may fail on dry heat or on water.
func (m *model) equip(r *Room) {
	total, sensible, latent := m.coolingStock()
	dry := m.dryerStock()
	m.coverCooling(r, total, sensible)
	m.coverWater(r, dry, sensible, latent)
	m.coverHeating(r)
	if v, ok := m.room.Exhaust.Get(); ok {
		if slices.ContainsFunc(r.Summer.Hours[:], func(h Hour) bool { return h.Part(Ventilation) != Gain{} }) {
			m.assume("exhaust.hours", "always", "not given; it counts as running in every summer hour, also where the air it draws in is warmer or wetter than the room", steps.CommonPractice)
		}
		r.Equipment.Exhaust = m.coverExhaust(r, v)
	}
	for _, l := range m.coolers {
		if q, ok := l.Item.Cooling.Get(); ok && !l.Running.Known() {
			p := CoolingPower(q, usualEER)
			r.Equipment.Estimated = append(r.Equipment.Estimated, Estimate{l.Name, p})
			m.assumeOf(l.Path+".power", p.String(), "not given; its cooling over 10 BTU/h per W", seen("eer", ""))
		}
	}
	if c, ok := r.Equipment.Exhaust.Get(); len(m.coolers) == 0 && (!ok || c.Holds != Yes) {
		m.size(r)
	}
}

// coolingStock returns the total, dry and vapour capacity of the cooling equipment at
// the site's altitude.
func (m *model) coolingStock() (total, sensible, latent stock[units.Heat]) {
	set := func(why string) {
		total.why, sensible.why, latent.why = why, why, why
	}
	if len(m.coolers) == 0 {
		set("no cooling equipment is stated" + m.coolingElsewhere())
		return
	}
	leftTotal, leftSensible, err := Derating(m.inv.Site.Altitude.Or(0))
	if err != nil {
		set(err.Error())
		return
	}
	for _, l := range m.coolers {
		q, ok := l.Item.Cooling.Get()
		if !ok {
			set(l.Path + ".cooling is not given")
			return
		}
		s, ok := l.Item.Sensible.Get()
		if !ok {
			s = units.Times(q, usualSensible)
			m.assumeOf(l.Path+".sensible", units.Round(usualSensible, 2)+" of its cooling", "not given; ask for it at the room's state", seen("santa-fe-alphabet", ""))
		}
		q, s = units.Times(q, float64(leftTotal)), units.Times(s, float64(leftSensible))
		m.work.Add(steps.Result("cooling of one "+l.Name+" at altitude", "rated · left", q.BTUPerHour(), "BTU/h", deratingCite(),
			steps.In("left, total", leftTotal, ""), steps.In("left, sensible", leftSensible, ""), steps.In("sensible", s.BTUPerHour(), "BTU/h")))
		total.add(q, l.Count)
		sensible.add(s, l.Count)
		latent.add(max(0, q-s), l.Count)
	}
	return total, sensible, latent
}

// coolingElsewhere names cooling of other rooms, for an item counts for one room alone.
func (m *model) coolingElsewhere() string {
	for k := range m.inv.Items {
		i := &m.inv.Items[k]
		if i.Room != m.room.Name && i.Room != "" && (i.Kind == inventory.Chiller || i.Kind == inventory.AirConditioner) {
			return " for this room; " + i.Name + " is of " + i.Room + " alone"
		}
	}
	return ""
}

func (m *model) coverCooling(r *Room, total, sensible stock[units.Heat]) {
	r.Equipment.Cooling = append(r.Equipment.Cooling,
		total.cover("total cooling", r.Peak.Name, r.Peak.Total(), m.leastWhy()),
		sensible.cover("sensible cooling", r.Sensible.Name, r.Sensible.Hour.Sensible, m.leastWhy()))
}

// dryerStock returns what the dehumidifiers take, unit by unit.
func (m *model) dryerStock() (out stock[units.WaterRate]) {
	for _, d := range m.dryers {
		out.add(units.Times(d.takes, 1/float64(d.load.Count)), d.load.Count)
	}
	for _, l := range m.loads {
		if sourceOf(l) == Dehumidifiers && !l.Item.Outdoors && !l.Item.Removes.Known() && !l.Running.Known() {
			out.why = l.Path + ".removes is not given"
			return out
		}
	}
	switch {
	case len(out.units) > 0:
	case m.room.Exhaust.Known():
		out.why = "no dehumidifier is stated; the exhaust carries water off"
	case len(m.coolers) == 0:
		out.why = "no dehumidifier is stated"
	}
	return out
}

// coverExhaust asks whether the exhaust moves enough air to hold the set point.
func (m *model) coverExhaust(r *Room, v units.Airflow) units.Known[Cover[units.Airflow]] {
	needed, ok := r.Airflow.Get()
	if !ok {
		return units.Unknown[Cover[units.Airflow]](r.Airflow.Why())
	}
	var fan stock[units.Airflow]
	fan.add(v, 1)
	return units.Is(fan.cover("air flow", "summer design day", needed, m.leastWhy()))
}

func (m *model) anyDark() bool { return m.lit.sum() < 24-near && m.litKnown }
func (m *model) anyLit() bool  { return m.lit.sum() > near }

// coverHeating asks whether the heaters cover the coldest hour: with the exhaust running
// where there is one, and without it; with the dehumidifiers, and without the heat that
// they give back, for they may stand still. Heaters that run by stated hours stand in
// the balance already.
func (m *model) coverHeating(r *Room) {
	var heat stock[units.Heat]
	for _, l := range m.heaters {
		if l.Item.Hours.Known() || l.Item.Duty.Known() {
			continue
		}
		q, ok := heatOf(l)
		if !ok {
			heat.why = l.Path + ": its heat is not known"
			break
		}
		heat.add(q, l.Count)
	}
	if len(m.heaters) == 0 {
		heat.why = "no heating equipment is stated"
	}
	least := ""
	switch {
	case !r.Winter.Whole:
		least = "the air around in winter is not known"
	case !m.water.known:
		least = m.water.why + ", and what evaporates takes heat out of the air"
	}
	cover := func(c Case) Cover[units.Heat] {
		out := heat.cover("heating", c.Name, -c.Hour.Sensible, least)
		out.State = c.state()
		return out
	}
	worst, vented := r.ColdestVented.Get()
	score := byVented
	if !vented {
		worst, score = r.Coldest, bySensible
	}
	e := &r.Equipment
	e.Heating = cover(worst)
	also := func(c Case) { // where neither asks for heat the one says it for both
		if x := cover(c); x.Needed > 0 || e.Heating.Needed > 0 {
			e.HeatingAlso = append(e.HeatingAlso, x)
		}
	}
	if vented {
		also(r.Coldest)
	}
	if worst.Dehumidifiers == Runs {
		c := m.coldest(false, score)
		c.Exhaust = worst.Exhaust
		if vented {
			c.Gain = c.Gain.Plus(c.Vented)
		}
		also(c)
	}
}

// state says what runs in a case of heating.
func (c Case) state() string {
	var parts []string
	if c.Exhaust != "" {
		parts = append(parts, "exhaust "+string(c.Exhaust))
	}
	if c.Dehumidifiers != None {
		parts = append(parts, "dehumidifiers "+string(c.Dehumidifiers))
	}
	return strings.Join(parts, ", ")
}

// heatOf returns the heat that one heater gives the room.
func heatOf(l loads.Load) (units.Heat, bool) {
	if q, ok := l.Item.Burns.Get(); ok {
		return units.Times(q, ventedEfficiency), true
	}
	p, ok := l.Power.Get()
	return p.Heat(), ok
}
