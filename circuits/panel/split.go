package panel

import (
	"cmp"
	"slices"
)

// Split divides loads over legs, one leg each, so that the largest sum is as
// small as possible: what Place does, without spaces to keep to. It returns the
// leg of each load, the largest sum and a bound below which it cannot be; where
// both are equal the division is proved best.
func Split(legs int, loads []int64, limits Work) (leg []int, worst, bound int64) {
	b := &board{legs: legs, bases: make([]vector, legs)}
	wants := make([]Want, len(loads))
	slots := make([]int, legs)
	for i, x := range loads {
		wants[i] = Want{ID: i, Poles: 1, Amps: x}
	}
	for i := range slots {
		slots[i] = len(loads)
	}
	b.look(Day{}, wants)
	kinds := b.kindsOf(wants, byRank(wants, func(int) bool { return true }))
	leg, worst = leastLoaded(legs, loads)
	p := b.problem(kinds, limits.start())
	p.slots, p.fits = slots, func(tops) verdict { return fits }
	if bound = p.bound; worst == bound || b.tooLarge(kinds) {
		return leg, worst, bound
	}
	p.parts = b.partsOf(kinds, false)
	a := p.divide(score{worst: worst}, len(kinds), limits.start())
	if len(a.spreads) == 0 {
		return leg, worst, a.bound
	}
	for k, kd := range kinds {
		i := 0
		for l, n := range a.spreads[0][k] {
			for range n {
				leg[kd.wants[i]] = l
				i++
			}
		}
	}
	return leg, a.worst, a.bound
}

// leastLoaded gives each load, the largest first, to the leg that carries least.
func leastLoaded(legs int, loads []int64) (leg []int, worst int64) {
	order := make([]int, len(loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(loads[j], loads[i]) })
	leg, sums := make([]int, len(loads)), make([]int64, legs)
	for _, i := range order {
		leg[i] = slices.Index(sums, slices.Min(sums))
		sums[leg[i]] += loads[i]
	}
	return leg, slices.Max(sums)
}
