package packing

import (
	"cmp"
	"slices"
)

// cell is a part of the problem that shares no bin with any other part, so
// that values and bounds of cells simply add up.
type cell struct {
	lots    []int // lot of the model behind each lot of the cell
	need    []int // items per lot
	share   []float64
	classes []class
	clash   [][]bool
	canMiss []bool // lots that only fit bins of limited number
	groups  []*group
	items   int // no bin holds more items than this
	scratch []entry
	quotes  []quote // buffer of price
	even    int64   // width of every class that can be opened, 0 if they differ
}

// split cuts the model into cells. Lots belong together when two of them could
// meet in a bin, or when they compete for a bin of limited number.
func (m *model) split() []*cell {
	head := make([]int, len(m.lots))
	for t := range head {
		head[t] = t
	}
	find := func(t int) int {
		for head[t] != t {
			head[t] = head[head[t]]
			t = head[t]
		}
		return t
	}
	for i := range m.classes {
		c := &m.classes[i]
		var in []int
		for t := range m.lots {
			if c.most[t] > 0 {
				in = append(in, t)
			}
		}
		for a, t := range in {
			for _, u := range in[:a] {
				if find(t) != find(u) && (c.max > 0 || m.couldMeet(c, t, u)) {
					head[find(t)] = find(u)
				}
			}
		}
	}
	byHead := map[int][]int{}
	for t := range m.lots {
		byHead[find(t)] = append(byHead[find(t)], t)
	}
	var cells []*cell
	for t := range m.lots {
		if find(t) == t {
			cells = append(cells, m.cell(byHead[t]))
		}
	}
	return cells
}

func (m *model) couldMeet(c *class, t, u int) bool {
	if m.clash[t][u] {
		return false
	}
	for r, limit := range c.limits {
		if c.uses[t][r]+c.uses[u][r] > limit {
			return false
		}
	}
	return true
}

// cell builds the part of the model that the lots make up. Its order of lots
// and classes follows their figures, not their place in the problem, so that
// the order of the input does not steer the search.
func (m *model) cell(lots []int) *cell {
	share := make([]float64, len(m.lots))
	unlimited := make([]bool, len(m.lots))
	for _, t := range lots {
		share[t] = 2
		for i := range m.classes {
			if c := &m.classes[i]; c.most[t] > 0 {
				share[t] = min(share[t], c.share(t))
				unlimited[t] = unlimited[t] || c.max == 0
			}
		}
	}
	lots = slices.Clone(lots)
	slices.SortStableFunc(lots, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(share[b], share[a]),
			cmp.Compare(m.lots[b].count, m.lots[a].count),
			cmp.Compare(m.clashes(a), m.clashes(b)),
		)
	})
	c := &cell{lots: lots}
	for _, t := range lots {
		c.need = append(c.need, m.lots[t].count)
		c.share = append(c.share, share[t])
		c.canMiss = append(c.canMiss, !unlimited[t])
		row := make([]bool, len(lots))
		for j, u := range lots {
			row[j] = m.clash[t][u]
		}
		c.clash = append(c.clash, row)
	}
	for i := range m.classes {
		k := m.classes[i]
		most, uses, used := make([]int, len(lots)), make([][]int64, len(lots)), false
		for j, t := range lots {
			most[j], uses[j] = k.most[t], k.uses[t]
			used = used || most[j] > 0
		}
		if used {
			k.most, k.uses = most, uses
			c.classes = append(c.classes, k)
		}
	}
	slices.SortStableFunc(c.classes, func(a, b class) int {
		return cmp.Or(
			cmp.Compare(a.opened, b.opened),
			cmp.Compare(a.width, b.width),
			cmp.Compare(a.family, b.family),
			slices.Compare(b.limits, a.limits),
			cmp.Compare(a.cost, b.cost),
			slices.Compare(b.most, a.most),
		)
	})
	return c
}

// prepare builds what solving needs. It is kept no longer than that.
func (c *cell) prepare() {
	c.groupClasses()
	first := true
	for i := range c.classes {
		if k := &c.classes[i]; k.opened > 0 {
			if first || c.even == k.width {
				c.even = k.width
			} else {
				c.even = -1
			}
			first = false
		}
	}
	c.even = max(c.even, 0)
	for _, g := range c.groups {
		c.items = max(c.items, g.items())
	}
}

// share is the part of a bin that one item takes of the scarcest resource.
func (c *class) share(t int) float64 {
	s := 0.0
	for r, u := range c.uses[t] {
		if u > 0 {
			s = max(s, float64(u)/float64(c.limits[r]))
		}
	}
	return s
}

func (m *model) clashes(t int) int {
	n := 0
	for _, c := range m.clash[t] {
		if c {
			n++
		}
	}
	return n
}

// key is equal for cells whose lots and classes agree in every figure: a
// hundred equal rooms are solved once.
func (c *cell) key() string {
	var b keyed
	b.put(int64(len(c.need)), int64(len(c.classes)))
	b.counts(c.need)
	for _, row := range c.clash {
		for _, clash := range row {
			if clash {
				b = append(b, 1)
			} else {
				b = append(b, 0)
			}
		}
	}
	for i := range c.classes {
		k := &c.classes[i]
		b.put(int64(k.family), k.width, k.opened, k.cost, int64(k.max))
		b.put(k.limits...)
		b.counts(k.most)
		for _, u := range k.uses {
			b.put(u...)
		}
	}
	return string(b)
}

func (b *keyed) counts(list []int) {
	for _, n := range list {
		b.put(int64(n))
	}
}
