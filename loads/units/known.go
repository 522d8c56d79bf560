package units

// Known is a fact that may be missing. The zero value is missing and gives no
// reason. Reading one returns the value and whether it is there, so that a
// missing fact cannot be used as zero by accident.
type Known[T any] struct {
	value T
	ok    bool
	why   string
}

// Is returns a fact that is known.
func Is[T any](v T) Known[T] { return Known[T]{value: v, ok: true} }

// Unknown returns a missing fact with the reason it is missing.
func Unknown[T any](why string) Known[T] { return Known[T]{why: why} }

// Get returns the value and whether it is known.
func (k Known[T]) Get() (T, bool) { return k.value, k.ok }

// Known reports whether the fact is there.
func (k Known[T]) Known() bool { return k.ok }

// Or returns the value, or v where the fact is missing. The caller lists v
// among its assumptions.
func (k Known[T]) Or(v T) T {
	if k.ok {
		return k.value
	}
	return v
}

// Why returns the reason a fact is missing, empty where it is known.
func (k Known[T]) Why() string { return k.why }

// Any is a quantity that carries its unit as text, for records and messages.
type Any struct {
	Value float64
	Unit  string
}
