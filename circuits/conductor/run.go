package conductor

import (
	"fmt"
	"math"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Line is what one conductor of a run opposes to alternating current, per
// 1,000 ft, to neutral.
type Line struct {
	R, X units.Resistance
}

// LineOf returns resistance and reactance of so many parallel conductors of a
// size, at 75 °C.
//
//	R = max(Rdc, Rac) / n    X = Xac / n
//
// The larger of the printed dc and ac resistances is taken: the ac table is
// printed with two digits, sometimes below the dc value. A size that the ac
// table skips takes the row of the next smaller size, which is on the high side.
//
// Source: Chapter 9 Tables 8 and 9. Range: sizes of Table 8.
func LineOf(wires codes.Wires, material, raceway, size string, sets int, w *steps.Work) (Line, error) {
	dc, cite, ok := wires.Resistance(material, size)
	if !ok || sets < 1 {
		return Line{}, fmt.Errorf("no resistance of %d × %s %s", sets, size, material)
	}
	line := Line{R: dc}
	rdc := steps.In("Rdc", dc, "ohm/1,000 ft")
	if ac, at, ok := below(wires, size, func(s string) (units.Resistance, steps.Cite, bool) {
		return wires.AlternatingOf(material, raceway, s)
	}); ok {
		if ac > dc {
			line.R, cite = ac, at
		}
		w.Add(steps.Result("resistance", "max(Rdc, Rac)", line.R, "ohm/1,000 ft", cite, rdc, steps.In("Rac", ac, "ohm/1,000 ft")))
	} else {
		w.Add(steps.Result("resistance", "Rdc", dc, "ohm/1,000 ft", cite, rdc))
	}
	if x, at, ok := below(wires, size, func(s string) (units.Resistance, steps.Cite, bool) {
		return wires.ReactanceOf(raceway, s)
	}); ok {
		line.X = x
		w.Add(steps.Result("reactance", "", x, "ohm/1,000 ft", at))
	}
	if sets > 1 {
		n := steps.In("n", float64(sets), "")
		one := line
		line.R, line.X = units.Times(one.R, 1/float64(sets)), units.Times(one.X, 1/float64(sets))
		w.Add(steps.Result("resistance of the parallel conductors", "R / n", line.R, "ohm/1,000 ft", steps.Cite{}, steps.In("R", one.R, "ohm/1,000 ft"), n))
		w.Add(steps.Result("reactance of the parallel conductors", "X / n", line.X, "ohm/1,000 ft", steps.Cite{}, steps.In("X", one.X, "ohm/1,000 ft"), n))
	}
	return line, nil
}

// below looks a size up, or the nearest smaller one that the table has.
func below(wires codes.Wires, size string, look func(string) (units.Resistance, steps.Cite, bool)) (units.Resistance, steps.Cite, bool) {
	for i := len(wires.Sizes) - len(wires.From(size)); i >= 0 && i < len(wires.Sizes); i-- {
		if v, cite, ok := look(wires.Sizes[i]); ok {
			return v, cite, true
		}
	}
	return 0, steps.Cite{}, false
}

// Fall is the voltage lost along a run.
type Fall struct {
	Volts    units.Voltage // to the last load
	Share    units.Ratio   // of the supply voltage
	AtFirst  units.Voltage // voltage at the first load
	AtEnd    units.Voltage
	Source   units.Current // current at the source
	NoSteady bool          // the loads ask for more power than the run can carry: Share is 1
}

// distances returns each load's one-way distance from the source, in feet; why
// is not empty where a length is missing.
func (r Run) distances() (ft []float64, why string) {
	first, ok := r.ToFirst.Get()
	if !ok {
		return nil, reason(r.ToFirst.Why(), "the length of the run to the first load is not known")
	}
	spacing, ok := r.Spacing.Get()
	if !ok && len(r.Loads) > 1 {
		return nil, reason(r.Spacing.Why(), "the spacing of the loads along the run is not known")
	}
	for i := range r.Loads {
		ft = append(ft, float64(first)+float64(i)*float64(spacing))
	}
	return ft, ""
}

func reason(why, otherwise string) string {
	if why == "" {
		return otherwise
	}
	return why
}

// check refuses a run that is not a run.
func (r Run) check(volts units.Voltage, phases int) error {
	first, spacing := r.ToFirst.Or(0), r.Spacing.Or(0)
	switch {
	case len(r.Loads) == 0:
		return fmt.Errorf("a run without loads")
	case volts <= 0:
		return fmt.Errorf("a run at %v", volts)
	case phases != 1 && phases != 3:
		return fmt.Errorf("a run of %d phases", phases)
	case first < 0 || spacing < 0 || math.IsNaN(float64(first+spacing)):
		return fmt.Errorf("a length below zero: %v to the first load, %v between loads", first, spacing)
	}
	for i, t := range r.Loads {
		if t.PF <= 0 || t.PF > 1 || t.VA < 0 {
			return fmt.Errorf("load %d of the run: %v at a power factor of %v", i+1, t.VA, t.PF)
		}
	}
	return nil
}
