package circuits

import (
	"math"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Grid is how the fixtures of a room stand: in rows along its longer side,
// numbered row by row, there and back, so that neighbours by number are neighbours
// in the room. Run lengths and floor plans rest on it.
type Grid struct {
	Long, Wide units.Length // the room's sides
	PerRow     int
	Rows       int
	Spacing    units.Length // along a row
	Pitch      units.Length // from row to row
}

// GridOf returns how so many fixtures stand in a room; ok is false where its size
// or the spacing is not known.
func GridOf(r inventory.Room, count int) (Grid, bool) {
	long, ok1 := r.Length.Get()
	wide, ok2 := r.Width.Get()
	spacing, ok3 := r.Spacing.Get()
	if !ok1 || !ok2 || !ok3 || spacing <= 0 {
		return Grid{}, false
	}
	g := Grid{Long: max(long, wide), Wide: min(long, wide), Spacing: spacing}
	g.PerRow = max(1, int(math.Floor(units.Per(g.Long, spacing)+1e-9)))
	g.Rows = (count + g.PerRow - 1) / g.PerRow
	g.Pitch = units.Times(g.Wide, 1/float64(max(1, g.Rows)))
	return g, true
}

// Place returns the row and the place along it of unit n, all from 0: every other
// row is walked back. perRow is the units of a row.
func Place(n, perRow int) (row, at int) {
	row, at = n/perRow, n%perRow
	if row%2 == 1 {
		at = perRow - 1 - at
	}
	return row, at
}

// From returns how far unit n, from 0, stands from the first one, along the rows.
func (g Grid) From(n int) units.Length {
	row, at := Place(n, g.PerRow)
	return units.Times(g.Spacing, float64(at)) + units.Times(g.Pitch, float64(row))
}

// Step is the distance between neighbours of a circuit that takes units first to
// last: that of a row, or the larger one to the next row where it crosses over.
func (g Grid) Step(first, last int) units.Length {
	if first/g.PerRow != last/g.PerRow {
		return max(g.Spacing, g.Pitch)
	}
	return g.Spacing
}
