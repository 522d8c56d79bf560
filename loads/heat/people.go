package heat

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Heat of one person at light bench work, which trimming and tending are: 80 W dry
// and 140 W as vapour at 24 °C; a fifth less dry at 27 °C, the total unchanged.
const (
	personDry   = 80.0
	personTotal = 220.0
	warmFrom    = 24.0 // °C
	warmTo      = 27.0
)

// PersonGain returns the heat of one person at light bench work in air of
// temperature t.
//
//	dry = 80 W up to 24 °C, falling to 64 W at 27 °C and above; dry + vapour = 220 W
//
// Between the two published temperatures the line is straight; outside them the
// nearer value stands. The total never depends on t.
//
// Source: ASHRAE Fundamentals 2013 ch. 18 table 1, adjusted for men and women (seen).
func PersonGain(t units.Temperature) Gain {
	x := min(1, max(0, (float64(t)-warmFrom)/(warmTo-warmFrom)))
	dry := personDry * (1 - 0.2*x)
	return Gain{Sensible: units.Heat(dry), Latent: units.Heat(personTotal - dry)}
}

// people returns the heat of the people at work: while the lights are on, and in a
// room without lights at any hour.
func (m *model) people(lit float64, w *steps.Work) Gain {
	n, ok := m.room.People.Get()
	if !ok || n == 0 {
		return Gain{}
	}
	m.assume("people.hours", "while the lights are on", "when people are there, and at what work, is not given; light bench work is taken",
		steps.Cite{Ref: "ashrae-fundamentals", Edition: "2013", At: "ch. 18 table 1", How: steps.Seen})
	present, at := lit, m.on
	if !m.hasLight {
		present, at = 1, m.off
	}
	if present == 0 {
		return Gain{}
	}
	one := PersonGain(at.temp)
	g := Gain{units.Times(one.Sensible, n*present), units.Times(one.Latent, n*present)}
	w.Add(steps.Result("heat of people", "n · 220 W · s · 3.412142", g.Total().BTUPerHour(), "BTU/h",
		steps.Cite{Ref: "ashrae-fundamentals", Edition: "2013", At: "ch. 18 table 1", How: steps.Seen},
		steps.In("n", n, ""), steps.In("dry, of each", one.Sensible, "W"), steps.In("vapour, of each", one.Latent, "W"),
		steps.In("s", present, "")))
	return g
}
