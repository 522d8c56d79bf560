package heat

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// utilisation is the share of the photons of a room's fixtures that reach the canopy.
// Common practice, no source: 0.85 to 0.95 over a full canopy between pale walls.
const utilisation units.Ratio = 0.9

// MeanPPFD returns the mean photon flux density on a canopy under fixtures that send out
// flux, in µmol/(m²·s).
//
//	PPFD = Φ · η / A      Φ in µmol/s, A in m²
//
// η (eta) is the share of the photons that reach the canopy; with η = 1 the result is the
// most that a mean can be, whatever the optics. It says nothing about evenness.
//
// Source: definition (photons per area and time), derived. Checked: ppfd in
// testdata/published/heat.toml.
func MeanPPFD(flux units.Photons, eta units.Ratio, canopy units.Area) float64 {
	return float64(flux) * float64(eta) / canopy.SquareMetres()
}

// DailyLight returns the daily light integral of a photon flux density ppfd held for so
// many hours, in mol/(m²·day).
//
//	DLI = PPFD · 3600 · h / 10⁶
//
// Source: definition, as encyclopaedias give it (seen).
func DailyLight(ppfd, hours float64) float64 { return ppfd * 3600 * hours / 1e6 }

// checkLight sets lighting and cooling beside their usual ranges.
func (m *model) checkLight(r *Room) {
	var flux units.Photons
	var watts units.Power
	moles, missing, lamps := 0.0, "", 0
	for _, l := range m.loads {
		if sourceOf(l) != Lights || l.Item.Outdoors {
			continue
		}
		lamps++
		each, ok := l.Item.Photons.Get()
		if !ok {
			missing = l.Path + ".photons is not given"
		}
		all := units.Times(each, float64(l.Count)*float64(l.Item.Level.Or(1)))
		flux += all
		moles += float64(all) * m.shareOf(l).sum()
		p, ok := l.Running.Get()
		if !ok {
			missing = l.Path + ": its watts are not known"
		}
		watts += units.Times(p, float64(l.Count))
	}
	canopy, ok := m.room.Canopy.Get()
	none := func(why string) {
		r.Light.PPFD, r.Light.DLI, r.Light.Watts = units.Unknown[float64](why), units.Unknown[float64](why), units.Unknown[float64](why)
	}
	switch {
	case lamps == 0:
		none("the room has no lights")
	case !ok || canopy <= 0:
		none("the canopy's area is not given")
	default:
		if missing != "" {
			none(missing)
		} else {
			ppfd := MeanPPFD(flux, utilisation, canopy)
			dli := 0.0
			if flux > 0 {
				dli = DailyLight(ppfd, moles/float64(flux))
			}
			m.assume("utilisation", utilisation.String(), "share of the photons that reach the canopy is not given", steps.CommonPractice)
			r.Light.PPFD, r.Light.DLI = units.Is(ppfd), units.Is(dli)
			m.work.Add(steps.Result("mean photon flux density", "Φ · η / A", ppfd, "µmol/(m²·s)", steps.CommonPractice,
				steps.In("Φ", flux, "µmol/s"), steps.In("η", utilisation, ""), steps.In("A", canopy.SquareMetres(), "m²")))
			m.work.Add(steps.Result("daily light integral", "PPFD · 3600 · h / 10⁶", dli, "mol/(m²·day)", steps.CommonPractice,
				steps.In("PPFD", ppfd, "µmol/(m²·s)")))
		}
		r.Light.Watts = m.density(watts, canopy)
	}
	r.Light.Cooling = m.perLighting(r, watts)
	m.compareLight(r)
}

func (m *model) density(watts units.Power, canopy units.Area) units.Known[float64] {
	if watts <= 0 {
		return units.Unknown[float64]("the watts of its lights are not known")
	}
	x := float64(watts) / float64(canopy)
	m.work.Add(steps.Result("lighting on the canopy", "P / A", x, "W/ft²", steps.CommonPractice, steps.In("P", watts, "W"), steps.In("A", canopy, "ft²")))
	return units.Is(x)
}

// perLighting returns tons of cooling load per kilowatt of lighting. All watts turned
// to heat make 0.284; fans and dehumidifiers add, walls may take some.
func (m *model) perLighting(r *Room, watts units.Power) units.Known[float64] {
	if watts <= 0 || r.Tons <= 0 {
		return units.Unknown[float64]("no lighting watts, or nothing to cool")
	}
	return units.Is(r.Tons / (float64(watts) / 1000))
}

// compareLight lists each figure beside its usual range; outside it is a note.
func (m *model) compareLight(r *Room) {
	practice, trade := steps.CommonPractice, seen("ppfd-stages", "")
	for _, c := range []struct {
		what      string
		value     units.Known[float64]
		low, high float64
		unit      string
		cite      steps.Cite
	}{
		{"mean photon flux density", r.Light.PPFD, 200, 900, "µmol/(m²·s)", trade},
		{"daily light integral", r.Light.DLI, 13, 39, "mol/(m²·day)", steps.Cite{Ref: "ppfd-stages", At: "200 at 18 h to 900 at 12 h", How: steps.Derived}},
		{"lighting on the canopy", r.Light.Watts, 12, 60, "W/ft²", practice},
		{"cooling load per kW of lighting", r.Light.Cooling, 0.20, 0.40, "ton/kW", practice},
	} {
		x, ok := c.value.Get()
		if !ok {
			continue
		}
		out := x < c.low || x > c.high
		r.Light.Checks = append(r.Light.Checks, Range{c.what, x, c.low, c.high, c.unit, out, c.cite})
		if out {
			m.note("%s is %s %s; usual is %s to %s (%s)", c.what, units.Round(x, 2), c.unit, units.Round(c.low, 2), units.Round(c.high, 2), c.cite)
		}
	}
}
