package heat

import (
	"fmt"

	"branchwork/loads/units"
)

func clockHour(h int) string { return fmt.Sprintf("%02d:00", h) }

// heatAndDry tells whether the room needs heating and dehumidifying in the same hour:
// with the lights off plants go on giving off water, which takes heat out of the air,
// and nothing puts it back. Cooling alone cannot serve such an hour.
//
// Source: makers' pages in words (seen): dehumidifying plus reheat.
func (m *model) heatAndDry(r *Room) {
	if !m.water.known {
		r.HeatAndDryWhy = "cannot tell: " + m.water.why
		return
	}
	days := designDays(m.day(Summer, undried()), m.day(Winter, undried()))
	c, ok := search("heat and dry", FullCanopy, days, func(h Hour) bool { return h.Vapour > 0 && h.Sensible+h.Vented.Sensible < 0 }, byCold)
	if !ok {
		return
	}
	r.HeatAndDry = true
	w := Reheat{Day: c.Day, At: c.At, Lit: !c.fullyDark(), Before: byCold(c.Hour), Water: m.latentAt(m.lit[c.At]).Water(c.Vapour),
		After: units.Unknown[units.Heat]("no dehumidifier stands in the room")}
	if len(m.dryers) > 0 {
		w.After = units.Is(max(0, byCold(m.day(c.Day, asItIs()).Hours[c.At])))
	}
	r.Reheat = w
	when := "lights off"
	if w.Lit {
		when = "lights on"
	}
	r.HeatAndDryWhy = fmt.Sprintf("%s at %s on the %s: %s of heating and %s pint/day of water to remove in the same hour",
		when, clockHour(w.At), w.Day, w.Before, units.Round(w.Water.PintsPerDay(), 0))
	switch after, ok := w.After.Get(); {
	case !ok:
		r.HeatAndDryWhy += "; no dehumidifier stands in the room, and cooling alone would chill it further"
	case after <= 0:
		r.HeatAndDryWhy += "; the heat that the room's dehumidifiers give back covers it"
	default:
		r.HeatAndDryWhy += fmt.Sprintf("; %s with the heat that the room's dehumidifiers give back", after)
	}
	m.note("%s", r.HeatAndDryWhy)
}
