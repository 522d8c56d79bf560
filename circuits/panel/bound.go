package panel

import (
	"math"
	"slices"

	"branchwork/loads/inventory"
)

// A bound is a sum that the worst-loaded leg must carry in every layout. Each
// function says why.

// boundOf returns the best of the bounds and what it rests on.
func (b *board) boundOf(kinds []kind) (int64, string) {
	bound, why := b.evenBound(kinds), "no leg can be the largest with less than an equal share"
	if x := b.shareBound(kinds); x > bound {
		bound, why = x, "the largest breakers cannot all have a leg of their own"
	}
	if x := b.lowLegsBound(kinds); x > bound {
		bound, why = x, "line-to-neutral loads have the two low legs only"
	}
	if x := b.loneBound(kinds); x > bound {
		bound, why = x, "one breaker, or what is there already, needs as much"
	}
	return b.reachable(kinds, bound), why
}

// step returns the greatest common divisor of what the breakers add to a leg,
// 1 if they add nothing: leg sums move in such steps.
func step(kinds []kind) int64 {
	var g int64
	for _, k := range kinds {
		g = gcd(g, k.amps)
	}
	return max(g, 1)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// reachable raises a bound to the next sum that a leg can have at all: what is
// there already and a whole number of steps. The largest leg sum is the sum of
// some leg.
func (b *board) reachable(kinds []kind, bound int64) int64 {
	g := step(kinds)
	next := int64(math.MaxInt64)
	for _, base := range b.base {
		up := (base - bound) % g
		if up < 0 {
			up += g
		}
		next = min(next, bound+up)
	}
	return next
}

// evenBound is the equal share, rounded up: the legs add up to the total and
// the largest of them is no smaller than their mean.
func (b *board) evenBound(kinds []kind) int64 {
	var total int64
	for _, s := range b.base {
		total += s
	}
	for _, k := range kinds {
		total += k.amps * int64(k.poles*len(k.wants))
	}
	return ceilDiv(total, int64(b.legs))
}

// alike returns what every leg carries before anything is decided: breakers
// that span all legs.
func (b *board) alike(kinds []kind) (sum int64) {
	for _, k := range kinds {
		if k.spans(b.legs) {
			sum += k.amps * int64(len(k.wants))
		}
	}
	return sum
}

// shareBound takes the poles one by one, largest first. Among the first
// k·legs + 1 poles some leg has k + 1, which add up to no less than the k + 1
// smallest of them; and to that comes what the least loaded leg carries anyway.
// That poles of one breaker have different legs is left out, which can only
// make the bound smaller.
func (b *board) shareBound(kinds []kind) int64 {
	var poles []int64
	for _, k := range kinds {
		for range len(k.wants) * k.poles {
			if !k.spans(b.legs) {
				poles = append(poles, k.amps)
			}
		}
	}
	slices.SortFunc(poles, func(x, y int64) int { return int(y - x) })
	var best int64
	for k := 1; k*b.legs < len(poles); k++ {
		var sum int64
		for _, amps := range poles[k*b.legs-k : k*b.legs+1] {
			sum += amps
		}
		best = max(best, sum)
	}
	return best + b.alike(kinds) + slices.Min(b.base)
}

// lowLegsBound is the equal share of the two low legs of a high-leg system.
func (b *board) lowLegsBound(kinds []kind) int64 { return ceilDiv(b.lowLegsSum(kinds), 2) }

// lowLegsSum is what the two low legs carry together at least, 0 where there is
// no high leg: all line-to-neutral loads kept off the high leg, at least one pole
// of every two-pole breaker, and two of every three-pole one. Two-pole breakers
// for which the high leg has no space have both poles on the low legs; those
// are the smallest at best.
func (b *board) lowLegsSum(kinds []kind) int64 {
	if b.sys.Form != inventory.HighLeg {
		return 0
	}
	var sum int64
	for leg, s := range b.base {
		if leg != highLeg {
			sum += s
		}
	}
	free := b.freeByLeg(b.rows())[highLeg]
	var either []int64 // two-pole breakers that may use the high leg
	for _, k := range kinds {
		n := int64(len(k.wants))
		switch {
		case k.spans(b.legs):
			sum += 2 * n * k.amps
			free -= len(k.wants)
		case k.poles == 2 && k.top == b.anyLeg():
			sum += n * k.amps
			either = append(either, slices.Repeat([]int64{k.amps}, len(k.wants))...)
		case k.poles == 2:
			sum += 2 * n * k.amps
		case !k.top.has(highLeg):
			sum += n * k.amps
		}
	}
	slices.Sort(either)
	for i := 0; i < len(either)-free; i++ {
		sum += either[i]
	}
	return sum
}

// loneBound is what one breaker needs on the legs where it does least harm,
// with what is there already; or what is there already.
func (b *board) loneBound(kinds []kind) int64 {
	alike := b.alike(kinds)
	best := slices.Max(b.base) + alike
	for _, k := range kinds {
		if k.spans(b.legs) {
			continue
		}
		least := int64(-1)
		for top := range b.legs {
			if !k.top.has(top) {
				continue
			}
			worst := int64(0)
			for p := range k.poles {
				worst = max(worst, b.base[(top+p)%b.legs]+alike+k.amps)
			}
			if least < 0 || worst < least {
				least = worst
			}
		}
		best = max(best, least)
	}
	return best
}

func ceilDiv(x, y int64) int64 { return (x + y - 1) / y }

func sum(list []int64) (s int64) {
	for _, x := range list {
		s += x
	}
	return s
}
