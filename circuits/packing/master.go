package packing

import (
	"math"
	"math/bits"
	"slices"
)

// task is what a search is asked: place the need in the room at the least
// value of the aim, with the values of earlier aims not above hold.
type task struct {
	aim   int
	need  []int // per lot
	room  []int // per class, bins that may be used; negative means any number
	hold  [aims]int64
	exact int64 // opened bins, where every plan of interest has as many; else -1
}

// row is a row of the linear program other than "place all items of a lot". A
// bin counts with coef of its class when it meets all conditions. Where coef
// is nil, the items of one lot are counted.
type row struct {
	least bool
	rhs   int64
	coef  []int64
	miss  int64 // coefficient of an item left out
	conds []cond
	lot   int
	slack float64
}

func (r *row) of(p *pattern) int64 {
	switch {
	case r.coef == nil:
		return int64(p.count(r.lot))
	case p.class == leftOut:
		return r.miss
	case len(r.conds) > 0 && !p.meets(r.conds):
		return 0
	}
	return r.coef[p.class]
}

// master is the linear relaxation of a task at one node of the search: the
// least price of patterns that together place everything. Patterns are made on
// demand by the pricing.
type master struct {
	s      *solver
	t      *task
	rows   []row
	lp     *simplex
	cols   []*pattern // per column of the linear program
	copies []int      // per lot, the most worth having in one bin

	topCoef int64 // largest coefficient in rows

	y     []int64 // prices of all rows in whole numbers, scaled by 2^shift
	shift uint
}

// bigFactor times the largest total is the price of violating a row, so that
// even a thousandth of a violation costs more than any plan.
const bigFactor = 100

func newMaster(s *solver, t *task, cuts []row, basis []int) *master {
	ms := &master{s: s, t: t, copies: t.need}
	top := float64(1)
	for k := range s.c.classes {
		top = max(top, float64(s.c.priceOf(k, t.aim)))
	}
	goal := float64(s.goal(t))
	ms.lp = newSimplex(s.m, bigFactor*max(top, goal+1))
	ms.rows = append(ms.baseRows(), cuts...)
	for i, n := range t.need {
		// Different shifts keep ties between rows apart.
		ms.lp.addRow(true, float64(n)+perturb*float64(1+(i*7919)%101)/101)
	}
	for _, r := range ms.rows {
		for _, v := range r.coef {
			ms.topCoef = max(ms.topCoef, v)
		}
		ms.lp.addRow(r.least, ms.rhs(&r, r.rhs))
	}
	for _, p := range s.pool {
		ms.addColumn(p)
	}
	ms.lp.start(basis)
	return ms
}

func (ms *master) rhs(r *row, v int64) float64 {
	if r.least {
		return float64(v) - r.slack
	}
	return float64(v) + r.slack
}

// baseRows are the rows every node of the task has: earlier aims keep their
// values, and classes of limited number keep their limit.
func (ms *master) baseRows() []row {
	c, t := ms.s.c, ms.t
	var rows []row
	for a := aimMissing; a < t.aim; a++ {
		if (a == aimMissing && t.hold[a] == 0) || (a == aimOpened && c.even > 0) {
			continue // no item may be left out, or the width row says the same
		}
		r := row{rhs: t.hold[a], miss: c.priceOf(leftOut, a), slack: slackRow}
		for k := range c.classes {
			r.coef = append(r.coef, c.priceOf(k, a))
		}
		rows = append(rows, r)
	}
	for k, n := range t.room {
		if n >= 0 {
			r := row{rhs: int64(n), coef: make([]int64, len(c.classes)), slack: slackCut}
			r.coef[k] = 1
			rows = append(rows, r)
		}
	}
	// Bins that are free in this aim could place items again and again to no
	// purpose; where there is no end of them, placing too much is ruled out.
	for l, n := range t.need {
		for k := range c.classes {
			if t.room[k] < 0 && c.classes[k].most[l] > 0 && c.priceOf(k, t.aim) == 0 {
				rows = append(rows, row{rhs: int64(n), lot: l, slack: slackCut})
				break
			}
		}
	}
	return rows
}

