package panel

// dimensions of a state that narrow the choice of its partner: the sums of the
// first and, of three, the last leg; the spaces taken on these legs. The other
// leg follows from the totals. Of a high-leg system the two are the low legs.
const dimensions = 4

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
func (t *table) coordinates(i, legs int) key {
	c := &t.cells[i]
	use := t.used(c.tops, legs)
	if legs < 3 {
		return key{c.a, 0, int64(use[0]), 0}
	}
	return key{c.a, t.total - c.a - c.b, int64(use[0]), int64(use[2])}
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
	var k key
	for k[0] = from[0]; k[0] <= to[0]; k[0]++ {
		for k[1] = from[1]; k[1] <= to[1]; k[1]++ {
			for k[2] = from[2]; k[2] <= to[2]; k[2]++ {
				for k[3] = from[3]; k[3] <= to[3]; k[3]++ {
					if !f(k) {
						return false
					}
				}
			}
		}
	}
	return true
}

// floorDiv divides, rounding down.
func floorDiv(x, y int64) int64 {
	q := x / y
	if x%y < 0 {
		q--
	}
	return q
}
