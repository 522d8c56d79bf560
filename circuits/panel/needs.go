package panel

import "branchwork/loads/inventory"

// Needs returns the smallest number of spaces, have or more, in which all
// breakers find space: have and whole rows more. It only looks for spaces and
// so is far quicker than Place. Breakers with more poles than the system has
// legs, and fixed ones that stand outside the panel or on another, are not
// counted, since no number of spaces cures them.
func Needs(sys inventory.System, have int, wants []Want) int {
	for spaces := max(have, 0); ; spaces += sides {
		b, _ := newBoard(sys, spaces, wants, Day{})
		ranked := byRank(wants, b.placeable(wants))
		classes := classesByNeed(b, wants, ranked)
		tries := int64(fitTries)
		if _, v := b.place(b.rows(), classes, largestFirst(classes), &tries); v == fits {
			return spaces
		}
	}
}

// placeable returns the test whether a breaker is to be placed and can be.
func (b *board) placeable(wants []Want) func(int) bool {
	return func(i int) bool {
		w := wants[i]
		return len(w.Fixed) == 0 && w.Poles >= 1 && w.Poles <= b.legs
	}
}
