package panel

import (
	"math"
	"slices"
)

// The limits of a search, used where Work is zero.
const (
	defaultCells = 8_000_000 // about 100 MB while a table is made
	defaultPairs = 8_000_000 // half a second
	defaultTries = 400_000
)

// tiesWanted is how many equally good divisions are compared for where their
// spare spaces are.
const tiesWanted = 8

// spent is what is left of the limits.
type spent struct{ cells, pairs, tries int64 }

func (w Work) start() *spent {
	or := func(x, otherwise int64) int64 {
		if x > 0 {
			return x
		}
		return otherwise
	}
	return &spent{or(w.Cells, defaultCells), or(w.Pairs, defaultPairs), or(w.Tries, defaultTries)}
}

// problem is breakers to be divided over legs.
type problem struct {
	legs  int
	start []int64 // by leg, what it carries whatever is decided
	slots []int   // by leg, spaces there are
	parts []part
	step  int64 // by which leg sums can differ
	bound int64
	fits  func(tops) verdict
	// atEnds is what the first and the last of three legs carry together at
	// least, 0 where nothing is known of it.
	atEnds int64
}

// answer is the best divisions found: equally good ones.
type answer struct {
	spreads []spread
	worst   int64
	bound   int64
	whole   bool // every division was looked at
}

// divide finds the division with the smallest largest leg sum, and among those
// the one with the smallest difference between legs, no larger than most.
//
// The breakers are dealt into two lists. For each, a table holds every state
// that its breakers can bring the legs to: sums, and how many breakers start
// where. Then the two tables are searched for the pair that is best together.
// Two tables of some ten thousand states so stand for some hundred million
// divisions. Where a table outgrows its room it keeps the states nearest to
// even legs; what is found then is good, but only the bound can prove it.
//
// Meeting in the middle is due to Horowitz and Sahni, "Computing partitions
// with applications to the knapsack problem", Journal of the ACM 21 (1974),
// recalled.
func (p problem) divide(most int64, kinds int, left *spent) answer {
	out := answer{worst: math.MaxInt64, bound: p.bound}
	one, two := deal(p.parts)
	r := rules{p.legs, most, p.slots}
	for _, keep := range rooms(one, two) {
		if left.cells <= 0 || left.pairs <= 0 {
			break
		}
		m := meeting{
			l:    tabulate(one, p.start, r, keep, &left.cells),
			r:    tabulate(two, make([]int64, p.legs), r, keep, &left.cells),
			legs: p.legs, slots: p.slots, step: p.step, atEnds: p.atEnds, bound: out.bound, most: r.most, fits: p.fits, budget: &left.pairs, ties: tiesWanted,
		}
		if len(m.l.cells) > len(m.r.cells) {
			m.l, m.r = m.r, m.l // partners are looked up for the shorter list
		}
		m.search()
		if len(m.best) > 0 {
			out.worst, out.spreads = m.best[0].worst, nil
			for _, d := range m.best {
				s := make(spread, kinds)
				m.l.walk(d.left, s)
				m.r.walk(d.right, s)
				out.spreads = append(out.spreads, s)
			}
			r.most = out.worst
		}
		if m.l.whole && m.r.whole {
			out.bound = max(out.bound, m.excluded)
			out.whole = !m.cut && m.doubt >= min(out.worst, r.most)
			return out
		}
		if out.worst == out.bound {
			return out
		}
	}
	return out
}

// Split divides loads over legs, one leg each, so that the largest sum is as
// small as possible: what Place does, without spaces to keep to. It returns the
// leg of each load, the largest sum and a bound below which it cannot be; where
// both are equal the division is proved best.
func Split(legs int, loads []int64, limits Work) (leg []int, worst, bound int64) {
	b := &board{legs: legs, base: make([]int64, legs)}
	wants := make([]Want, len(loads))
	slots := make([]int, legs)
	for i, x := range loads {
		wants[i] = Want{ID: i, Poles: 1, Amps: x}
	}
	for i := range slots {
		slots[i] = len(loads)
	}
	kinds := b.kindsOf(wants, byRank(wants, func(int) bool { return true }))
	bound, _ = b.boundOf(kinds)
	leg = make([]int, len(loads))
	if legs < 2 {
		return leg, bound, bound
	}
	p := problem{
		legs: legs, start: b.base, slots: slots, parts: b.partsOf(kinds, false), step: step(kinds), bound: bound,
		fits: func(tops) verdict { return fits },
	}
	a := p.divide(math.MaxInt64/4, len(kinds), limits.start())
	for k, kd := range kinds {
		i := 0
		for l, n := range a.spreads[0][k] {
			for range n {
				leg[kd.wants[i]] = l
				i++
			}
		}
	}
	return leg, slices.Max(b.sums(kinds, a.spreads[0])), a.bound
}
