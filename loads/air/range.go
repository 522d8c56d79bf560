package air

import (
	"fmt"

	"branchwork/loads/units"
)

// RangeError is a value that an equation does not cover.
type RangeError struct {
	What      string // "temperature"
	Value     float64
	Low, High float64 // both included
	Unit      string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %s is outside %s to %s", e.What, with(e.Value, e.Unit), with(e.Low, e.Unit), with(e.High, e.Unit))
}

func with(x float64, unit string) string {
	s := units.Round(x, 6)
	if unit != "" {
		s += " " + unit
	}
	return s
}

// within refuses a value outside [low, high], and NaN.
func within[T ~float64](what string, x, low, high T, unit string) error {
	if x >= low && x <= high {
		return nil
	}
	return &RangeError{what, float64(x), float64(low), float64(high), unit}
}

func fraction(rh units.Ratio) error { return within("relative humidity", rh, 0, 1, "") }
