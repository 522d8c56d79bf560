package packing

import (
	"cmp"
	"math/bits"
	"slices"
)

// group is a set of classes that one knapsack table can price together: same
// family, same rules per lot, different room. All amounts are divided by their
// greatest common divisor.
type group struct {
	classes []int // classes of the cell
	lots    []int // lots of the cell, largest first
	most    []int // per position in lots, the most in one bin
	uses    [][]int64
	limits  [][]int64 // per class of the group
	tight   [][]int   // per class, the resources the table does not take care of

	// The table runs over the sums of sizes that can occur, not over every
	// whole number up to the limit. Taking an item leads from one such sum to
	// the largest sum that still fits.
	room []int32   // per class, the state of an empty bin
	prev [][]int32 // per position and state, the state after taking one item
	full []int     // per position, copies that fit the largest bin
	size int       // number of states

	flat, deep table
}

const (
	// maxRaster is the largest limit for which every sum is marked one by
	// one. Above it sizes are coarsened, and the true sizes are checked as if
	// they were one more resource.
	maxRaster = 1 << 21
	// maxStates bounds states times lots, and with it the memory of a table.
	maxStates = 1 << 22
)

// groupClasses sorts the classes of a cell into groups, large bins first.
func (c *cell) groupClasses() {
	order := make([]int, len(c.classes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return slices.Compare(c.classes[b].limits, c.classes[a].limits)
	})
	for _, k := range order {
		found := false
		for _, g := range c.groups {
			if c.joins(g, k) {
				g.classes = append(g.classes, k)
				found = true
				break
			}
		}
		if !found {
			c.groups = append(c.groups, &group{classes: []int{k}})
		}
	}
	for _, g := range c.groups {
		g.prepare(c)
	}
}

// joins reports whether class k differs from the first class of the group in
// room only: a lot is missing at most where one item does not fit.
func (c *cell) joins(g *group, k int) bool {
	head, tail := &c.classes[g.classes[0]], &c.classes[k]
	if head.family != tail.family {
		return false
	}
	for t := range c.need {
		switch {
		case head.most[t] == tail.most[t]:
		case tail.most[t] != 0 || head.most[t] == 0:
			return false
		case fits(head.uses[t], tail.limits):
			return false
		}
	}
	return true
}

func fits(uses, limits []int64) bool {
	for r, u := range uses {
		if u > limits[r] {
			return false
		}
	}
	return true
}

func (g *group) prepare(c *cell) {
	head := &c.classes[g.classes[0]]
	for t, n := range head.most {
		if n > 0 {
			g.lots = append(g.lots, t)
		}
	}
	slices.SortStableFunc(g.lots, func(a, b int) int {
		return cmp.Compare(head.uses[b][0], head.uses[a][0])
	})
	resources := len(head.limits)
	for _, t := range g.lots {
		g.most = append(g.most, head.most[t])
		g.uses = append(g.uses, slices.Clone(head.uses[t]))
	}
	for _, k := range g.classes {
		g.limits = append(g.limits, slices.Clone(c.classes[k].limits))
	}
	for r := range resources {
		var d int64
		for _, u := range g.uses {
			d = gcd(d, u[r])
		}
		for _, u := range g.uses {
			u[r] /= max(d, 1)
		}
		for _, l := range g.limits {
			l[r] /= max(d, 1)
		}
	}
	g.tight = make([][]int, len(g.classes))
	for i := range g.classes {
		for r := 1; r < resources; r++ {
			if !g.implied(i, r) {
				g.tight[i] = append(g.tight[i], r)
			}
		}
	}
	g.index()
}

// implied reports whether resource r can never be the one that runs out in
// class i of the group: either all items together keep the limit, or every
// item takes a smaller part of it than of the main size.
func (g *group) implied(i, r int) bool {
	limits := g.limits[i]
	var sum int64
	smaller := true
	for p, u := range g.uses {
		if u[0] > limits[0] {
			continue // never inside, the table sees to that
		}
		if u[r] > 0 && int64(g.most[p]) > (limits[r]-sum)/u[r] {
			sum = limits[r] + 1
		} else if sum <= limits[r] {
			sum += int64(g.most[p]) * u[r]
		}
		// u[r]/limits[r] <= u[0]/limits[0], without division
		ah, al := bits.Mul64(uint64(u[r]), uint64(limits[0]))
		bh, bl := bits.Mul64(uint64(u[0]), uint64(limits[r]))
		smaller = smaller && (ah < bh || (ah == bh && al <= bl)) && (u[0] > 0 || u[r] == 0)
	}
	return sum <= limits[r] || smaller
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// index finds the sums that matter and links them.
func (g *group) index() {
	var largest int64
	for _, l := range g.limits {
		largest = max(largest, l[0])
	}
	grid := largest/maxRaster + 1
	for !g.indexWith(grid, largest/grid) {
		grid *= 2
	}
	if grid > 1 {
		for i := range g.tight {
			g.tight[i] = append([]int{0}, g.tight[i]...)
		}
	}
}

// indexWith builds the states for sizes rounded down to a grid. Rounding down
// can only let more in, so the table stays a bound from above.
func (g *group) indexWith(grid, largest int64) bool {
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
	if len(sums)*max(len(g.lots), 1) > maxStates && grid < 1<<40 {
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
	used := make([]bool, len(sums))
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
	return true
}

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
