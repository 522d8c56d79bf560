package packing

import (
	"math/bits"
	"slices"
)

// raster is what a table over the main size runs over: not every whole number
// up to the limit, but the sums of sizes that can occur. Taking an item leads
// from one such sum to the largest sum that still fits.
type raster struct {
	*group
	grid    int64     // sizes are rounded down to multiples of this
	stateAt []int32   // per main size left, in grid steps: the state
	room    []int32   // per class, the state of an empty bin
	prev    [][]int32 // per position and state, the state after taking one item
	full    []int     // per position, copies that fit the largest bin
	size    int       // number of states

	table table
	x     *explorer
	spare [][]label // buffers of growers
	store []int64   // the same
}

const (
	// maxRaster is the largest limit for which every sum is marked one by one.
	maxRaster = 1 << 18
	// roughStates and fineStates are the largest numbers of states of a table.
	// Beyond them sizes are coarsened, and the true size is looked at as one
	// more resource.
	roughStates = 1 << 12
	fineStates  = 1 << 16
)

// newRaster finds the sums that matter and links them.
func newRaster(gr *group, states int) *raster {
	g := &raster{group: gr}
	var largest int64
	for _, l := range g.limits {
		largest = max(largest, l[0])
	}
	g.grid = largest/maxRaster + 1
	for !g.index(g.grid, largest/g.grid, states) {
		g.grid *= 2
	}
	return g
}

// index builds the states for sizes rounded down to a grid; false if there are
// too many. Rounding down can only let more in, so the table stays a bound
// from above.
func (g *raster) index(grid, largest int64, states int) bool {
	sizes := make([]int64, len(g.lots))
	g.full = make([]int, len(g.lots))
	for p, u := range g.uses {
		sizes[p] = u[0] / grid
		g.full[p] = g.most[p]
		if sizes[p] > 0 {
			g.full[p] = int(min(largest/sizes[p], maxItems))
		}
	}
	sums := reachable(sizes, g.most, largest)
	if len(sums) > states {
		return false
	}
	all := make([][]int32, len(g.lots))
	for p, a := range sizes {
		all[p] = make([]int32, len(sums))
		at := int32(-1)
		for j, s := range sums {
			for int(at+1) < len(sums) && sums[at+1] <= s-a {
				at++
			}
			all[p][j] = at
		}
	}
	// Keep only states that can be reached from an empty bin of some class.
	// With rounded sizes, what is truly left may be less than the table thinks,
	// so any state can come up.
	used := make([]bool, len(sums))
	for j := range used {
		used[j] = grid > 1
	}
	rooms := make([]int32, len(g.classes))
	for i := range g.classes {
		at, found := slices.BinarySearch(sums, g.limits[i][0]/grid)
		if !found {
			at--
		}
		rooms[i] = int32(at)
		used[at] = true
	}
	for j := len(sums) - 1; j >= 0; j-- {
		for p := range all {
			if to := all[p][j]; used[j] && to >= 0 {
				used[to] = true
			}
		}
	}
	number := make([]int32, len(sums))
	g.size = 0
	for j := range sums {
		number[j] = int32(g.size)
		if used[j] {
			g.size++
		}
	}
	g.prev = make([][]int32, len(g.lots))
	for p := range all {
		g.prev[p] = make([]int32, 0, g.size)
		for j, to := range all[p] {
			if used[j] {
				if to >= 0 {
					to = number[to]
				}
				g.prev[p] = append(g.prev[p], to)
			}
		}
	}
	g.room = make([]int32, len(g.classes))
	for i := range rooms {
		g.room[i] = number[rooms[i]]
	}
	g.stateAt = make([]int32, largest+1)
	at := int32(-1)
	next := 0
	for v := range g.stateAt {
		for next < len(sums) && sums[next] <= int64(v) {
			if used[next] {
				at = number[next]
			}
			next++
		}
		g.stateAt[v] = at
	}
	return true
}

// coarse reports whether sizes were rounded, so that the true main size has to
// be looked at as well.
func (g *raster) coarse() bool { return g.grid > 1 }

// coarse reports whether the quick tables of some class round sizes.
func (c *cell) coarse() bool {
	return slices.ContainsFunc(c.groups, func(g *group) bool { return g.rough.coarse() })
}

// stateOf returns the state for what is left of the main size.
func (g *raster) stateOf(left int64) int32 { return g.stateAt[left/g.grid] }

// reachable lists, ascending, the sums up to the limit of at most the given
// number of each size.
func reachable(sizes []int64, most []int, limit int64) []int64 {
	set := make([]uint64, limit/64+1)
	set[0] = 1
	for p, a := range sizes {
		if a == 0 || a > limit {
			continue
		}
		left := min(int64(most[p]), limit/a)
		// Shifting by 1, 2, 4, ... copies and the remainder makes every count.
		for piece := int64(1); left > 0; piece *= 2 {
			piece = min(piece, left)
			shiftOr(set, piece*a)
			left -= piece
		}
	}
	var sums []int64
	for w, word := range set {
		for ; word != 0; word &= word - 1 {
			s := int64(w)*64 + int64(bits.TrailingZeros64(word))
			if s <= limit {
				sums = append(sums, s)
			}
		}
	}
	return sums
}

func shiftOr(set []uint64, by int64) {
	words, rest := int(by/64), uint(by%64)
	for i := len(set) - 1; i >= words; i-- {
		moved := set[i-words] << rest
		if rest > 0 && i > words {
			moved |= set[i-words-1] >> (64 - rest)
		}
		set[i] |= moved
	}
}
