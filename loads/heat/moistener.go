package heat

import (
	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// steamKWhPerLitre is the electricity that makes a litre of steam from water of 60 °F:
// 152 + 970.3 = 1,122 BTU/lb. Derived.
const steamKWhPerLitre = 0.725

// MistGain returns the gain of a humidifier of power p that adds water to the air of a
// room without heat of its own: ultrasonic, fogging, wetted pad. adds is the rate of
// water and latent its heat of evaporation.
//
//	sensible = P − ṁ · λ,  latent = ṁ · λ
//
// The heat of evaporation comes out of the room, so the total rises by the electric
// power alone.
//
// Source: humidification handbook of hygromatik.com (seen).
func MistGain(p units.Power, adds units.WaterRate, latent air.Latent) Gain {
	q := latent.Of(adds)
	return Gain{Sensible: p.Heat() - q, Latent: q}
}

// SteamGain returns the gain of an electric steam humidifier of power p that adds steam
// at rate adds. All its electric power enters the room, most of it as vapour.
//
//	latent = min(P, ṁ · λ),  sensible = P − latent
//
// Source: first law; humidification handbook (seen). The vapour's own warmth, some
// 60 BTU/lb, is what is left as dry heat.
func SteamGain(p units.Power, adds units.WaterRate, latent air.Latent) Gain {
	q := min(p.Heat(), latent.Of(adds))
	return Gain{Sensible: p.Heat() - q, Latent: q}
}

type moistener struct {
	load  loads.Load
	watts units.Power
	adds  units.WaterRate
	share hours
}

func (m *model) placeMoistener(l loads.Load) {
	n := float64(l.Count)
	p, hasWatts := l.Running.Get()
	if !hasWatts {
		m.miss("%s: its watts are not known (%s)", l.Path, why(l.Running.Why()))
	}
	adds, hasAdds := l.Item.Adds.Get()
	adds = units.Times(adds, float64(l.Item.Duty.Or(1)))
	switch {
	case hasAdds:
	case l.Item.Steam && hasWatts:
		adds = units.WaterRate(float64(p) / 1000 * 24 / steamKWhPerLitre)
		m.assumeOf(l.Path+".adds", adds.String(), "not given; 0.725 kWh makes a litre of steam", steps.Cite{Ref: "hygromatik", How: steps.Derived})
	default:
		m.note("%s: the water it adds is not given; only its watts count", l.Path)
	}
	m.moistener = append(m.moistener, moistener{l, units.Times(p, n), units.Times(adds, n), m.shareOf(l)})
}

func (m *model) moistened(h int, lit float64, w *steps.Work) (g Gain, p units.Power) {
	for _, x := range m.moistener {
		used, adds := units.Times(x.watts, x.share[h]), units.Times(x.adds, x.share[h])
		one := MistGain(used, adds, m.latentAt(lit))
		formula := "3.412142 · P − ṁ · λ"
		if x.load.Item.Steam {
			one, formula = SteamGain(used, adds, m.latentAt(lit)), "3.412142 · P − min(3.412142 · P, ṁ · λ)"
		}
		w.Add(steps.Result("dry heat of "+x.load.Name, formula, one.Sensible.BTUPerHour(), "BTU/h", seen("hygromatik", ""),
			steps.In("P", used, "W"), poundsPerHour("ṁ", adds), steps.In("λ", m.latentAt(lit).BTUPerPound(), "BTU/lb")))
		g, p = g.Plus(one), p+used
	}
	return g, p
}