// addColumn adds a pattern to the linear program if the task has a use for it.
func (ms *master) addColumn(p *pattern) {
	c := column{price: float64(ms.s.c.priceOf(p.class, ms.t.aim))}
	if p.class == leftOut {
		if ms.t.aim > aimMissing && ms.t.hold[aimMissing] == 0 {
			return
		}
	} else if ms.t.room[p.class] == 0 {
		return
	}
	any := false
	c.rows, c.coefs = make([]int32, 0, len(p.items)+len(ms.rows)), make([]float64, 0, len(p.items)+len(ms.rows))
	for _, e := range p.items {
		if n := min(e.count, ms.t.need[e.lot]); n > 0 {
			any = true
			c.rows = append(c.rows, int32(e.lot))
			c.coefs = append(c.coefs, float64(n))
		}
	}
	if !any {
		return
	}
	for i := range ms.rows {
		if v := ms.rows[i].of(p); v != 0 {
			c.rows = append(c.rows, int32(len(ms.t.need)+i))
			c.coefs = append(c.coefs, float64(v))
		}
	}
	ms.lp.addColumn(c)
	ms.cols = append(ms.cols, p)
}

// scalePrices turns the prices of the linear program into whole numbers of the
// right sign. Whatever the rounding, any such prices give a true bound.
func (ms *master) scalePrices() {
	y := ms.lp.y
	largest := ms.lp.unit
	for _, v := range y {
		largest = max(largest, math.Abs(v))
	}
	// A pattern's worth is at most its number of items times the largest
	// price; it must stay inside 62 bits.
	room := 60 - bits.Len64(uint64(ms.s.c.items+len(ms.rows))) - bits.Len64(uint64(largest)) -
		bits.Len64(uint64(ms.topCoef))
	ms.shift = uint(min(max(room, 0), 30))
	unit := float64(int64(1) << ms.shift)
	ms.y = ms.y[:0]
	for i, v := range y {
		if ms.lp.least[i] {
			v = max(v, 0)
		} else {
			v = min(v, 0)
		}
		ms.y = append(ms.y, int64(v*unit))
	}
}

// ask puts the scaled prices as a question to the pricing.
func (ms *master) ask() *ask {
	c, lots := ms.s.c, len(ms.t.need)
	a := &ask{value: slices.Clone(ms.y[:lots]), copies: ms.copies, floor: make([]int64, len(c.classes))}
	for k := range c.classes {
		a.floor[k] = c.priceOf(k, ms.t.aim) << ms.shift
	}
	for i := range ms.rows {
		r, y := &ms.rows[i], ms.y[lots+i]
		if y == 0 {
			continue
		}
		if r.coef == nil {
			a.value[r.lot] += y
			continue
		}
		if len(r.conds) == 0 {
			for k, v := range r.coef {
				a.floor[k] -= y * v
			}
			continue
		}
		same := slices.Min(r.coef) == slices.Max(r.coef)
		switch {
		case same && len(r.conds) == 1:
			a.steps = append(a.steps, joint{-1, r.conds, y * r.coef[0]})
		case same:
			a.joints = append(a.joints, joint{-1, r.conds, y * r.coef[0]})
		default:
			for k, v := range r.coef {
				if v != 0 {
					a.joints = append(a.joints, joint{k, r.conds, y * v})
				}
			}
		}
	}
	return a
}

