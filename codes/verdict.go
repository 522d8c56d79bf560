package codes

import (
	"fmt"
	"slices"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// State is the answer of a rule. There is no bool in this package's interface:
// not broken is not holds.
type State int

const (
	Holds      State = iota + 1 // checked, within the rule
	Broken                      // checked, beyond the rule
	CannotTell                  // a fact is missing
	NotAsked                    // the rule does not concern this subject
)

// String returns the state in words.
func (s State) String() string {
	switch s {
	case Holds:
		return "holds"
	case Broken:
		return "broken"
	case CannotTell:
		return "cannot tell"
	case NotAsked:
		return "not concerned"
	}
	return "invalid"
}

// Verdict is a rule's answer about one subject, with the figures it rests on.
type Verdict struct {
	State   State
	Actual  units.Any    // what is
	Limit   units.Any    // what may be
	Says    string       // one sentence made from the figures; lower case, no full stop
	Remedy  string       // names numbers; never a larger breaker
	Missing []Fact       // for CannotTell: what would settle it
	Rests   []steps.Cite // table values that it rests on and that were not seen in a source; printed beside the clause
}

// Within returns the verdict of actual against an upper limit: Holds up to and
// including the limit.
func Within[T ~float64](actual, limit T, unit string) Verdict {
	v := Verdict{State: Holds, Actual: units.Any{Value: float64(actual), Unit: unit}, Limit: units.Any{Value: float64(limit), Unit: unit}}
	if units.Exceeds(actual, limit) {
		v.State = Broken
	}
	return v
}

// Least returns the verdict of actual against a lower limit: Holds down to and
// including the limit.
func Least[T ~float64](actual, limit T, unit string) Verdict {
	v := Within(limit, actual, unit)
	v.Actual, v.Limit = v.Limit, v.Actual
	return v
}

// Saying returns the verdict with its sentence and its remedy. They are kept
// where the rule is broken only: a rule that holds has nothing to say.
func (v Verdict) Saying(remedy, format string, args ...any) Verdict {
	if v.State == Broken {
		v.Says, v.Remedy = fmt.Sprintf(format, args...), remedy
	}
	return v
}

// Resting returns the verdict with the cites of values that decide it. Only
// those from memory are kept: a value that was seen is its rule's clause's.
func (v Verdict) Resting(on ...steps.Cite) Verdict {
	for _, c := range on {
		if c.How == steps.Recalled && !slices.Contains(v.Rests, c) {
			v.Rests = append(v.Rests, c)
		}
	}
	return v
}

// Figures returns actual and limit as they are printed beside each other:
// "20.41 A", "20 A".
func (v Verdict) Figures() (actual, limit string) {
	a, l := units.Against(v.Actual.Value, v.Limit.Value)
	unit := func(u string) string {
		if u == "" {
			return ""
		}
		return " " + u
	}
	return a + unit(v.Actual.Unit), l + unit(v.Limit.Unit)
}

// Whether returns Holds or Broken.
func Whether(holds bool) Verdict {
	if holds {
		return Verdict{State: Holds}
	}
	return Verdict{State: Broken}
}

// Unsettled returns the verdict that some facts are missing.
func Unsettled(says, remedy string, missing ...Fact) Verdict {
	return Verdict{State: CannotTell, Says: says, Remedy: remedy, Missing: missing}
}

// NotConcerned is the verdict of a rule that does not apply to the subject.
func NotConcerned() Verdict { return Verdict{State: NotAsked} }

// Share returns actual over limit, the part of the limit that is used; ok is
// false where the verdict rests on no limit.
func (v Verdict) Share() (float64, bool) {
	if v.State != Holds && v.State != Broken || v.Limit.Value <= 0 || v.Limit.Unit != v.Actual.Unit {
		return 0, false
	}
	return v.Actual.Value / v.Limit.Value, true
}
