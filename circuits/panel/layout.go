package panel

import (
	"math"
	"slices"

	"branchwork/loads/inventory"
)

// Place decides the spaces of breakers in a panelboard with so many spaces.
//
// In order of weight: existing breakers stay; as many breakers as possible find
// space; breakers that should be apart are, where they can be; the fullest leg at
// any moment of the day is as little filled as possible; the fullest legs of the moments
// with lights on, added up, are least; so is the fullest leg with everything on;
// the legs differ as little as possible; spare spaces are together at the
// bottom; breakers follow their group and ID from the top.
//
// Leg sums are arithmetic, as a panel schedule adds them: at equal power factor
// and balanced voltages half of a line-to-line load's power is on each of its
// legs. What conductors carry is Currents.
func Place(sys inventory.System, spaces int, wants []Want, day Day, limits Work) Layout {
	left := limits.start()
	b, stays := newBoard(sys, spaces, wants, day)
	out := Layout{Spaces: make([][]int, len(wants)), Legs: make([][]int, len(wants))}
	ranked := byRank(wants, b.placeable(wants))
	kept, at, classes, sure := b.chosen(wants, ranked)
	kinds := b.kindsOf(wants, kept)

	first := b.firstSpread(kinds, at, classes)
	best := b.best(kinds, first, left)
	for _, s := range best.spreads {
		b.addSpanning(kinds, s)
	}
	tops := b.settle(kinds, best.spreads, kept)
	if tops == nil {
		tops = b.assign(kinds, first, kept, at)
		best.score = b.scoreOf(b.sums(kinds, first))
	}
	for want, top := range tops {
		out.Spaces[want] = Takes(top, wants[want].Poles)
	}
	out.Why = best.why
	if !sure {
		out.Why += "; whether more breakers could be placed was not settled"
	}
	for i, w := range wants {
		switch {
		case stays[i]:
			out.Spaces[i] = slices.Clone(w.Fixed)
		case out.Spaces[i] == nil:
			out.Unplaced = append(out.Unplaced, i)
		}
		out.Legs[i] = LegsOf(sys, out.Spaces[i])
	}
	out.figures(b, day, wants, best.bound)
	return out
}

// figures adds up the legs at every moment of the day, also at those that were
// not searched, and sets the bounds beside them.
func (l *Layout) figures(b *board, day Day, wants []Want, bound score) {
	l.Sums = l.sums(b.legs, day, wants, everythingOn)
	l.Bound, l.LitBound = bound.worst, bound.lit
	l.Worst = -1
	for _, m := range counted(day, wants) {
		sums := l.sums(b.legs, day, wants, m)
		even := ceilDiv(sum(sums), int64(b.legs))
		if high := slices.Max(sums); high > l.Worst || high == l.Worst && even > l.Even {
			l.Worst, l.Even, l.At = high, even, max(m.at, 0)
		}
		if m.lit {
			l.Lit += slices.Max(sums)
			l.LitEven += even
		}
		if !slices.ContainsFunc(b.moments, func(o moment) bool { return o.at == m.at }) {
			l.Bound = max(l.Bound, even)
			if m.lit {
				l.LitBound += even
			}
		}
	}
	l.Proved = l.Worst == l.Bound
}

// sums adds up the legs at a moment.
func (l *Layout) sums(legs int, day Day, wants []Want, m moment) []int64 {
	out := make([]int64, legs)
	for leg := range out {
		out[leg] = legOf(m.base(day), leg)
	}
	for i, w := range wants {
		for _, leg := range l.Legs[i] {
			out[leg] += m.amps(w)
		}
	}
	return out
}

// decision is the best divisions of the breakers over the legs, equally good.
type decision struct {
	spreads []spread
	score
	bound score // of worst and, among layouts with this worst, of lit and united
	why   string
}

