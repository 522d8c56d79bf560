package units

import "fmt"

// VoltageSet is the voltages an item accepts: a range, or a list.
type VoltageSet struct {
	Low, High Voltage   // a range when Low < High
	List      []Voltage // or these, ascending
}

// Accepts reports whether the item may be supplied at nominal voltage v. A
// range holds all voltages between its ends, both included; a list holds those
// within one nominal class (see SameNominal).
func (s VoltageSet) Accepts(v Voltage) bool {
	if s.Low < s.High {
		return v >= s.Low && v <= s.High
	}
	for _, x := range s.List {
		if SameNominal(x, v) {
			return true
		}
	}
	return false
}

// String returns the set as a user writes it.
func (s VoltageSet) String() string {
	if s.Low < s.High {
		return fmt.Sprintf("%s-%s V", trim(float64(s.Low)), trim(float64(s.High)))
	}
	out := ""
	for i, v := range s.List {
		if i > 0 {
			out += ", "
		}
		out += v.String()
	}
	return out
}

// nominal classes: the markings that the trade uses for one nominal system
// voltage. 208 and 240 V are never one class. Source: common practice, no
// source; utilization voltages (115, 230, 460 V) are those of the motor tables.
var nominal = [][]Voltage{
	{110, 115, 117, 120, 125},
	{200, 208},
	{220, 230, 240, 250},
	{265, 277},
	{347},
	{440, 460, 480},
	{575, 600},
}

// SameNominal reports whether two voltages name the same nominal system
// voltage, as 115 V and 120 V do.
func SameNominal(a, b Voltage) bool {
	if a == b {
		return true
	}
	for _, class := range nominal {
		var hasA, hasB bool
		for _, v := range class {
			hasA = hasA || v == a
			hasB = hasB || v == b
		}
		if hasA && hasB {
			return true
		}
	}
	return false
}
