package panel

import (
	"slices"

	"branchwork/loads/inventory"
)

// board is a panelboard with its fixed breakers in place.
type board struct {
	sys     inventory.System
	legs    int
	spaces  int
	taken   []bool           // by space, from 1
	loads   []vector         // by want
	moments []moment         // what is searched
	bases   []vector         // by leg, what fixed breakers carry and what is there beside them
	base    []int64          // the same at one moment; see view
	apart   map[int][]legSet // by apart group, the legs of its fixed breakers
}

// newBoard puts the fixed breakers in, in the order of the list. A fixed
// breaker outside the panel or on a space that is taken is not put in; what is
// wrong with it is the reader's to say.
func newBoard(sys inventory.System, spaces int, wants []Want, day Day) (*board, []bool) {
	legs := max(sys.Legs, 1)
	b := &board{sys: sys, legs: legs, spaces: max(spaces, 0), taken: make([]bool, max(spaces, 0)+1), bases: make([]vector, legs), apart: map[int][]legSet{}}
	b.look(day, wants)
	stays := make([]bool, len(wants))
	for i, w := range wants {
		if len(w.Fixed) == 0 || slices.ContainsFunc(w.Fixed, func(s int) bool { return s < 1 || s > b.spaces || b.taken[s] }) {
			continue
		}
		stays[i] = true
		var set legSet
		for _, s := range w.Fixed {
			leg := LegOf(sys, s)
			b.taken[s] = true
			b.bases[leg].add(1, b.loads[i])
			set |= 1 << leg
		}
		if w.Apart != 0 {
			b.apart[w.Apart] = append(b.apart[w.Apart], set)
		}
	}
	return b, stays
}

// look settles the moments that are searched and what everything carries then.
func (b *board) look(day Day, wants []Want) {
	b.moments, b.loads = searched(day, wants), make([]vector, len(wants))
	for m, k := range b.moments {
		for i, w := range wants {
			b.loads[i][m] = k.amps(w)
		}
		for leg := range b.bases {
			b.bases[leg][m] = legOf(k.base(day), leg)
		}
	}
}

// freeByLeg counts the free spaces of each leg among the first rows.
func (b *board) freeByLeg(rows int) []int {
	free := make([]int, b.legs)
	for s := 1; s <= min(b.spaces, sides*rows); s++ {
		if !b.taken[s] {
			free[LegOf(b.sys, s)]++
		}
	}
	return free
}

// rows returns the number of rows.
func (b *board) rows() int { return Row(b.spaces) }

// anyLeg is the set of all legs.
func (b *board) anyLeg() legSet { return 1<<b.legs - 1 }

// legsFor returns the legs on which the top pole of a breaker may sit.
func (b *board) legsFor(w Want) legSet {
	set := b.anyLeg()
	if !w.LowLegsOnly || b.sys.Form != inventory.HighLeg {
		return set
	}
	switch w.Poles {
	case 1:
		return set &^ (1 << highLeg)
	case 2:
		return 1 << (highLeg + 1) // C and, in the next row, A
	}
	return set
}

// legSet is a set of legs, one bit each.
type legSet uint8

func (s legSet) has(leg int) bool { return s>>leg&1 == 1 }
