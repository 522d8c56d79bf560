package heat

import (
	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// dryer is a dehumidifier that stands in the room.
type dryer struct {
	load     loads.Load
	watts    units.Power     // of all units while running
	takes    units.WaterRate // of all units while running
	share    hours           // of each hour that it may run
	follows  bool            // runs as much as there is water; else its duty is stated
	hasWatts bool
}

// Usual efficiencies of dehumidifiers, in litres per kilowatt-hour. The first is a
// published minimum for portable units of 25 to 50 pints per day; the second is
// common practice for larger ones, no source.
const (
	smallFactor = 1.8
	largeFactor = 2.5
	smallPints  = 50
)

func (m *model) placeDryer(l loads.Load) {
	p, hasWatts := l.Running.Get()
	takes, hasTakes := l.Item.Removes.Get()
	switch {
	case !hasWatts && !hasTakes:
		m.miss("%s: neither its watts nor the water it removes is known", l.Path)
		return
	case !hasWatts:
		m.miss("%s: its watts are not known (%s)", l.Path, why(l.Running.Why()))
	case !hasTakes:
		takes = m.usualTake(l, p)
	}
	n := float64(l.Count)
	duty, stated := l.Item.Duty.Get()
	d := dryer{load: l, watts: units.Times(p, n), takes: units.Times(takes, n), share: m.shareOf(l), follows: !stated, hasWatts: hasWatts}
	if stated {
		d.takes = units.Times(d.takes, float64(duty))
	}
	m.dryers = append(m.dryers, d)
}

// usualTake estimates what a dehumidifier of known watts removes.
func (m *model) usualTake(l loads.Load, p units.Power) units.WaterRate {
	take := func(factor float64) units.WaterRate { return units.WaterRate(float64(p) / 1000 * 24 * factor) }
	factor := smallFactor
	if take(factor).PintsPerDay() > smallPints {
		factor = largeFactor
	}
	t := take(factor)
	m.assumeOf(l.Path+".removes", t.String(), "not given; "+units.Round(factor, 1)+" L per kWh is taken; ask for the capacity at the room's state",
		seen("dehumidifier-test", "key efficiency criteria"))
	return t
}

// DryerGain returns what a dehumidifier standing in a room does to it while it draws
// power p and condenses water at rate c, of heat of evaporation latent.
//
//	sensible = P + c · λ,  latent = −c · λ
//
// Its electric power and the heat of evaporation of all that it condenses come back
// as dry heat; the room's total rises by the electric power alone. (A cooling coil
// whose condenser stands outdoors takes both away.)
//
// Source: first law; marshvac.com in words (seen).
func DryerGain(p units.Power, c units.WaterRate, latent air.Latent) Gain {
	q := latent.Of(c)
	return Gain{Sensible: p.Heat() + q, Latent: -q}
}

// dried runs the dehumidifiers of an hour in which water vapour carrying the heat
// vapour is given off. They take no more than there is; one whose duty is not stated
// runs, and draws power, only as much as that needs. Where the plants' water is not
// known its power counts in full.
//
//	run = min(1, vapour / capacity)
func (m *model) dried(h int, lit float64, vapour units.Heat, w *steps.Work) (g Gain, c units.WaterRate, p units.Power) {
	latent := m.latentAt(lit)
	capacity := units.WaterRate(0)
	for _, d := range m.dryers {
		capacity += units.Times(d.takes, d.share[h])
	}
	if capacity <= 0 {
		return
	}
	there := latent.Water(max(0, vapour))
	run := min(1, units.Per(there, capacity))
	for _, d := range m.dryers {
		share := d.share[h]
		taken := units.Times(d.takes, share*run)
		used := units.Times(d.watts, share)
		if d.follows && m.water.known {
			used = units.Times(used, run)
		}
		one := DryerGain(used, taken, latent)
		w.Add(noted(steps.Result("dry heat of "+d.load.Name, "3.412142 · P + c · λ", one.Sensible.BTUPerHour(), "BTU/h", seen("marshvac", ""),
			steps.In("P", used, "W"), poundsPerHour("c", taken), steps.In("λ", latent.BTUPerPound(), "BTU/lb")),
			"there is water for it to run "+units.Round(100*run*share, 1)+" % of the hour"))
		g, c, p = g.Plus(one), c+taken, p+used
	}
	return g, c, p
}
