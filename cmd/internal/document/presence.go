package document

import (
	"encoding/json"

	"branchwork/loads/units"
)

// known returns a number that may be missing: null where it is.
func known[T ~float64](k units.Known[T]) *float64 {
	v, ok := k.Get()
	if !ok {
		return nil
	}
	return number(v)
}

func number[T ~float64](v T) *float64 {
	f := float64(v)
	return &f
}

// percent returns a share that may be missing in percent.
func percent(k units.Known[units.Ratio]) *float64 {
	v, ok := k.Get()
	if !ok {
		return nil
	}
	return number(float64(v) * 100)
}

// given returns a known value of any kind, or null.
func given[T any](k units.Known[T]) *T {
	v, ok := k.Get()
	if !ok {
		return nil
	}
	return &v
}

// word returns text, null where it is empty.
func word(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// list returns a list that prints as [] where it is empty.
func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// Receptacle is the configuration of a circuit's receptacle. It has two ways of
// not being there, so it is not a plain string.
type Receptacle struct {
	Name  string
	Wired bool // absent: there is none to have
}

// IsZero leaves the key out where the circuit is wired.
func (r Receptacle) IsZero() bool { return r.Wired }

// MarshalJSON prints the name, null where it is not known.
func (r Receptacle) MarshalJSON() ([]byte, error) { return json.Marshal(word(r.Name)) }
