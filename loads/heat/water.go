package heat

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// toRemove finds the water that has to leave the room's air on the summer design day:
// all vapour given off. Hours in which outside air carries more off than is given off
// count as zero.
//
// Dehumidifiers are sized for the rate of one period, not for the day's mean: with
// the lights off the cooling coil stands still while plants go on giving off water.
func (m *model) toRemove() units.Known[Water] {
	if !m.water.known {
		return units.Unknown[Water](m.water.why)
	}
	wet := m.day(Summer, undried())
	dry := m.day(Summer, asItIs())
	out := Water{FromPlants: m.water.perDay}
	for h, x := range wet.Hours {
		lit := m.lit[h]
		rate := m.latentAt(lit).Water(max(0, x.Vapour))
		out.PerDay += rate / 24
		out.RemovedByRoom += dry.Hours[h].Removed / 24
		other := rate - m.waterAt(lit) // people, burners, air: alike in both parts of the hour
		out.AmountOn += float64(m.water.litRate+other) / 24 * lit
		out.AmountOff += float64(m.water.offRate+other) / 24 * (1 - lit)
		if x.fullyLit() {
			out.LightsOn = max(out.LightsOn, rate)
		}
		if x.fullyDark() {
			out.LightsOff = max(out.LightsOff, rate)
		}
	}
	m.work.Add(steps.Result("water to remove in a day", "Σ vapour / λ", out.PerDay.PintsPerDay(), "pint/day", hpac(),
		steps.In("from plants", out.FromPlants, "L/day")))
	for _, p := range []struct {
		when string
		rate units.WaterRate
	}{{"lit", out.LightsOn}, {"dark", out.LightsOff}} {
		m.work.Add(steps.Result("water to remove while "+p.when+", as a daily rate", "largest hour · 24", p.rate.PintsPerDay(), "pint/day", hpac(),
			steps.In("largest hour", p.rate/24, "L/h")))
	}
	out.GovernsLightsOff = out.LightsOff > out.LightsOn
	return units.Is(out)
}

// checkCeiling notes a watering that the light cannot evaporate: vapour cannot carry
// more heat for long than the lamps bring in.
func (m *model) checkCeiling(r Room) {
	c, ok := r.LightsOn.Get()
	if !ok {
		return
	}
	plants, lamps := c.Part(Plants).Latent, c.Part(Lights).Sensible
	if lamps > 0 && units.Exceeds(plants, lamps) {
		m.note("the water given off while lit carries %s, more than the lamps bring in (%s): watering, runoff or canopy is off", plants, lamps)
	}
}
