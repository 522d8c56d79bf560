package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Shares of the water applied. Runoff and uptake: common practice within published
// bounds (10 to 20 % runs off; 90 to 99.5 % of what roots take up leaves as vapour).
const (
	defaultRunoff units.Ratio = 0.15
	uptakeShare   units.Ratio = 0.97
)

// LitShare returns the share of a day's water that is given off while the lights are
// on, for litHours of light a day.
//
//	0 h → 0,  12 h → 0.80,  18 h → 0.90,  24 h → 1;  straight lines between
//
// No measurement was found: plants lose little water in the dark, wet soil and floors
// go on. Published practice lies between 70 and 95 % for twelve hours.
//
// Source: common practice, no source.
func LitShare(litHours float64) units.Ratio {
	points := [][2]float64{{0, 0}, {12, 0.80}, {18, 0.90}, {24, 1}}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if litHours <= b[0] {
			return units.Ratio(a[1] + (b[1]-a[1])*(litHours-a[0])/(b[0]-a[0]))
		}
	}
	return 1
}

// transpiration is the water that plants, soil and wet floors give off.
type transpiration struct {
	known   bool
	why     string          // where it is not
	perDay  units.WaterRate // over the whole day
	litRate units.WaterRate // while lit, as litres per day
	offRate units.WaterRate // while dark
}

// Evaporated returns the water that a day's watering puts into the air.
//
//	w = watering · (1 − runoff) · uptake      L/day
//
// Source: common practice, no source, within published bounds (70 to 95 % of what is
// applied; HPAC, Latent Loads Matter, and others).
func Evaporated(watering units.WaterRate, runoff, uptake units.Ratio) units.WaterRate {
	return units.Times(watering, (1-float64(runoff))*float64(uptake))
}

// setWater finds what the plants give off by day and by night.
func (m *model) setWater() {
	applied, ok := m.room.Watering.Get()
	if !ok {
		m.water.why = "watering is not given"
		m.note("watering is not given: all heat counts as dry heat; the total is the same, but the water to remove is unknown")
		return
	}
	runoff, given := m.room.Runoff.Get()
	if !given {
		runoff = defaultRunoff
		m.assume("runoff", runoff.String(), "not given; 10 to 20 % of the water applied runs off", seen("desert-aire-faq", ""))
	}
	m.assume("uptake", uptakeShare.String(), "share of the water kept that leaves as vapour", seen("water-heat-load", ""))
	perDay := Evaporated(applied, runoff, uptakeShare)
	m.work.Add(steps.Result("water given off in a day", "w = W · (1 − runoff) · uptake", perDay, "L/day", steps.CommonPractice,
		steps.In("W", applied, "L/day"), steps.In("runoff", runoff, ""), steps.In("uptake", uptakeShare, "")))
	m.split(perDay, LitShare(m.lit.sum()))
	if m.water.litRate > 0 && m.water.offRate > 0 {
		m.assume("transpiration.lit_share", LitShare(m.lit.sum()).String(), "share of the day's water given off while lit; 0.8 at 12 h of light, 0.9 at 18 h",
			steps.CommonPractice)
	}
}

// split divides a day's water between lit and dark hours. Where there is only one
// kind of hour it takes all.
func (m *model) split(perDay units.WaterRate, lit units.Ratio) {
	on := m.lit.sum()
	off := 24 - on
	switch {
	case on == 0:
		lit = 0
	case off == 0:
		lit = 1
	}
	m.water = transpiration{known: true, perDay: perDay}
	if on > 0 {
		m.water.litRate = units.Times(perDay, float64(lit)*24/on)
		m.work.Add(steps.Result("water given off while lit", "w · share · 24 / hours lit", m.water.litRate/24, "L/h", steps.CommonPractice,
			steps.In("w", perDay, "L/day"), steps.In("share", lit, ""), steps.In("hours lit", on, "h")))
	}
	if off > 0 {
		m.water.offRate = units.Times(perDay, (1-float64(lit))*24/off)
		m.work.Add(steps.Result("water given off while dark", "w · (1 − share) · 24 / hours dark", m.water.offRate/24, "L/h", steps.CommonPractice,
			steps.In("w", perDay, "L/day"), steps.In("share", lit, ""), steps.In("hours dark", off, "h")))
	}
}

// transpired returns the heat that plants turn from dry into vapour in an hour. Its
// total is zero.
//
//	sensible = −w · λ,  latent = +w · λ
//
// Source: HPAC, Latent Loads Matter (seen): adding it to the lamps' heat counts it
// twice.
func (m *model) transpired(lit float64, w *steps.Work) Gain {
	q := m.latentAt(lit).Of(m.waterAt(lit))
	if m.water.known {
		w.Add(steps.Result("heat that plants turn into vapour", "w · λ", q.BTUPerHour(), "BTU/h", seen("hpac-latent", ""),
			poundsPerHour("w", m.waterAt(lit)), steps.In("λ", m.latentAt(lit).BTUPerPound(), "BTU/lb")))
	}
	return Gain{-q, q}
}

// waterAt returns the mean rate of an hour.
func (m *model) waterAt(lit float64) units.WaterRate {
	return units.Times(m.water.litRate, lit) + units.Times(m.water.offRate, 1-lit)
}

// latentAt returns the heat of evaporation at the mean set point of an hour.
func (m *model) latentAt(lit float64) air.Latent {
	return units.Times(m.on.latent, lit) + units.Times(m.off.latent, 1-lit)
}