// bound is the Lagrangian bound of the scaled prices. For any plan,
//
//	value = sum over bins of (price - worth of content at y) + y·(what rows get)
//
// and rows get at least (at most) their right side where y is positive
// (negative). So value >= y·rhs + sum over bins of the least reduced cost, and
// where no content has a negative reduced cost the second term vanishes.
func (ms *master) bound(a *ask, quotes []quote) int64 {
	c, lots := ms.s.c, len(ms.t.need)
	var sum wide
	for t, n := range ms.t.need {
		sum.add(int64(n), ms.y[t])
	}
	for i := range ms.rows {
		sum.add(ms.rows[i].rhs, ms.y[lots+i])
	}
	// What negative reduced costs could take off: per bin of a class of limited
	// number, and for all other bins together the worst one per unit of width
	// where the aim is width, else per bin.
	goal := ms.s.goal(ms.t)
	var perWidth, perBin int64
	for k := range c.classes {
		gap := quotes[k].limit - a.floor[k] // >= 0
		if gap <= 0 || ms.t.room[k] == 0 {
			continue
		}
		w := c.classes[k].width
		switch {
		case ms.t.room[k] > 0:
			sum.add(-gap, int64(ms.t.room[k]))
		case ms.t.aim == aimWidth && w > 0:
			perWidth = max(perWidth, (gap+w-1)/w)
		default:
			perBin = max(perBin, gap)
		}
	}
	// Only plans better than the best known matter, so goal limits the width.
	sum.add(-perWidth, goal)
	sum.add(-perBin, ms.mostBins())
	for t, n := range ms.t.need {
		if c.canMiss[t] && (ms.t.aim == aimMissing || ms.t.hold[aimMissing] > 0) {
			cost := c.priceOf(leftOut, ms.t.aim)<<ms.shift - ms.y[t]
			for i := range ms.rows {
				if r := &ms.rows[i]; r.coef != nil {
					cost -= ms.y[lots+i] * r.miss
				} else if r.lot == t {
					cost -= ms.y[lots+i]
				}
			}
			sum.add(min(cost, 0), int64(n))
		}
	}
	return min(ms.s.lift(ms.t, sum.ceil(ms.shift)), goal)
}

// mostBins is the largest number of bins in any plan of interest. No bin is
// empty, so there are no more bins than items.
func (ms *master) mostBins() int64 {
	var n int64
	for _, d := range ms.t.need {
		n += int64(d)
	}
	if ms.t.aim > aimOpened {
		n = min(n, ms.t.hold[aimOpened])
	} else if ms.t.aim == aimOpened {
		n = min(n, ms.s.goal(ms.t))
	}
	if w := ms.s.c.even; w > 0 && ms.t.aim > aimWidth {
		n = min(n, ms.t.hold[aimWidth]/w)
	}
	return n
}

// generate solves the linear relaxation and returns the best bound met. It
// stops early where more patterns could not raise the bound, or where the node
// is of no more interest.
func (ms *master) generate() int64 {
	best := int64(math.MinInt64)
	goal := ms.s.goal(ms.t)
	for !ms.s.m.spent() {
		ms.lp.solve()
		ms.lp.rowPrices()
		ms.scalePrices()
		a := ms.ask()
		added := false
		// Where pricing is hard, try for any content that gains before the best.
		for _, a.keep = range []int{quickLabels, fairLabels, 0} {
			quotes := ms.s.c.price(a, ms.s.m)
			best = max(best, ms.bound(a, quotes))
			if best >= goal || float64(best) >= math.Ceil(ms.lp.objective()-1e-4) {
				return best
			}
			added = ms.addFrom(a, quotes)
			if added || !anyLoose(quotes) {
				break
			}
		}
		if !added {
			break
		}
	}
	return best
}

func anyLoose(quotes []quote) bool {
	return slices.ContainsFunc(quotes, func(q quote) bool { return q.loose })
}

// addFrom adds the contents that gain, and reports whether any was new.
func (ms *master) addFrom(a *ask, quotes []quote) bool {
	least := int64(ms.lp.unit * tolPrice * float64(int64(1)<<ms.shift))
	added := false
	for k, q := range quotes {
		if ms.t.room[k] == 0 || q.items == nil || q.value-a.floor[k] <= least {
			continue
		}
		if p, fresh := ms.s.keep(k, q.items); fresh {
			ms.addColumn(p)
			added = true
		}
	}
	return added
}