// best improves on a first division as far as the limits allow.
func (b *board) best(kinds []kind, first spread, left *spent) decision {
	d := decision{spreads: []spread{first}, score: b.scoreOf(b.sums(kinds, first))}
	p := b.problem(kinds, left)
	d.bound, d.why = p.least, p.why
	if b.tooLarge(kinds) {
		d.why = "the currents are too large to compare divisions over the legs"
		return d
	}
	if p.parts = b.partsOf(kinds, true); len(p.parts) == 0 {
		d.bound, d.why = d.score, "no breaker could load a leg more or less than another"
		return d
	}
	most, apart := d.score, heaviestApart(kinds)
	most.worst += 2 * apart // exchanged, the first division is apart with no more
	a := p.divide(most, len(kinds), left)
	if len(a.spreads) == 0 && apart > 0 {
		p.parts = b.partsOf(kinds, false)
		a, apart = p.divide(d.score, len(kinds), left), 0
	}
	if len(a.spreads) > 0 && (apart > 0 || a.compare(d.score) <= 0) {
		d.take(a)
	}
	if d.worst > d.bound.worst {
		if d.bound.worst = min(p.reach(a.bound), d.worst); a.whole {
			d.bound.worst = d.worst
		}
		d.why = "every division of the breakers over the legs was compared"
		if d.bound.worst < d.worst {
			d.why = "the work limit ended before every division over the legs was compared"
		}
	}
	return d
}

// heaviestApart is the most that a breaker which should be apart from others
// carries at any moment, 0 where there is none.
func heaviestApart(kinds []kind) (most int64) {
	for _, k := range kinds {
		if k.apart != 0 {
			most = max(most, 1, slices.Max(k.load[:]))
		}
	}
	return most
}

// take keeps an answer.
func (d *decision) take(a answer) {
	if d.spreads, d.score = a.spreads, a.score; a.litWhole {
		d.bound.lit = d.lit
	}
}

// problem is what is to be divided, without its parts, and what bounds it.
func (b *board) problem(kinds []kind, left *spent) problem {
	p := problem{
		legs: b.legs, moments: b.moments, start: slices.Clone(b.bases), slots: b.freeByLeg(b.rows()),
		fits: b.fitting(kinds, left),
	}
	for _, k := range kinds {
		if !k.spans(b.legs) {
			continue
		}
		for leg := range p.start {
			p.start[leg].add(int64(len(k.wants)), k.load)
			p.slots[leg] -= len(k.wants)
		}
	}
	for m, k := range b.moments {
		v, kinds := b.view(m, kinds)
		bound, why := v.boundOf(kinds)
		p.steps[m], p.atEnds[m] = step(kinds), v.lowLegsSum(kinds)
		if k.rules {
			p.leading = append(p.leading, m)
			p.reaches = append(p.reaches, func(bound int64) int64 { return v.reachable(kinds, bound) })
			if p.step = gcd(p.step, p.steps[m]); bound > p.least.worst || p.why == "" {
				p.least.worst, p.why = bound, why
			}
		}
		if k.lit {
			p.least.lit += bound
		}
		if k.united {
			p.least.united = bound
		}
	}
	p.bound, p.leading = p.least.worst, p.leading[:min(len(p.leading), 2)]
	return p
}

// reach raises a bound to the next sum that the fullest leg can have at a
// moment that rules.
func (p problem) reach(bound int64) int64 {
	next := int64(math.MaxInt64)
	for _, r := range p.reaches {
		next = min(next, r(bound))
	}
	return next
}

// tooLarge reports whether the sums leave the range in which they are searched.
func (b *board) tooLarge(kinds []kind) bool {
	for m := range b.moments {
		var sum int64
		for _, leg := range b.bases {
			sum += leg[m]
		}
		for _, k := range kinds {
			if n := int64(k.poles * len(k.wants)); k.load[m] > mostTotal/n {
				return true
			} else if sum += n * k.load[m]; sum > mostTotal {
				return true
			}
		}
	}
	return false
}
