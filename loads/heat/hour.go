package heat

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// option is one way to work an hour.
type option struct {
	canopy Canopy
	drying bool // dehumidifiers in the room run
}

func asItIs() option   { return option{FullCanopy, true} }
func firstDay() option { return option{SmallPlants, true} }
func undried() option  { return option{FullCanopy, false} }

// key is a day worked one way.
type key struct {
	name DayName
	option
}

// day works the 24 hours of a day, once.
func (m *model) day(name DayName, o option) Day {
	if d, ok := m.worked[key{name, o}]; ok {
		return d
	}
	d := Day{Name: name, Whole: true}
	outside := m.surroundings(name)
	for h := range 24 {
		var whole bool
		d.Hours[h], whole = m.hour(outside[h], h, o, nil)
		d.Whole = d.Whole && whole
	}
	m.worked[key{name, o}] = d
	return d
}

// hour works one hour. whole is false where the air around is not known and a part
// that hangs on it is left out.
func (m *model) hour(a around, h int, o option, w *steps.Work) (out Hour, whole bool) {
	lit := m.lit[h]
	out = Hour{At: h, Lit: units.Ratio(lit), SetPoint: m.setPoint(lit), Around: a.temp}
	parts := map[Source]Gain{}
	add := func(s Source, g Gain) { parts[s] = parts[s].Plus(g) }
	electric := m.electricAt(h, w)
	for s, g := range electric.gains {
		add(s, g)
	}
	out.Electric += electric.watts
	for _, b := range m.burners {
		add(b.source, b.gain(h, w))
	}
	add(People, m.people(lit, w))
	g, p := m.moistened(h, lit, w)
	add(Humidifiers, g)
	out.Electric += p
	if o.canopy == FullCanopy {
		add(Plants, m.transpired(lit, w))
	}
	g, whole = m.conducted(a, lit, w)
	add(Envelope, g)
	whole = m.leaked(a, lit, add, w) && whole
	whole = m.ventilated(a, lit, &out, add, w) && whole
	for _, s := range Sources() { // in order: sums of floats depend on it
		out.Vapour += parts[s].Latent
	}
	if o.drying {
		g, out.Removed, p = m.dried(h, lit, out.Vapour, w)
		add(Dehumidifiers, g)
		out.Electric += p
	}
	for _, s := range Sources() {
		if g, ok := parts[s]; ok && g != (Gain{}) {
			out.Parts = append(out.Parts, Part{s, g})
			out.Gain = out.Gain.Plus(g)
		}
	}
	return out, whole
}

// leaked adds the air that leaks in.
func (m *model) leaked(a around, lit float64, add func(Source, Gain), w *steps.Work) (whole bool) {
	if m.leak <= 0 {
		return true
	}
	s, l := m.carried("air leaking in", m.leak, a, lit, w)
	add(Infiltration, Gain{s.Or(0), l.Or(0)})
	return s.Known()
}

// ventilated adds the room's exhaust: as a gain where it brings heat or water in, and
// apart from the sums where it carries them off.
func (m *model) ventilated(a around, lit float64, out *Hour, add func(Source, Gain), w *steps.Work) (whole bool) {
	v, ok := m.room.Exhaust.Get()
	if !ok || v <= 0 {
		return true
	}
	s, l := m.carried("exhaust", v, a, lit, w)
	add(Ventilation, Gain{max(0, s.Or(0)), max(0, l.Or(0))})
	out.Vented = Gain{min(0, s.Or(0)), min(0, l.Or(0))}
	return s.Known()
}
