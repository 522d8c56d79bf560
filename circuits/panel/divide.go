package panel

import "math"

// The limits of a search, used where Work is zero.
const (
	defaultCells = 8_000_000 // a second or two
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
	legs    int
	moments []moment
	leading []int    // the two heaviest moments that rule
	start   []vector // by leg, what it carries whatever is decided
	slots   []int    // by leg, spaces there are
	parts   []part
	step    int64  // by which the fullest leg of any moment that rules can differ
	steps   vector // by which leg sums of each moment can differ
	bound   int64  // of the fullest leg at any moment that rules
	least   score  // bounds of the rest
	fits    func(tops) verdict
	// atEnds is what the first and the last of three legs carry together at
	// least, 0 where nothing is known of it.
	atEnds vector

	why     string              // what the bound of the fullest leg rests on
	reaches []func(int64) int64 // by moment that rules, the next sum a leg can have
}

// answer is the best divisions found: equally good ones.
type answer struct {
	spreads []spread
	score
	bound int64
	// whole tells that no division with a less filled fullest leg was left out,
	// litWhole that none as good in this and better in the lit moments was.
	whole, litWhole bool
}

// divide finds the division with the best score, its fullest leg no fuller than
// that of most.
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
func (p problem) divide(most score, kinds int, left *spent) answer {
	out := answer{score: score{worst: math.MaxInt64}, bound: p.bound}
	one, two := deal(p.parts)
	r := rules{p.legs, p.moments, most.worst, p.slots}
	for _, size := range rooms(one, two) {
		if left.cells <= 0 || left.pairs <= 0 {
			break
		}
		m := meeting{
			problem: p, most: r.most, budget: &left.pairs, ties: tiesWanted,
			l: tabulate(one, p.start, r, size, &left.cells),
			r: tabulate(two, make([]vector, p.legs), r, size, &left.cells),
		}
		if len(m.l.cells) > len(m.r.cells) {
			m.l, m.r = m.r, m.l // partners are looked up for the shorter list
		}
		m.search()
		if len(m.best) > 0 {
			out.score, out.spreads = m.best[0].score, nil
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
			out.litWhole = out.whole && m.doubt > out.worst
			return out
		}
		if out.worst == out.bound && out.lit <= p.least.lit {
			return out
		}
	}
	return out
}
