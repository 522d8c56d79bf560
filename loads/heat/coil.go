package heat

import (
	"slices"

	"branchwork/loads/units"
)

// wetUnit takes water out of a room's air: a cooling coil, or a dehumidifier.
type wetUnit struct {
	latent   units.Heat // that it takes as vapour while it runs
	sensible units.Heat // of a coil: what it takes dry at the same time
	gives    units.Heat // of a dehumidifier: what it gives back as dry heat
}

// wetStock is what a room has against water, unit by unit.
type wetStock struct{ coils, dryers []wetUnit }

func (m *model) wetStock(sensible, latent stock[units.Heat]) (f wetStock) {
	if latent.why == "" {
		for i, q := range latent.units {
			f.coils = append(f.coils, wetUnit{latent: q, sensible: sensible.units[i]})
		}
	}
	for _, d := range m.dryers {
		n := d.load.Count
		q := units.Times(m.on.latent.Of(d.takes), 1/float64(n))
		for range n {
			f.dryers = append(f.dryers, wetUnit{latent: q, gives: q + units.Times(d.watts.Heat(), 1/float64(n))})
		}
	}
	return f
}

// nearlyAll is the share of an hour from which a coil is not told to cycle; answers are
// weighed all the same.
const nearlyAll = 0.99

func latentOf(list []wetUnit) (sum units.Heat) {
	for _, u := range list {
		sum += u.latent
	}
	return sum
}

// run returns the share of an hour that the coils are on: as much as its dry heat asks,
// the dehumidifiers running. h is an hour worked without them. A thermostat stops the
// compressor when the dry load is met, and with it the taking of water; what then dries
// off the coil again is not known and left out.
//
//	run = (Q sensible + Q given back) / Q sensible of the coils, 0 to 1
//
// Source: energy balance; derived.
func (f wetStock) run(h Hour) units.Ratio {
	load, can := h.Sensible, units.Heat(0)
	for _, u := range f.dryers {
		load += u.gives
	}
	for _, u := range f.coils {
		can += u.sensible
	}
	if can <= 0 {
		return 0
	}
	return units.Ratio(min(1, max(0, units.Per(load, can))))
}

// cycling returns what all take as vapour in an hour with the coils on for that share.
func (f wetStock) cycling(h Hour) units.Heat {
	return latentOf(f.dryers) + units.Times(latentOf(f.coils), float64(f.run(h)))
}

// withoutLargest leaves out the unit that takes most water.
func (f wetStock) withoutLargest() wetStock {
	c, d := largest(f.coils), largest(f.dryers)
	if c >= 0 && (d < 0 || f.coils[c].latent > f.dryers[d].latent) {
		return wetStock{slices.Delete(slices.Clone(f.coils), c, c+1), f.dryers}
	}
	return f.withoutDryer()
}

// withoutDryer leaves out the largest dehumidifier.
func (f wetStock) withoutDryer() wetStock {
	if d := largest(f.dryers); d >= 0 {
		f.dryers = slices.Delete(slices.Clone(f.dryers), d, d+1)
	}
	return f
}

// largest returns the place of the unit that takes most, -1 of none.
func largest(list []wetUnit) int {
	at := -1
	for i, u := range list {
		if at < 0 || u.latent > list[at].latent {
			at = i
		}
	}
	return at
}

// coverWater asks whether coils and dehumidifiers keep the humidity: together in the
// wettest hour; by night the dehumidifiers alone; by day what the coil leaves them. A
// coil counts in full only where it would run the whole hour for its dry load too:
// otherwise the answer hangs on its control, and cannot be told.
func (m *model) coverWater(r *Room, dry stock[units.WaterRate], sensible, latent stock[units.Heat]) {
	f := m.wetStock(sensible, latent)
	if latent.why == "" || len(m.coolers) == 0 && len(f.dryers) > 0 {
		latent.why = ""
		for _, u := range f.dryers {
			latent.add(u.latent, 1)
		}
	}
	const together, dark, lit = "latent cooling, coils and dehumidifiers", "water, the cooling coil idle", "water beyond the cooling coil's"
	least := ""
	if m.atLeast {
		least = notWhole
	}
	e := &r.Equipment
	w, known := r.Water.Get()
	if !known {
		e.Cooling = append(e.Cooling, latent.open(together, r.Latent.Name, m.water.why))
	} else {
		e.Cooling = append(e.Cooling, f.cycled(latent.cover(together, r.Latent.Name, r.Latent.Gain.Latent, least), r.Latent.Hour))
	}
	if m.anyDark() {
		c := dry.open(dark, "lights off", m.water.why)
		if known {
			c = dry.cover(dark, "lights off", w.LightsOff, least)
		}
		e.Dehumidifying = append(e.Dehumidifying, c)
	}
	if m.anyLit() {
		c := dry.open(lit, "lights on", m.water.why)
		if known {
			c = m.cycledWater(f, dry.cover(lit, "lights on", w.LightsOn-m.on.latent.Water(latentOf(f.coils)), least))
		}
		e.Dehumidifying = append(e.Dehumidifying, c)
	}
}

// cycled weighs a yes that rests on coils running the whole of hour h.
func (f wetStock) cycled(c Cover[units.Heat], h Hour) Cover[units.Heat] {
	took := f.cycling(h)
	c.Cycling = units.Unknown[Cycling[units.Heat]]("the coils run the whole hour, or the dehumidifiers do without them")
	if len(f.coils) > 0 && f.run(h) < nearlyAll && units.Exceeds(c.Needed, latentOf(f.dryers)) {
		c.Cycling = units.Is(Cycling[units.Heat]{f.run(h), c.Needed, took})
	}
	if c.Holds == Yes && units.Exceeds(c.Needed, took) {
		c.Holds = CannotTell
	}
	if c.HoldsWithoutOne == Yes && units.Exceeds(c.Needed, f.withoutLargest().cycling(h)) {
		c.HoldsWithoutOne = CannotTell
	}
	return c
}

// cycledWater does it for the lit hour in which cycling coils leave most to the
// dehumidifiers.
func (m *model) cycledWater(f wetStock, c Cover[units.WaterRate]) Cover[units.WaterRate] {
	c.Cycling = units.Unknown[Cycling[units.WaterRate]]("the coils run the whole hour, or there are none")
	if len(f.coils) == 0 {
		return c
	}
	left, run := m.leftByCoils(f)
	if run < nearlyAll && units.Exceeds(left, c.Needed) {
		c.Cycling = units.Is(Cycling[units.WaterRate]{run, left, c.Installed.Or(0)})
	}
	if have, ok := c.Installed.Get(); ok && c.Holds == Yes && units.Exceeds(left, have) {
		c.Holds = CannotTell
	}
	left, _ = m.leftByCoils(f.withoutDryer())
	if have, ok := c.WithoutLargest.Get(); ok && c.HoldsWithoutOne == Yes && units.Exceeds(left, have) {
		c.HoldsWithoutOne = CannotTell
	}
	return c
}

// leftByCoils returns the largest rate that cycling coils leave in a lit hour, and how
// much of that hour they run.
func (m *model) leftByCoils(f wetStock) (most units.WaterRate, run units.Ratio) {
	for _, d := range designDays(m.day(Summer, undried()), m.day(Winter, undried())) {
		for _, h := range d.Hours {
			if !h.fullyLit() {
				continue
			}
			share := f.run(h)
			left := m.latentAt(float64(h.Lit)).Water(max(0, h.Vapour)) - m.on.latent.Water(units.Times(latentOf(f.coils), float64(share)))
			if left > most {
				most, run = left, share
			}
		}
	}
	return most, run
}
