package heat

import (
	"branchwork/loads"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Fuel is what an unvented burner burns.
type Fuel struct {
	Name   string
	Latent units.Ratio // share of the fuel heat that leaves as water vapour
}

// NaturalGas and Propane return what burning a fuel in a room gives off, as shares of
// its higher heating value.
//
//	natural gas  0.1150 lb CO₂ and 0.0941 lb water per 1,000 BTU: 901 dry, 99 vapour
//	propane      0.1383 lb CO₂ and 0.0755 lb water per 1,000 BTU: 921 dry, 79 vapour
//
// Natural gas is taken as methane. All heat and water stay in the room: an unvented
// burner has no flue. Bottled carbon dioxide gives off neither.
//
// Source: combustion arithmetic on published heating values (matmake.com, seen;
// shares derived).
func NaturalGas() Fuel { return Fuel{"natural gas", 0.099} }

// Propane is described at NaturalGas.
func Propane() Fuel { return Fuel{"propane", 0.079} }

// BurnerGain returns the heat of burning fuel f at rate q, counted on the higher
// heating value, without a flue.
//
//	latent = share · Q,  sensible = (1 − share) · Q
//
// Source: combustion arithmetic at NaturalGas (derived). Checked: burn-natural-gas,
// burn-propane in testdata/published/heat.toml.
func BurnerGain(q units.Heat, f Fuel) Gain {
	return Gain{Sensible: units.Times(q, 1-float64(f.Latent)), Latent: units.Times(q, float64(f.Latent))}
}

type burner struct {
	load   loads.Load
	source Source
	burns  units.Heat // that reaches the room, of all units, duty applied
	fuel   Fuel
	share  hours
}

func (m *model) placeBurner(l loads.Load) {
	if !l.HoursKnown {
		m.assumeOf(l.Path+".hours", "while the lights are on", "not given; carbon dioxide is of use in light only", steps.CommonPractice)
		l.Hours, l.HoursKnown = m.windows, true
	}
	q, ok := l.Item.Burns.Get()
	if !ok {
		m.miss("%s: the fuel heat that it burns is not given", l.Path)
	} else {
		b := burner{l, Burners, units.Times(q, float64(l.Count)*float64(l.Item.Duty.Or(1))), m.fuelOf(l), shares(l.Hours)}
		m.burners = append(m.burners, b)
	}
	if l.Running.Known() {
		m.placeElectric(l)
	} else {
		m.note("%s: the watts of its valve and ignition are not given and left out", l.Path)
	}
}

// placeVented adds a fuel heater that runs by stated hours. What it burns leaves by a
// flue, with the water and a fifth of the heat.
func (m *model) placeVented(l loads.Load, q units.Heat) {
	m.assumeOf(l.Path+".efficiency", units.Round(ventedEfficiency, 2), "not given; a heater with a flue is taken", steps.CommonPractice)
	each := units.Times(q, ventedEfficiency*float64(l.Item.Duty.Or(1)))
	m.burners = append(m.burners, burner{l, Heaters, units.Times(each, float64(l.Count)), Fuel{Name: "fuel with a flue"}, m.shareOf(l)})
	if l.Running.Known() {
		m.placeElectric(l)
	}
}

func (m *model) fuelOf(l loads.Load) Fuel {
	switch l.Item.Fuel.Or("") {
	case "propane":
		return Propane()
	case "natural-gas":
		return NaturalGas()
	}
	m.assumeOf(l.Path+".fuel", "natural-gas", "not given; it gives off more water than propane", seen("matmake-fuels", ""))
	return NaturalGas()
}

func (b burner) gain(h int, w *steps.Work) Gain {
	g := BurnerGain(units.Times(b.burns, b.share[h]), b.fuel)
	w.Add(steps.Result("heat of burning "+b.fuel.Name+", "+b.load.Name, "Q · s", g.Total().BTUPerHour(), "BTU/h",
		steps.Cite{Ref: "matmake-fuels", How: steps.Derived}, steps.In("Q", b.burns.BTUPerHour(), "BTU/h"),
		steps.In("s", b.share[h], ""), steps.In("share as vapour", b.fuel.Latent, "")))
	return g
}
