package inventory

import "branchwork/loads/units"

// Form is how a panel's legs relate.
type Form int

const (
	TwoWire    Form = iota + 1 // one leg and neutral
	SplitPhase                 // two legs 180° apart, neutral in the middle
	Wye                        // three legs 120° apart, neutral in the middle
	HighLeg                    // delta with one winding's middle grounded; the second leg is high
)

// System is a panelboard's electrical system as its name says it.
type System struct {
	Name          string
	Form          Form
	LineToLine    units.Voltage // zero on a two-wire system
	LineToNeutral units.Voltage // of the legs that have one
	Legs          int
}

// Systems are the panel systems that a file may name. Nominal voltages as
// printed in ANSI C84.1; which of them a code of practice covers is the
// profile's question.
func Systems() []System {
	return []System{
		{"120/240 V 1ph", SplitPhase, 240, 120, 2},
		{"208Y/120 V 3ph", Wye, 208, 120, 3},
		{"480Y/277 V 3ph", Wye, 480, 277, 3},
		{"240/120 V 3ph high-leg", HighLeg, 240, 120, 3},
		{"120 V 1ph", TwoWire, 0, 120, 1},
		{"600Y/347 V 3ph", Wye, 600, 347, 3},
		{"400Y/230 V 3ph", Wye, 400, 230, 3},
	}
}

// SystemNamed returns the system of that name.
func SystemNamed(name string) (System, bool) {
	for _, s := range Systems() {
		if s.Name == name {
			return s, true
		}
	}
	return System{}, false
}

// Across is the voltage that a feeder or a transformer of the system stands at:
// between its legs, or to neutral where it has one leg only.
func (s System) Across() units.Voltage {
	if s.Form == TwoWire {
		return s.LineToNeutral
	}
	return s.LineToLine
}

// Supply is one way a panel can serve a load.
type Supply struct {
	Volts   units.Voltage
	Poles   int
	Phases  int  // 1 or 3
	Neutral bool // line to neutral
}

// Supplies returns the ways the system can serve a load, single-phase first,
// ascending voltage. On a high-leg system the line-to-neutral supply exists on
// the two low legs only, and the high leg to neutral is not offered at all.
func (s System) Supplies() []Supply {
	out := []Supply{{s.LineToNeutral, 1, 1, true}}
	if s.Form == TwoWire {
		return out
	}
	out = append(out, Supply{s.LineToLine, 2, 1, false})
	if s.Legs == 3 {
		out = append(out, Supply{s.LineToLine, 3, 3, false})
	}
	return out
}

// ToGround returns the voltage to ground of the worst leg that a supply may
// use. Two or three legs of a high-leg system may include the high one, which
// stands at √3 times the line-to-neutral voltage.
func (s System) ToGround(u Supply) units.Voltage {
	if s.Form == HighLeg && u.Poles > 1 {
		return 208
	}
	return s.LineToNeutral
}
