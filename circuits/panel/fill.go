package panel

import "slices"

// class is breakers that need the same of a panel: poles, and the legs on which
// the top pole may sit.
type class struct {
	poles int
	top   legSet
	count int
}

// maxClasses is the largest number of classes that a fill can have: one pole on
// each of three legs, two poles on each of three, and three poles.
const maxClasses = 7

// position is a breaker's place: its top space and its class.
type position struct {
	first int
	class int
	poles int
}

// guide says which class goes first where several could go, and is told what
// was done. Ranks of different classes at one leg must differ.
type guide interface {
	rank(class, leg int) int // lower goes first
	take(class, leg int)
	undo(class, leg int)
}

// largestFirst is the guide of a fill that only asks whether all fit.
type largestFirst []class

func (g largestFirst) rank(c, _ int) int { return -g[c].poles*maxClasses + c }
func (g largestFirst) take(_, _ int)     {}
func (g largestFirst) undo(_, _ int)     {}

// fill places the classes in the first rows of a board, top to bottom, the left
// space of a row before the right one.
//
// It is a depth-first search: in each free space it tries the classes that can
// start there, then a blank. Two facts keep it short. Seen down one column, a
// breaker of p poles leads from the leg of its top row to the leg p rows
// further, so a filled column is a trail; such a trail nearly always exists
// where each leg has spaces enough. A branch is therefore cut as soon as a leg
// has fewer spaces left than its breakers need (slack below zero). And what is
// left to place, the space reached and the spaces below already taken decide
// the rest, so a state that failed is not entered twice.
type fill struct {
	b       *board
	limit   int // last space in use
	classes []class
	guide   guide
	tries   *int64 // left to spend

	taken  []bool
	slack  []int // by leg: spaces from here on, less what known legs need
	spare  int   // spaces from here on, less all that is needed
	left   int   // breakers still to place
	placed []position
	failed map[fillState]struct{}
}

type fillState struct {
	space int
	below uint8 // which of the next spaces hold breakers from above
	left  [maxClasses]int16
}

// verdict is the answer of a search that may run out of tries.
type verdict int

const (
	cannotTell verdict = iota
	fits
	fitsNot
)

// place searches the first rows of the board. The positions are in the order of
// their spaces.
func (b *board) place(rows int, classes []class, g guide, tries *int64) ([]position, verdict) {
	f := &fill{
		b: b, limit: min(b.spaces, sides*rows), classes: slices.Clone(classes), guide: g, tries: tries,
		taken: slices.Clone(b.taken), slack: b.freeByLeg(rows), failed: map[fillState]struct{}{},
	}
	for _, n := range f.slack {
		f.spare += n
	}
	for _, c := range classes {
		f.spare -= c.poles * c.count
		f.left += c.count
		for leg := range b.legs {
			if c.covers(leg, b.legs) {
				f.slack[leg] -= c.count
			}
		}
	}
	if f.spare < 0 || slices.Min(f.slack) < 0 {
		return nil, fitsNot
	}
	v := f.from(1)
	return f.placed, v
}

// covers reports whether a breaker of the class surely takes a space of the
// leg: because it spans all legs, or because its top leg is settled.
func (c class) covers(leg, legs int) bool {
	if c.poles >= legs {
		return true
	}
	for top := range legs {
		if c.top == 1<<top {
			return (leg-top+legs)%legs < c.poles
		}
	}
	return false
}

// lookAhead is how many spaces from the present one on may hold breakers from
// rows above: two rows of both sides.
const lookAhead = (maxPoles - 1) * sides

func (f *fill) state(space int) fillState {
	s := fillState{space: space}
	for k := range lookAhead {
		if n := space + k; n <= f.limit && f.taken[n] && !f.b.taken[n] {
			s.below |= 1 << k
		}
	}
	for i, c := range f.classes {
		s.left[i] = int16(c.count)
	}
	return s
}

func (f *fill) from(space int) verdict {
	if f.left == 0 {
		return fits
	}
	for space <= f.limit && f.taken[space] {
		space++
	}
	if space > f.limit {
		return fitsNot
	}
	if *f.tries <= 0 {
		return cannotTell
	}
	*f.tries--
	at := f.state(space)
	if _, seen := f.failed[at]; seen {
		return fitsNot
	}
	leg := LegOf(f.b.sys, space)
	answer := fitsNot
	for _, c := range f.candidates(space, leg) {
		f.put(space, c, leg, true)
		v := f.from(space + 1)
		if v == fits {
			return v
		}
		f.put(space, c, leg, false)
		if v == cannotTell {
			answer = v
		}
	}
	if f.spare > 0 && f.slack[leg] > 0 { // leave it blank
		f.spare--
		f.slack[leg]--
		f.taken[space] = true
		v := f.from(space + 1)
		if v == fits {
			return v
		}
		f.taken[space] = false
		f.spare++
		f.slack[leg]++
		if v == cannotTell {
			answer = v
		}
	}
	if answer == fitsNot {
		f.failed[at] = struct{}{}
	}
	return answer
}

// candidates returns the classes that can start in the space, by rank.
func (f *fill) candidates(space, leg int) []int {
	var list [maxClasses]int
	n := 0
	for i, c := range f.classes {
		if c.count == 0 || !c.top.has(leg) || !f.open(space, c) {
			continue
		}
		list[n] = i
		n++
	}
	out := slices.Clone(list[:n])
	slices.SortFunc(out, func(a, b int) int { return f.guide.rank(a, leg) - f.guide.rank(b, leg) })
	return out
}

// open reports whether the spaces of a breaker are free. Spaces of a leg whose
// slack is used up are left to the breakers that cannot do without them.
func (f *fill) open(space int, c class) bool {
	for k := range c.poles {
		n := space + sides*k
		if n > f.limit || f.taken[n] {
			return false
		}
		if leg := LegOf(f.b.sys, n); f.slack[leg] == 0 && !c.covers(leg, f.b.legs) {
			return false
		}
	}
	return true
}

// put places a breaker, or takes it away again.
func (f *fill) put(space, c, leg int, in bool) {
	k := &f.classes[c]
	for p := range k.poles {
		n := space + sides*p
		f.taken[n] = in
		if l := LegOf(f.b.sys, n); !k.covers(l, f.b.legs) {
			f.slack[l] -= sign(in)
		}
	}
	k.count -= sign(in)
	f.left -= sign(in)
	if in {
		f.placed = append(f.placed, position{space, c, k.poles})
		f.guide.take(c, leg)
	} else {
		f.placed = f.placed[:len(f.placed)-1]
		f.guide.undo(c, leg)
	}
}

func sign(in bool) int {
	if in {
		return 1
	}
	return -1
}
