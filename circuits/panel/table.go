package panel

import "slices"

// cell is one state that some parts can bring the legs to.
type cell struct {
	sums flat
	tops tops
	from int32 // cell of the table one part earlier
	by   int32 // way of the part that was added
}

// link is what is kept of an earlier table: enough to walk back.
type link struct{ from, by int32 }

// table is the states that a list of parts can bring the legs to.
type table struct {
	parts []part
	links [][]link // by part
	cells []cell   // after the last part
	whole bool     // no state was dropped to save room
	total vector   // current over all legs
	ones  int
	twos  int

	held, free *states // where cells are, and where the next may go
}

// rules are what every state must keep to.
type rules struct {
	legs    int
	moments []moment
	most    int64 // no leg carries more at a moment that rules
	slots   []int // by leg, spaces for the breakers to be divided
}

// tabulate finds the states that the parts can reach from a start, part by
// part: each state with each way of the next part, equal states once. States
// that break a rule are dropped, since adding breakers cures nothing. Where
// there are more than there is room for, those nearest to even legs stay, and
// the table is no longer whole; a room for whole tables only is then left empty.
func tabulate(parts []part, start []vector, r rules, size room, budget *int64) table {
	t := table{parts: parts, whole: true, cells: []cell{{}}, held: newStates(0), free: newStates(0)}
	for leg, s := range start {
		t.total.add(1, s)
		if leg == 0 || leg == 1 && r.legs == 3 {
			t.cells[0].sums.add(leg, 1, s)
		}
	}
	for _, p := range parts {
		next := t.with(p, r, size, budget)
		t.held, t.free = t.free, t.held
		if len(next) > size.cells {
			t.whole = false
			next = t.nearestEven(next, r, size.cells)
		}
		if !t.whole && size.whole {
			return table{}
		}
		links := make([]link, len(next))
		for i, c := range next {
			links[i] = link{c.from, c.by}
		}
		t.links, t.cells = append(t.links, links), next
	}
	return t
}

// overflow is how many times its room a table may take up while a part is
// added.
const overflow = 4

// with returns the states after one more part.
func (t *table) with(p part, r rules, size room, budget *int64) []cell {
	t.total.add(1, p.total)
	most := overflow * size.cells
	if size.whole {
		most = size.cells
	}
	t.ones += p.ones
	t.twos += p.twos
	found := t.free
	found.empty(len(t.cells))
	for i, c := range t.cells {
		if *budget <= 0 {
			t.whole = false
			if len(found.cells) > 0 {
				break // else go on until there is one
			}
		}
		for k, w := range p.ways {
			n := cell{c.sums.plus(&w.sums), c.tops + w.tops, int32(i), int32(k)}
			if t.allows(&n, r) {
				found.add(n)
				*budget--
			}
		}
		if len(found.cells) <= most {
			continue
		}
		t.whole = false
		if size.whole {
			return nil
		}
		kept := t.nearestEven(found.cells, r, size.cells)
		found.empty(len(kept))
		for _, n := range kept {
			found.add(n)
		}
	}
	return found.cells
}

// allows reports whether a state keeps to the rules.
func (t *table) allows(c *cell, r rules) bool {
	for m, k := range r.moments {
		if !k.rules {
			continue
		}
		if x, y, z := c.sums.legs(m, t.total[m]); max(x, y, z) > r.most {
			return false
		}
	}
	for leg, n := range t.used(c.tops, r.legs) {
		if leg < r.legs && n > r.slots[leg] {
			return false
		}
	}
	return true
}

// used returns the spaces of each leg that breakers take.
func (t *table) used(n tops, legs int) [maxPoles]int {
	one, two := n.count(1, 0), n.count(1, 1)
	if legs < 3 {
		return [maxPoles]int{one, t.ones - one}
	}
	ab, bc := n.count(2, 0), n.count(2, 1)
	ca := t.twos - ab - bc
	return [maxPoles]int{one + ab + ca, two + bc + ab, t.ones - one - two + ca + bc}
}

// nearestEven keeps the states whose legs are most alike over all moments,
// spaces weighing as much as the mean current that a space carries.
func (t *table) nearestEven(cells []cell, r rules, keep int) []cell {
	uneven := make([]int64, len(cells))
	for i := range cells {
		c := &cells[i]
		use := t.used(c.tops, r.legs)
		for m := range r.moments {
			perSpace := t.total[m] / int64(max(t.ones+2*t.twos, 1))
			x, y, z := c.sums.legs(m, t.total[m])
			x, z = x+perSpace*int64(use[0]), z+perSpace*int64(use[r.legs-1])
			high, low := max(x, z), min(x, z)
			if r.legs == 3 {
				y += perSpace * int64(use[1])
				high, low = max(high, y), min(low, y)
			}
			uneven[i] += high - low
		}
	}
	limit := smallest(slices.Clone(uneven), keep-1)
	out := make([]cell, 0, keep)
	for i, c := range cells {
		if uneven[i] < limit {
			out = append(out, c)
		}
	}
	for i, c := range cells {
		if uneven[i] == limit && len(out) < keep {
			out = append(out, c)
		}
	}
	return out
}

// smallest returns the number that n others are below or equal to, by parting the
// list around its middle and looking on in the part that holds it. It reorders the
// list.
func smallest(list []int64, n int) int64 {
	for len(list) > 1 {
		pivot := middle(list[0], list[len(list)/2], list[len(list)-1])
		low, high := 0, len(list)-1
		for low <= high {
			for list[low] < pivot {
				low++
			}
			for list[high] > pivot {
				high--
			}
			if low <= high {
				list[low], list[high] = list[high], list[low]
				low, high = low+1, high-1
			}
		}
		switch {
		case n <= high:
			list = list[:high+1]
		case n >= low:
			list, n = list[low:], n-low
		default:
			return pivot
		}
	}
	return list[0]
}

func middle(a, b, c int64) int64 { return max(min(a, b), min(max(a, b), c)) }

// walk adds to the spread the ways that lead to a cell.
func (t *table) walk(at int32, s spread) {
	for i := len(t.parts) - 1; i >= 0; i-- {
		l := t.links[i][at]
		for _, sh := range t.parts[i].ways[l.by].over {
			for leg, n := range sh.tops {
				s[sh.kind][leg] += n
			}
		}
		at = l.from
	}
}
