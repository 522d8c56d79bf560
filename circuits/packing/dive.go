package packing

import (
	"math"
	"math/bits"
	"slices"
)

// Effort of the heuristics at a node.
const (
	rootDives      = 4   // random dives at the root
	longSearch     = 8   // nodes from which on more is tried
	longerSearch   = 32  // nodes from which on still more is tried
	laterDives     = 8   // random dives where the search has got long
	smallTail      = 60  // items left over below which greedy packing finishes a dive
	maxKeep        = 3   // most copies of each pattern that a dive leaves undecided
	remainderNodes = 150 // nodes for what the whole parts leave over
	divePricing    = 8   // rounds of new patterns per step of a dive
)

// round looks for better plans near the relaxation of a node. Most nodes get
// little of it: where the bound is what is missing, no plan can be found. More
// is tried at 8, 32, 128, ... nodes.
func (s *solver) round(ms *master, depth int, bound int64, values []float64, basis []int) {
	d := &diver{s: s, ms: ms, bound: bound, values: values, basis: basis}
	dives, repacks, remainders := 1, 0, 0
	if depth == 0 {
		dives = maxKeep + rootDives
		if ms.t.aim < aimCost {
			remainders = maxKeep
		}
	}
	if n := uint(s.nodes); bits.OnesCount(n) == 1 && bits.Len(n)%2 == 0 && n >= longSearch {
		remainders = maxKeep
		if n >= longerSearch {
			dives, repacks = maxKeep+laterDives, nodeRepacks
		}
	}
	if s.level >= levelRemainder {
		remainders = 0
	}
	if s.level >= levelRepack {
		repacks = 0
	}
	done := func() bool { return s.m.spent() || bound >= s.goal(ms.t) }
	for i := 0; i < dives && !done(); i++ {
		d.dive(i%maxKeep, i >= maxKeep)
	}
	for keep := 1; keep <= remainders && !done(); keep++ {
		d.remainder(keep)
	}
	s.repack(ms.t, bound, repacks)
}

// remainder fixes the whole part of every pattern less keep and searches the
// best way to place what is left.
func (d *diver) remainder(keep int) {
	ms, s := d.ms, d.s
	d.start()
	d.fixWhole(d.values, keep)
	sub := &task{aim: ms.t.aim, need: d.need, room: d.room, exact: -1}
	done := s.c.scoreOf(d.fixed)
	for a := range sub.hold {
		sub.hold[a] = s.best.score[a] - done[a]
		if sub.hold[a] < 0 {
			return // what is fixed is already more than the best plan
		}
	}
	if p := s.inside(sub, levelRemainder, remainderNodes); p != nil {
		s.offer(ms.t, append(slices.Clone(d.fixed), p.uses...))
	}
}

// diver rounds the relaxation of a node to whole numbers step by step.
type diver struct {
	s      *solver
	ms     *master
	bound  int64
	values []float64
	basis  []int

	need  []int // still to place
	room  []int
	rows  []int64 // right sides still to serve
	fixed []use
	value int64
}

// dive fixes the whole part of every pattern less keep, then one pattern after
// the other: the one nearest to its next whole number, or a random one where
// larger fractions are likelier.
func (d *diver) dive(keep int, random bool) {
	ms, s := d.ms, d.s
	d.start()
	values, filled := d.values, false
	for step := 0; ; step++ {
		if !d.fixWhole(values, keep) && !d.fixOne(values, random) {
			break
		}
		keep = 0
		left := 0
		for _, n := range d.need {
			left += n
		}
		if left <= smallTail || step == 0 {
			d.finish(left <= smallTail && !filled)
			filled = filled || left <= smallTail
		}
		if left == 0 || d.value >= s.goal(ms.t) || d.bound >= s.goal(ms.t) || s.m.spent() {
			break
		}
		var ok bool
		if values, ok = d.resolve(); !ok {
			break
		}
	}
	d.restore()
}

// start begins with nothing fixed.
func (d *diver) start() {
	ms := d.ms
	d.need, d.room = slices.Clone(ms.t.need), slices.Clone(ms.t.room)
	d.rows = d.rows[:0]
	for i := range ms.rows {
		d.rows = append(d.rows, ms.rows[i].rhs)
	}
	d.fixed, d.value = nil, 0
}

