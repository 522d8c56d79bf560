package codes

import (
	"fmt"

	"branchwork/loads/units"
)

// Fact names something that a rule may need to know of its subject. The list is
// in factlist.go.
type Fact string

// Facts is what is known of one subject. A fact that was never set is unknown,
// as one that was set unknown is.
type Facts struct {
	Subject string // key path of what is judged: "circuits.LP1-1"
	Label   string // how the subject is called in a sentence: "circuit LP1-1"
	under   *Facts // what is not said here is as there; nil: unknown
	values  map[Fact]any
	missing map[Fact]missing
	how     map[Fact]string
}

// missing is why a fact, or a part of it, is unknown and where it would be told.
type missing struct{ why, at string }

// unknown stands among the values for a fact that is unknown here, whatever is
// known under it.
type unknown struct{}

// NewFacts returns facts about a subject, none of them known.
func NewFacts(subject, label string) *Facts { return (*Facts)(nil).Beside(subject, label) }

// Beside returns the facts of another subject that shares all that is known of
// this one: a load on a circuit. What is learnt of this one later is shared too.
func (f *Facts) Beside(subject, label string) *Facts {
	return &Facts{Subject: subject, Label: label, under: f, values: map[Fact]any{}, missing: map[Fact]missing{}, how: map[Fact]string{}}
}

// value returns what is known of a fact, here or under it.
func (f *Facts) value(name Fact) (any, bool) {
	for ; f != nil; f = f.under {
		if v, ok := f.values[name]; ok {
			return v, v != unknown{}
		}
	}
	return nil, false
}

// Put sets a known fact.
func Put[T any](f *Facts, name Fact, v T) {
	f.values[name] = v
	delete(f.missing, name)
}

// PutLeast sets a sum of which a part is unknown: it is v at the least. A rule may
// find that beyond its limit, and never holds by it.
func PutLeast[T any](f *Facts, name Fact, v T, why, at string) {
	f.values[name] = v
	f.missing[name] = missing{why, at}
}

// PutKnown sets a fact that may be missing.
func PutKnown[T any](f *Facts, name Fact, k units.Known[T]) {
	if v, ok := k.Get(); ok {
		Put(f, name, v)
	} else {
		f.Miss(name, k.Why(), "")
	}
}

// Miss makes a fact unknown, with the reason and the key path of the table that
// would tell it, where that is another than the subject's own.
func (f *Facts) Miss(name Fact, why, at string) {
	f.values[name] = unknown{}
	f.missing[name] = missing{why, at}
}

// Settle says how a missing fact is found out, or what is to be done without it,
// where that differs from what settles it elsewhere.
func (f *Facts) Settle(name Fact, how string) { f.how[name] = how }

// Get returns a fact and whether it is known.
func Get[T any](f *Facts, name Fact) (T, bool) {
	v, _ := f.value(name)
	t, ok := v.(T)
	return t, ok
}

// Of returns a fact, the zero value where it is unknown. A rule may use it for
// the facts it lists under Needs only: a verdict that rests on a zero is never
// given, because Judge looks for missing needs. A fact of another type than
// asked for is our own fault.
func Of[T any](f *Facts, name Fact) T {
	v, known := f.value(name)
	if !known {
		var zero T
		return zero
	}
	t, ok := v.(T)
	if !ok {
		panic(fmt.Sprintf("codes: fact %q is a %T", name, v))
	}
	return t
}

// Yes reports whether a fact is known to be true, No whether it is known to be
// false. A fact that is unknown is neither: !Yes is not No.
func (f *Facts) Yes(name Fact) bool {
	v, ok := Get[bool](f, name)
	return ok && v
}

// No reports whether a fact is known to be false.
func (f *Facts) No(name Fact) bool {
	v, ok := Get[bool](f, name)
	return ok && !v
}

// Has reports whether a fact is known.
func (f *Facts) Has(name Fact) bool {
	_, ok := f.value(name)
	return ok
}

// whole reports whether a fact is known, and not at the least only.
func (f *Facts) whole(name Fact) bool {
	for ; f != nil; f = f.under {
		if v, ok := f.values[name]; ok {
			_, lacks := f.missing[name]
			return v != unknown{} && !lacks
		}
	}
	return false
}

// Book returns the code profile that the subject is judged by.
func (f *Facts) Book() *Profile { return Of[*Profile](f, Profiled) }

// Why returns the reason a fact is missing, empty where none was given.
func (f *Facts) Why(name Fact) string { return f.absence(name).why }

// At returns the key path of the table that would tell a missing fact, empty
// where it is the subject's own.
func (f *Facts) At(name Fact) string { return f.absence(name).at }

func (f *Facts) absence(name Fact) missing {
	for ; f != nil; f = f.under {
		if m, ok := f.missing[name]; ok {
			return m
		}
	}
	return missing{}
}

// settled returns what Settle said of a fact.
func (f *Facts) settled(name Fact) string {
	for ; f != nil; f = f.under {
		if how, ok := f.how[name]; ok {
			return how
		}
	}
	return ""
}

// Forget makes a fact unknown; tests use it to see that no rule passes without
// what it needs.
func (f *Facts) Forget(name Fact) { f.values[name] = unknown{} }

// Known returns the names of the facts that are known.
func (f *Facts) Known() []Fact {
	seen := map[Fact]bool{}
	var out []Fact
	for ; f != nil; f = f.under {
		for n, v := range f.values {
			if !seen[n] && v != (unknown{}) {
				out = append(out, n)
			}
			seen[n] = true
		}
	}
	return out
}

// Piece is some identical units on a circuit, as remedies name them.
type Piece struct {
	Item   string
	Count  int
	Each   units.Current // what one unit takes of the limit, its allowance included
	Higher units.Voltage // a higher voltage of the panel that it may be supplied at; 0: none
}

// AtHigher offers a higher voltage as a remedy where there is one that the load
// may be supplied at, and nothing where there is none.
func AtHigher(v units.Voltage) string {
	if v == 0 {
		return ""
	}
	return fmt.Sprintf("supply it at %s, which it accepts and where it draws less, or ", v)
}

// Relief names the fewest units whose removal frees at least excess:
// "move 1 of 6 bar-640 to another circuit, which frees 3.4 A of the rating". Of kinds that need equally few the
// first is named. Where no one kind suffices it names the current.
func Relief(pieces []Piece, excess units.Current) string {
	best, fewest, all := -1, 0, 0
	for i, p := range pieces {
		all += p.Count
		for n := 1; n <= p.Count; n++ {
			if !units.Exceeds(excess, units.Times(p.Each, float64(n))) {
				if best < 0 || n < fewest {
					best, fewest = i, n
				}
				break
			}
		}
	}
	switch {
	case all == 1: // whatever else is moved, it is too large by itself
		return AtHigher(pieces[0].Higher) + "take a smaller one than " + pieces[0].Item + ", or have a licensed electrician run a circuit of its own with conductors, device and receptacle for it"
	case best < 0:
		return fmt.Sprintf("move loads of %s to other circuits", excess)
	}
	p := pieces[best]
	what := fmt.Sprintf("%d of %d %s", fewest, p.Count, p.Item)
	switch {
	case p.Count == 1:
		what = p.Item
	case fewest == p.Count:
		what = fmt.Sprintf("all %d %s", p.Count, p.Item)
	}
	return fmt.Sprintf("move %s to another circuit, which frees %s of the rating", what, units.Times(p.Each, float64(fewest)))
}
