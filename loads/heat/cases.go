package heat

import (
	"fmt"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// near is how far from fully lit or fully dark an hour may be for rounding.
const near = 1e-9

// designDays returns the days that design cases are picked from. A day whose outside
// air is unknown competes only where no other is whole.
func designDays(days ...Day) []Day {
	var whole []Day
	for _, d := range days {
		if d.Whole {
			whole = append(whole, d)
		}
	}
	if len(whole) == 0 {
		return days[:1]
	}
	return whole
}

// search returns the hour that scores highest; of equals, the first.
func search(name string, canopy Canopy, days []Day, fits func(Hour) bool, score func(Hour) units.Heat) (Case, bool) {
	var best Case
	found := false
	for _, d := range days {
		for _, h := range d.Hours {
			if fits(h) && (!found || units.Exceeds(score(h), score(best.Hour))) {
				best, found = Case{Name: name, Day: d.Name, Canopy: canopy, Hour: h}, true
			}
		}
	}
	return best, found
}

func anyHour(Hour) bool            { return true }
func byTotal(h Hour) units.Heat    { return h.Total() }
func bySensible(h Hour) units.Heat { return h.Sensible }
func byLatent(h Hour) units.Heat   { return h.Latent }
func byVented(h Hour) units.Heat   { return h.Sensible + h.Vented.Sensible }
func byCold(h Hour) units.Heat     { return -byVented(h) }
func (h Hour) fullyLit() bool      { return float64(h.Lit) > 1-near }
func (h Hour) fullyDark() bool     { return float64(h.Lit) < near }
func litFrom(most units.Ratio) func(Hour) bool {
	return func(h Hour) bool { return float64(h.Lit) >= float64(most)-near }
}
func darkTo(least units.Ratio) func(Hour) bool {
	return func(h Hour) bool { return float64(h.Lit) <= float64(least)+near }
}

// pick finds the design cases. They fall in different hours and are sized for by
// different parts of the equipment, so that none stands for another:
//
//   - largest total: the plant;
//   - largest sensible: the air side. It is looked for with full canopy and with small
//     plants, because on the first day of a crop all lamp heat is dry;
//   - largest latent: the water, before any dehumidifier;
//   - least sensible: heating, where it is negative. It too is looked for with small
//     plants, when there is no water whose removal would give heat back. Where the
//     water is not known no dehumidifier is counted on to run.
func (m *model) pick(r *Room) {
	days := designDays(r.Summer, r.Winter)
	r.Peak, _ = search("largest total", FullCanopy, days, anyHour, byTotal)
	small := designDays(m.day(Summer, firstDay()), m.day(Winter, firstDay()))
	canopy := FullCanopy
	if !m.water.known {
		canopy = SmallPlants // nothing is given off in these hours either
	}
	r.Sensible, _ = search("largest sensible", canopy, days, anyHour, bySensible)
	if s, ok := search("largest sensible", SmallPlants, small, anyHour, bySensible); ok && m.water.known && units.Exceeds(s.Sensible, r.Sensible.Hour.Sensible) {
		r.Sensible = s
	}
	wet := designDays(m.day(Summer, undried()), m.day(Winter, undried()))
	r.Latent, _ = search("largest latent", FullCanopy, wet, anyHour, byLatent)
	r.Coldest = m.coldest(m.water.known, bySensible)
	if m.room.Exhaust.Known() {
		c := m.coldest(m.water.known, byVented)
		c.Gain, c.Exhaust = c.Gain.Plus(c.Vented), Runs
		r.ColdestVented, r.Coldest.Exhaust = units.Is(c), Off
	} else {
		r.ColdestVented = units.Unknown[Case]("the room has no exhaust")
	}
	r.Peak.Dehumidifiers, r.Sensible.Dehumidifiers, r.Latent.Dehumidifiers = m.dryersWhere(true), m.dryersWhere(true), m.dryersWhere(false)
	m.pickLights(r, days)
	m.undimmed(r, days)
	m.recordPeak(r)
}

// coldest returns the hour that asks for most heating, by the dry heat that score gives.
func (m *model) coldest(drying bool, score func(Hour) units.Heat) Case {
	var worst Case
	for i, canopy := range []Canopy{FullCanopy, SmallPlants} {
		o := option{canopy, drying}
		c, _ := search("least sensible", canopy, designDays(m.day(Summer, o), m.day(Winter, o)), anyHour, func(h Hour) units.Heat { return -score(h) })
		if i == 0 || !m.water.known || units.Exceeds(score(worst.Hour), score(c.Hour)) {
			worst = c // where the water is not known nothing is given off in these hours either
		}
	}
	worst.Dehumidifiers = m.dryersWhere(drying)
	return worst
}

// dryersWhere says what the room's dehumidifiers do in a case worked with or without
// them.
func (m *model) dryersWhere(drying bool) Running {
	switch {
	case len(m.dryers) == 0:
		return None
	case drying:
		return Runs
	}
	return Off
}

// undimmed finds the largest total with all lights at full level: the dimmer that the
// peak counts on is no limit of the lamps.
func (m *model) undimmed(r *Room, days []Day) {
	var more hours
	dimmed := false
	for i := range m.electric {
		e := &m.electric[i]
		if level := float64(e.load.Item.Level.Or(1)); e.source == Lights && level > 0 && level < 1 {
			dimmed = true
			for h := range more {
				more[h] += float64(e.watts(h).Heat()) * (1/level - 1)
			}
		}
	}
	if !dimmed {
		r.Undimmed = units.Unknown[units.Heat]("no light is dimmed")
		return
	}
	full := func(h Hour) units.Heat { return h.Total() + units.Heat(more[h.At]) }
	c, _ := search("undimmed", FullCanopy, days, anyHour, full)
	r.Undimmed = units.Is(full(c.Hour))
}

// pickLights finds the worst hour with the lights on and with them off.
func (m *model) pickLights(r *Room, days []Day) {
	most, least := units.Ratio(0), units.Ratio(1)
	for _, h := range r.Summer.Hours {
		most, least = max(most, h.Lit), min(least, h.Lit)
	}
	none := units.Unknown[Case]
	switch {
	case !m.hasLight || float64(most) < near:
		r.LightsOn = none("the room has no lights, or they are never on")
	default:
		c, _ := search("lights on", FullCanopy, days, litFrom(most), byTotal)
		c.Dehumidifiers = m.dryersWhere(true)
		r.LightsOn = units.Is(c)
		if !c.fullyLit() {
			m.note("no hour is lit from end to end; the lights-on figures are of the hour lit longest")
		}
	}
	switch {
	case !m.litKnown:
		r.LightsOff = none("when the lights are on is not given")
	case float64(least) > 1-near:
		r.LightsOff = none("the lights are never off")
	default:
		c, _ := search("lights off", FullCanopy, days, darkTo(least), byTotal)
		c.Dehumidifiers = m.dryersWhere(true)
		r.LightsOff = units.Is(c)
		if !c.fullyDark() {
			m.note("no hour is dark from end to end; the lights-off figures are of the hour lit shortest")
		}
	}
}

// recordPeak works the peak and the lights-off hour again with the working recorded.
func (m *model) recordPeak(r *Room) {
	m.recordCase(r.Peak)
	r.Tons, r.Ratio, r.Watts = r.Peak.Total().Tons(), r.Peak.Ratio(), r.Peak.Electric
	m.work.Add(steps.Result("cooling, in tons", "Q / 12,000", r.Tons, "ton", sp811(), steps.In("Q", r.Peak.Total().BTUPerHour(), "BTU/h")))
	if ratio, ok := r.Ratio.Get(); ok {
		m.work.Add(steps.Result("sensible heat ratio", "sensible / total", ratio, "", hpac(),
			steps.In("sensible", r.Peak.Gain.Sensible.BTUPerHour(), "BTU/h"), steps.In("total", r.Peak.Total().BTUPerHour(), "BTU/h")))
	}
	if c, ok := r.LightsOff.Get(); ok && (c.At != r.Peak.At || c.Day != r.Peak.Day) {
		m.recordCase(c)
	}
	for _, c := range []Case{r.Sensible, r.Latent, r.Coldest} {
		m.work.Add(total(c))
	}
}

func (m *model) recordCase(c Case) {
	o := option{c.Canopy, true}
	m.work.Add(steps.Choice(c.Name, fmt.Sprintf("%02d:00, %s", c.At, c.Day), "the hour worked below", steps.CommonPractice))
	m.hour(m.surroundings(c.Day)[c.At], c.At, o, &m.work)
	m.work.Add(total(c))
}

func total(c Case) steps.Step {
	return steps.Step{Name: fmt.Sprintf("%s: %02d:00, %s, %s", c.Name, c.At, c.Day, c.Canopy), Formula: "sensible + latent",
		Inputs: []steps.Input{steps.In("sensible", c.Gain.Sensible.BTUPerHour(), "BTU/h"), steps.In("latent", c.Gain.Latent.BTUPerHour(), "BTU/h")},
		Result: c.Total().BTUPerHour(), Unit: "BTU/h", Cite: hpac()}
}

func hpac() steps.Cite  { return seen("hpac-latent", "") }
func sp811() steps.Cite { return steps.Cite{Ref: "sp811", At: "appendix B", How: steps.Recalled} }
