package packing

import (
	"math"
	"math/bits"
	"slices"
)

// A bound from weights. Give every item a whole-number weight, and let no bin
// that may be opened hold more than z weight per unit of its width. Then
//
//	width >= (weight of all items - what limited bins hold beyond z) / z
//
// whatever the weights: adding z times the width over all bins is at least the
// weight they hold, and they hold everything. The size of the items, their
// number, and the classical dual-feasible functions are all such weights; the
// row prices of the linear relaxation are the best ones.

// weigh returns the bound of the width from weights per lot, z, and what is
// spared: the weight that takes up no width.
func (s *solver) weigh(weights []int64, keep int) (bound, z, spared int64) {
	c := s.c
	if c.coarse() {
		limits := make([]int64, len(c.classes))
		for k := range limits {
			limits[k] = c.classes[k].densest(weights)
		}
		if bound, z, spared = s.weighed(weights, limits); s.lift(s.whole(aimWidth), bound) >= s.best.score[aimWidth] {
			return bound, z, spared
		}
	}
	a := &ask{keep: keep, value: weights, copies: c.need, floor: make([]int64, len(c.classes))}
	quotes := c.price(a, s.m)
	limits := make([]int64, len(c.classes))
	for k := range limits {
		limits[k] = quotes[k].limit
	}
	return s.weighed(weights, limits)
}

// weighed is weigh where no bin of class k holds more weight than limits[k].
func (s *solver) weighed(weights, limits []int64) (bound, z, spared int64) {
	c := s.c
	for k := range c.classes {
		class := &c.classes[k]
		if class.max > 0 {
			continue
		}
		if class.width == 0 {
			if limits[k] > 0 {
				return 0, 0, 0 // free bins hold weight: nothing follows
			}
			continue
		}
		z = max(z, (limits[k]+class.width-1)/class.width)
	}
	limited := false
	for k := range c.classes {
		limited = limited || (c.classes[k].max > 0 && c.classes[k].width > 0)
	}
	if z == 0 && !limited {
		return 0, 0, 0
	}
	if z == 0 {
		for k := range c.classes {
			if class := &c.classes[k]; class.width > 0 {
				z = max(z, (limits[k]+class.width-1)/class.width)
			}
		}
	}
	if z == 0 {
		return 0, 0, 0
	}
	for k := range c.classes {
		if class := &c.classes[k]; class.max > 0 {
			beyond := max(limits[k]-z*class.width, 0)
			if beyond > (1<<61)/int64(class.max) {
				return 0, 0, 0
			}
			spared = min(spared+beyond*int64(class.max), 1<<61)
		}
	}
	// Items that any plan may leave out may be the heaviest.
	heaviest := slices.Max(weights)
	if left := s.best.score[aimMissing]; left > 0 && heaviest > (1<<61)/left {
		return 0, 0, 0
	}
	spared = min(spared+heaviest*s.best.score[aimMissing], 1<<61)
	var sum wide
	for t, n := range c.need {
		sum.add(int64(n), weights[t])
	}
	sum.add(-spared, 1)
	return max(sum.ceilDiv(z), 0), z, spared
}

// atBest is what weigh can return at best: the contents of the best plan are
// contents of a bin, so z is no smaller than their weight.
func (s *solver) atBest(weights []int64) int64 {
	var z int64
	for _, u := range s.best.uses {
		if u.class == leftOut || s.c.classes[u.class].max > 0 {
			continue
		}
		var w int64
		for _, e := range u.items {
			w += int64(e.count) * weights[e.lot]
		}
		if width := s.c.classes[u.class].width; width > 0 {
			z = max(z, (w+width-1)/width)
		}
	}
	if z == 0 {
		return math.MaxInt64
	}
	var sum wide
	for t, n := range s.c.need {
		sum.add(int64(n), weights[t])
	}
	return sum.ceilDiv(z)
}

// densest is a weight that no bin of the class exceeds, found without packing: a
// resource's limit, full of the item with the most weight for its size.
func (c *class) densest(weights []int64) int64 {
	least := int64(1 << 61)
	for r, limit := range c.limits {
		w, u, free := int64(0), int64(1), false // the densest item's
		for t, v := range weights {
			switch {
			case c.most[t] == 0 || v == 0:
			case c.uses[t][r] == 0:
				free = true // weight that takes nothing of this resource
			case moreThan(v, u, w, c.uses[t][r]):
				w, u = v, c.uses[t][r]
			}
		}
		if hi, lo := bits.Mul64(uint64(limit), uint64(w)); !free && hi < uint64(u) {
			q, _ := bits.Div64(hi, lo, uint64(u))
			least = int64(min(uint64(least), q))
		}
	}
	return least
}

// moreThan reports whether a·b > c·d, none of them negative.
func moreThan(a, b, c, d int64) bool {
	ah, al := bits.Mul64(uint64(a), uint64(b))
	ch, cl := bits.Mul64(uint64(c), uint64(d))
	return ah > ch || ah == ch && al > cl
}

// thresholds are the shares of a bin, in points, from which the cheap bounds
// count an item as big.
func (s *solver) thresholds() []int64 {
	var at []int64
	for t := range s.c.need {
		if p := s.c.points(t); 2*p <= pointsPerBin {
			at = append(at, p)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	for len(at) > maxThresholds {
		at = at[1:]
	}
	return at
}

// maxThresholds bounds the number of cheap bounds tried.
const maxThresholds = 6

// cheapBounds tries weights that need no linear program.
func (s *solver) cheapBounds() {
	c := s.c
	try := func(why string, weightOf func(t int) int64) {
		if s.bound[aimWidth] >= s.best.score[aimWidth] {
			return
		}
		w := make([]int64, len(c.need))
		for t := range w {
			w[t] = weightOf(t)
		}
		t := s.whole(aimWidth)
		if most := s.atBest(w); most < math.MaxInt64 && s.lift(t, most) <= s.bound[aimWidth] {
			return
		}
		b, _, _ := s.weigh(w, quickLabels)
		if b = s.lift(t, b); b > s.bound[aimWidth] {
			s.bound[aimWidth], s.why[aimWidth] = b, why
			s.weights = w
		}
	}
	for r := range c.classes[0].limits {
		try("all items together against the largest content of a bin", func(t int) int64 {
			return c.leastUse(t, r)
		})
	}
	try("the number of items against the most that one bin holds", func(int) int64 { return 1 })
	try("items that cannot share a bin", func(t int) int64 {
		if 2*c.points(t) > pointsPerBin+2 {
			return 1
		}
		return 0
	})
	for _, least := range s.thresholds() {
		try("large items leave no room for middling ones (dual-feasible function)", func(t int) int64 {
			switch p := c.points(t); {
			case p > pointsPerBin-least:
				return pointsPerBin
			case p >= least:
				return p
			}
			return 0
		})
	}
}

// leastUse is the least that an item of the lot takes of a resource, over the
// families it can be served in.
func (c *cell) leastUse(t, r int) int64 {
	least := int64(-1)
	for k := range c.classes {
		if u := c.classes[k].uses[t]; c.classes[k].most[t] > 0 && (least < 0 || u[r] < least) {
			least = u[r]
		}
	}
	return max(least, 0)
}