// fixWhole fixes the whole part, less keep, of every value.
func (d *diver) fixWhole(values []float64, keep int) bool {
	any := false
	for j, v := range values {
		if n := int(math.Floor(v+tolWhole)) - keep; n > 0 {
			any = d.fix(j, n) || any
		}
	}
	return any
}

// fixOne fixes one more bin of a pattern whose value is not whole.
func (d *diver) fixOne(values []float64, random bool) bool {
	var total float64
	best, most := -1, 0.0
	for j, v := range values {
		if v > tolWhole && d.useful(j) {
			f := min(v, 1)
			total += float64(f * f)
			if f > most {
				best, most = j, f
			}
		}
	}
	if random && best >= 0 {
		at := d.s.dice.unit() * total
		for j, v := range values {
			if v > tolWhole && d.useful(j) {
				f := min(v, 1)
				if at -= float64(f * f); at <= 0 {
					best = j
					break
				}
			}
		}
	}
	return best >= 0 && d.fix(best, 1)
}

// useful reports whether a column places something that is still missing and
// has a bin left to place it in.
func (d *diver) useful(j int) bool {
	p := d.ms.cols[j]
	if p.class != leftOut && d.room[p.class] == 0 {
		return false
	}
	for _, e := range p.items {
		if d.need[e.lot] > 0 {
			return true
		}
	}
	return false
}

// fix places n bins of a column, or as many as are of use.
func (d *diver) fix(j, n int) bool {
	p := d.ms.cols[j]
	most := 0
	for _, e := range p.items {
		most = max(most, (d.need[e.lot]+e.count-1)/e.count)
	}
	n = min(n, most)
	if p.class != leftOut && d.room[p.class] >= 0 {
		n = min(n, d.room[p.class])
		d.room[p.class] -= n
	}
	if n == 0 {
		return false
	}
	for _, e := range p.items {
		d.need[e.lot] = max(d.need[e.lot]-n*e.count, 0)
	}
	for i := range d.ms.rows {
		d.rows[i] -= int64(n) * d.ms.rows[i].of(p)
	}
	d.fixed = append(d.fixed, use{p, n})
	d.value += int64(n) * d.s.c.priceOf(p.class, d.ms.t.aim)
	return true
}

// finish completes the dive greedily and offers the plan.
func (d *diver) finish(full bool) {
	styles := d.s.styles(false)
	if full && d.s.level < levelRepack {
		styles = append(styles, style{full: true})
		if d.ms.t.aim == aimCost && len(d.s.c.classes) > 1 {
			styles = append(styles, style{full: true, byCost: true})
		}
	}
	for _, st := range styles {
		rest := d.s.greedy(d.need, d.room, st)
		d.s.offer(d.ms.t, append(slices.Clone(d.fixed), rest...))
	}
}

// resolve solves the relaxation of what is left, with a few new patterns.
func (d *diver) resolve() ([]float64, bool) {
	ms, lp := d.ms, d.ms.lp
	for t, n := range d.need {
		lp.rhs[t] = float64(n) + perturb*float64(1+(t*7919)%101)/101
		if n == 0 {
			lp.rhs[t] = 0
		}
	}
	for i := range ms.rows {
		lp.rhs[len(d.need)+i] = ms.rhs(&ms.rows[i], d.rows[i])
	}
	lp.values()
	for range divePricing {
		lp.solve()
		if d.s.m.spent() {
			return nil, false
		}
		if float64(d.value)+math.Ceil(lp.objective()-1e-3) < float64(d.s.goal(ms.t)) {
			break // good enough to go on
		}
		ms.copies = d.need
		lp.rowPrices()
		ms.scalePrices()
		a := ms.ask()
		a.keep = quickLabels
		added := ms.addFrom(a, d.s.c.price(a, d.s.m))
		ms.copies = ms.t.need
		if !added {
			break
		}
	}
	if float64(d.value)+math.Ceil(lp.objective()-1e-3) >= float64(d.s.goal(ms.t)) {
		return nil, false
	}
	_, values := ms.snapshot()
	return values, true
}

// restore puts the linear program back to the node.
func (d *diver) restore() {
	ms, lp := d.ms, d.ms.lp
	for t, n := range ms.t.need {
		lp.rhs[t] = float64(n) + perturb*float64(1+(t*7919)%101)/101
	}
	for i := range ms.rows {
		lp.rhs[len(ms.t.need)+i] = ms.rhs(&ms.rows[i], ms.rows[i].rhs)
	}
	lp.start(d.basis)
}
