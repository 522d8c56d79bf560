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
	scarce  [][]int   // per class, the resources beside the main size that can run out
	tolls   []toll    // per class, where the last search for them ended

	rough *raster // small, for most questions
	fine  *raster // large, for sharp limits; made by sharp
}

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
	g.scarce = make([][]int, len(g.classes))
	g.tolls = make([]toll, len(g.classes))
	for i := range g.classes {
		for r := 1; r < resources; r++ {
			if !g.implied(i, r) {
				g.scarce[i] = append(g.scarce[i], r)
			}
		}
	}
	g.rough = newRaster(g, roughStates)
}

// sharp returns the raster for sharp limits: the rough one where it is exact.
func (g *group) sharp() *raster {
	if g.fine == nil {
		if g.fine = g.rough; g.rough.coarse() {
			g.fine = newRaster(g, fineStates)
		}
	}
	return g.fine
}

// items is the largest number of items in one bin, by main size and rules.
func (g *group) items() int {
	var largest int64
	for _, l := range g.limits {
		largest = max(largest, l[0])
	}
	n := 0
	for p, u := range g.uses {
		fit := int64(g.most[p])
		if u[0] > 0 {
			fit = min(fit, largest/u[0])
		}
		n += int(fit)
	}
	return n
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
