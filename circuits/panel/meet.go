package panel

import "math"

// division is a pair of states, one of each table, that together place
// everything.
type division struct {
	left, right int32
	tops        tops
	score
}

// meeting looks for the pairs of states with the best score.
type meeting struct {
	problem
	l, r   table
	most   int64  // pairs above are of no interest
	budget *int64 // pairs that may be looked at
	ties   int    // how many equally good divisions to collect

	best     []division
	cut      bool  // the budget ended before all pairs were compared
	doubt    int64 // smallest largest sum of a pair of which fits cannot tell
	excluded int64 // no pair of these tables has a largest sum below it
	extra    int   // pairs looked at since nothing better can come
}

// patience is how many pairs are looked at for the sake of ties, once nothing
// better can come.
const patience = 20_000

// search widens a window above the bound until a pair falls into it: first the
// bound alone, then 3, 15, 63 … steps above. All pairs within the window are
// compared, so the best of the first window that holds any is the best there
// is.
func (m *meeting) search() {
	m.excluded, m.doubt = m.bound, math.MaxInt64
	for d := int64(0); m.bound <= m.most; d = 4*d + 3 {
		high := min(m.bound+d*m.step, m.most)
		m.window(high)
		switch {
		case len(m.best) > 0 && !m.cut:
			m.excluded = min(m.best[0].worst, m.doubt)
		case !m.cut:
			m.excluded = min(high+1, m.doubt)
		}
		if len(m.best) > 0 || m.cut || high == m.most {
			return
		}
	}
}

// window compares all pairs whose largest leg sum is high at most.
//
// As the legs add up to the total T, each carries at least T − (legs − 1)·high;
// so what a partner may add to a leg lies within an interval. Where the first
// and the last leg are known to carry so much together, each carries at least
// that less high. Likewise a leg's spaces are all taken but for as many as stay
// blank in the whole panel. The right table is sorted into boxes as wide as
// these intervals, so that partners are in two boxes of each dimension.
func (m *meeting) window(high int64) {
	total := m.l.total
	total.add(1, m.r.total)
	even := m.even(&total)
	var box box
	blanks := m.blanks()
	for d := range m.legs - 1 {
		if n := m.slots[2*d]; blanks < manyBlanks {
			box[d] = interval{int64(n - blanks), int64(n)}
		}
		for n, at := range m.leading {
			low := max(total[at]-int64(m.legs-1)*high, m.atEnds[at]-high)
			if low > high {
				return
			}
			if n == 0 || low > 0 {
				box[firstOfSums+2*n+d] = interval{low, high}
			}
		}
	}
	heads, next := m.boxes(box)
	for i := range m.l.cells {
		if !box.each(m.l.coordinates(i, m.legs, m.leading), func(k key) bool {
			head, ok := heads[k]
			if !ok {
				return true
			}
			for j := head; j >= 0; j = next[j] {
				if *m.budget -= int64(len(m.moments)); *m.budget < 0 {
					m.cut = true
					return false
				}
				m.pair(int32(i), j, &total, high)
				if m.ideal(even) {
					m.extra++
				}
			}
			return m.extra == 0 || m.extra <= patience && len(m.best) < m.ties
		}) {
			return
		}
	}
}

// manyBlanks is the number of blank spaces from which on they do not narrow the
// choice of partners enough to look at them.
const manyBlanks = 16

// blanks returns how many of the spaces stay blank.
func (m *meeting) blanks() int {
	blanks := -(m.l.ones + 2*m.l.twos + m.r.ones + 2*m.r.twos)
	for _, n := range m.slots {
		blanks += n
	}
	return blanks
}

// boxes sorts the right table into boxes: the first cell of each, and for each
// cell the next of its box.
func (m *meeting) boxes(b box) (heads map[key]int32, next []int32) {
	heads = make(map[key]int32, len(m.r.cells))
	next = make([]int32, len(m.r.cells))
	for j := len(m.r.cells) - 1; j >= 0; j-- {
		at := b.of(m.r.coordinates(j, m.legs, m.leading))
		head, ok := heads[at]
		if !ok {
			head = -1
		}
		next[j], heads[at] = head, int32(j)
	}
	return heads, next
}

// pair compares one pair with the best so far.
func (m *meeting) pair(i, j int32, total *vector, high int64) {
	l, r := &m.l.cells[i], &m.r.cells[j]
	d := division{left: i, right: j, tops: l.tops + r.tops}
	for n, k := range m.moments {
		a, b := int64(l.sums[2*n])+int64(r.sums[2*n]), int64(l.sums[2*n+1])+int64(r.sums[2*n+1])
		c := total[n] - a - b
		most, least := max(a, c), min(a, c)
		if m.legs == 3 {
			most, least = max(most, b), min(least, b)
		}
		if k.rules && most > high {
			return
		}
		d.count(k, most, least)
	}
	order := -1
	if len(m.best) > 0 {
		order = d.compare(m.best[0].score)
	}
	if order > 0 || order == 0 && (len(m.best) >= m.ties || m.known(d.tops)) {
		return
	}
	switch m.fits(d.tops) {
	case cannotTell:
		m.doubt = min(m.doubt, d.worst)
	case fits:
		if order < 0 {
			m.best = m.best[:0]
		}
		m.best = append(m.best, d)
	}
}

// known reports whether a division with these tops is among the best.
func (m *meeting) known(t tops) bool {
	for _, d := range m.best {
		if d.tops == t {
			return true
		}
	}
	return false
}

// ideal reports whether nothing better can come: the bounds are met and the
// legs are as even as whole steps allow.
func (m *meeting) ideal(even int64) bool {
	if len(m.best) == 0 {
		return false
	}
	b := &m.best[0]
	return b.worst <= m.bound && b.lit <= m.least.lit && b.united <= m.least.united && b.gap <= even
}

// even is the least gap that whole steps allow, over all moments.
func (m *meeting) even(total *vector) (gap int64) {
	for n := range m.moments {
		if total[n]%int64(m.legs) != 0 {
			gap += m.steps[n]
		}
	}
	return gap
}
