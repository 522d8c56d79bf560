package panel

import (
	"slices"

	"branchwork/loads/inventory"
)

// Place decides the spaces of breakers in a panelboard with so many spaces.
//
// In order of weight: existing breakers stay; as many breakers as possible find
// space; the largest leg sum is as small as possible; breakers that should be
// apart are; the legs differ as little as possible; spare spaces are together
// at the bottom; breakers follow their group and ID from the top.
//
// Leg sums are arithmetic, as a panel schedule adds them: at equal power factor
// and balanced voltages half of a line-to-line load's power is on each of its
// legs. What conductors carry is Currents.
func Place(sys inventory.System, spaces int, wants []Want, limits Work) Layout {
	left := limits.start()
	b, stays := newBoard(sys, spaces, wants)
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
		best.worst = slices.Max(b.sums(kinds, first))
	}
	for want, top := range tops {
		out.Spaces[want] = Takes(top, wants[want].Poles)
	}
	out.Worst, out.Bound, out.Proved, out.Why = best.worst, best.bound, best.worst == best.bound, best.why
	if !sure {
		out.Why += "; whether more breakers could be placed was not settled"
	}
	out.Sums = slices.Clone(b.base)
	for i, w := range wants {
		switch {
		case stays[i]:
			out.Spaces[i] = slices.Clone(w.Fixed)
		case out.Spaces[i] == nil:
			out.Unplaced = append(out.Unplaced, i)
		default:
			for _, s := range out.Spaces[i] {
				out.Sums[LegOf(sys, s)] += w.Amps
			}
		}
		out.Legs[i] = LegsOf(sys, out.Spaces[i])
	}
	return out
}

// decision is the best divisions of the breakers over the legs, equally good.
type decision struct {
	spreads []spread
	worst   int64
	bound   int64
	why     string
}

// best improves on a first division as far as the limits allow.
func (b *board) best(kinds []kind, first spread, left *spent) decision {
	d := decision{spreads: []spread{first}, worst: slices.Max(b.sums(kinds, first))}
	d.bound, d.why = b.boundOf(kinds)
	p := problem{
		legs: b.legs, start: slices.Clone(b.base), slots: b.freeByLeg(b.rows()), step: step(kinds), bound: d.bound,
		fits: b.fitting(kinds, left), atEnds: b.lowLegsSum(kinds),
	}
	for _, k := range kinds {
		if !k.spans(b.legs) {
			continue
		}
		for leg := range p.start {
			p.start[leg] += k.amps * int64(len(k.wants))
			p.slots[leg] -= len(k.wants)
		}
	}
	if p.parts = b.partsOf(kinds, true); len(p.parts) == 0 {
		d.bound, d.why = d.worst, "no breaker could load a leg more or less than another"
		return d
	}
	a := p.divide(d.worst, len(kinds), left)
	if len(a.spreads) > 0 {
		d.spreads, d.worst = a.spreads, a.worst
	}
	if d.worst > d.bound && slices.ContainsFunc(kinds, func(k kind) bool { return k.apart != 0 }) {
		p.parts = b.partsOf(kinds, false)
		if a = p.divide(d.worst, len(kinds), left); len(a.spreads) > 0 && a.worst < d.worst {
			d.spreads, d.worst = a.spreads, a.worst
		}
	}
	if d.worst > d.bound {
		if d.bound = min(b.reachable(kinds, a.bound), d.worst); a.whole {
			d.bound = d.worst
		}
		d.why = "every division of the breakers over the legs was compared"
		if d.bound < d.worst {
			d.why = "the work limit ended before every division over the legs was compared"
		}
	}
	return d
}
