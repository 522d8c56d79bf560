package packing

import (
	"math"
	"math/bits"
)

// Resources that the table does not know are charged a price per unit. Then
//
//	worth = sum of (worth - price·uses) + price·(uses of the content)
//	     <= table's best at the reduced worth + price·limit
//
// for any prices, and good prices make the table's answer nearly the truth.

// Effort of the search for prices.
const (
	priceRounds = 12 // tables per class and question
	quickRounds = 3  // the same where a good content will do
	priceScale  = 20 // prices are whole numbers over 2^20
)

// toll is a price per unit for each scarce resource of a class.
type toll []int64

// charge is the price of n units, rounded down.
func (t toll) charge(r int, n int64) int64 {
	hi, lo := bits.Mul64(uint64(t[r]), uint64(n))
	return int64(hi<<(64-priceScale) | lo>>priceScale)
}

// worthAll is the price of n units, rounded up: what is left of a resource can
// be worth no more.
func (t toll) worthAll(r int, n int64) int64 { return t.charge(r, n) + 1 }

// reduced returns the worths less the tolls of class i, until it is asked again.
func (x *explorer) reduced(w []worth, i int, t toll) []worth {
	if x.less == nil {
		x.less = make([]worth, len(w))
	}
	out := x.less
	for p := range w {
		out[p] = w[p]
		var each int64
		for n, r := range x.g.scarce[i] {
			if t[n] > 0 {
				each += t.charge(n, x.g.uses[p][r])
			}
		}
		if each == 0 || w[p].copies == 0 {
			continue
		}
		out[p].each -= each
		if w[p].steps != nil {
			out[p].steps = make([]int64, len(w[p].steps))
			for n := range out[p].steps {
				out[p].steps[n] = w[p].steps[n] - int64(n)*each
			}
		} else if out[p].each <= 0 {
			out[p].copies = 0
		}
	}
	return out
}

// ceilingWith is what no content of class i can exceed, by the table of
// reduced worths and the tolls of all it could use.
func (x *explorer) ceilingWith(t *table, i int, l toll) int64 {
	v := x.ceiling(t, i)
	for n, r := range x.g.scarce[i] {
		if l[n] > 0 {
			v += l.worthAll(n, x.g.limits[i][r])
		}
	}
	return v
}

// tolls searches good prices for class i, starting from the last ones, and
// returns a table of reduced worths, the prices and the ceiling they give.
// Contents met on the way that fit are offered.
func (x *explorer) tolls(w []worth, i int) (*table, toll, int64) {
	if len(x.g.scarce[i]) == 0 {
		t := &x.g.table
		if &t.worth[0] != &w[0] {
			t = x.g.fill(w, x.m)
		}
		return t, nil, x.ceiling(t, i)
	}
	if x.g.tolls[i] == nil {
		x.g.tolls[i] = make(toll, len(x.g.scarce[i]))
	}
	best := append(toll(nil), x.g.tolls[i]...)
	now := append(toll(nil), best...)
	q := &x.quotes[x.g.classes[i]]
	lowest := int64(math.MaxInt64)
	share := 1.0
	rounds := priceRounds
	if x.a.keep > 0 {
		rounds = quickRounds
	}
	for range rounds {
		// The rough table is good enough to search with.
		t := x.g.rough.fill(x.reduced(w, i, now), x.m)
		v := x.ceilingWith(t, i, now)
		if v < lowest {
			lowest = v
			copy(best, now)
		} else {
			share /= 2
		}
		if v <= q.value {
			break
		}
		t.read(i, x.counts)
		if x.clashing() < 0 && !x.empty() && x.overflows(i) < 0 && x.used(0) <= x.g.limits[i][0] {
			x.offer(i, x.worthOf(i))
		}
		if !x.move(now, i, share*float64(v-q.value)) {
			break
		}
	}
	copy(x.g.tolls[i], best)
	t := x.g.fill(x.reduced(w, i, best), x.m)
	return t, best, x.ceilingWith(t, i, best)
}

// move changes prices towards what the counts use too much or too little of,
// by a step that would close the gap if the ceiling were linear.
func (x *explorer) move(l toll, i int, gap float64) bool {
	scarce := x.g.scarce[i]
	over := make([]float64, len(scarce))
	norm := 0.0
	for n, r := range scarce {
		limit := float64(x.g.limits[i][r])
		if limit == 0 {
			continue
		}
		over[n] = float64(x.used(r))/limit - 1
		if over[n] < 0 && l[n] == 0 {
			over[n] = 0
		}
		norm += float64(over[n] * over[n])
	}
	if norm == 0 {
		return false
	}
	moved := false
	for n, r := range scarce {
		if over[n] == 0 {
			continue
		}
		step := float64(gap*over[n]) / norm / float64(x.g.limits[i][r]) * (1 << priceScale)
		next := max(l[n]+int64(step), 0)
		moved = moved || next != l[n]
		l[n] = next
	}
	return moved
}
