package panel

// dimensions of a state that narrow the choice of its partner: the spaces taken
// on the first and, of three, the last leg; the sums of these legs at the
// heaviest moment that rules and at the next. The other leg follows from the
// totals. Of a high-leg system the two are the low legs.
const (
	dimensions  = 6
	firstOfSums = 2
)

// key is a state's coordinates, or its box.
type key [dimensions]int64

// interval is what two partners' coordinates may add up to. The zero interval
// does not narrow the choice.
type interval struct{ low, high int64 }

// part returns the box in which x lies.
func (i interval) part(x int64) int64 {
	if i == (interval{}) {
		return 0
	}
	return floorDiv(x, i.high-i.low+1)
}

// box cuts the space of states into boxes as wide as the intervals.
type box [dimensions]interval

// coordinates returns the coordinates of a cell.
func (t *table) coordinates(i, legs int, leading []int) key {
	c := &t.cells[i]
	use := t.used(c.tops, legs)
	k := key{int64(use[0])}
	if legs == 3 {
		k[1] = int64(use[2])
	}
	for n, m := range leading {
		x, _, z := c.sums.legs(m, t.total[m])
		if k[firstOfSums+2*n] = x; legs == 3 {
			k[firstOfSums+2*n+1] = z
		}
	}
	return k
}

// of returns the box of coordinates.
func (b box) of(at key) key {
	for d := range at {
		at[d] = b[d].part(at[d])
	}
	return at
}

// each calls f with every box that may hold a partner of coordinates, until f
// returns false.
func (b box) each(at key, f func(key) bool) bool {
	var from, to key
	for d := range at {
		from[d] = b[d].part(b[d].low - at[d])
		to[d] = b[d].part(b[d].high - at[d])
	}
	k := from
	for {
		if !f(k) {
			return false
		}
		d := 0
		for ; d < dimensions && k[d] == to[d]; d++ {
			k[d] = from[d]
		}
		if d == dimensions {
			return true
		}
		k[d]++
	}
}

// floorDiv divides, rounding down.
func floorDiv(x, y int64) int64 {
	q := x / y
	if x%y < 0 {
		q--
	}
	return q
}
