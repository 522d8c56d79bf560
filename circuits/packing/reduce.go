package packing

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"
)

// lot is a group of kinds that differ in nothing that matters to a packing.
// Solving by lots keeps the work independent of the number of items.
type lot struct {
	kinds []int
	count int
}

// class is a kind of bin, or a group of equal existing bins.
type class struct {
	family   int
	limits   []int64
	width    int64
	opened   int64 // 1, or 0 for an existing bin
	cost     int64
	max      int       // how many there can be; 0 means any number
	most     []int     // per lot, the most in one bin; 0 where not permitted
	uses     [][]int64 // per lot, what one item takes; nil where not permitted
	bin      int       // index in Problem.Bins, -1 for existing bins
	existing []int     // indices in Problem.Existing
}

// model is the problem after everything that needs no search.
type model struct {
	p        *Problem
	lots     []lot
	classes  []class
	clash    [][]bool // per pair of lots
	unplaced []int    // per kind, items that fit no bin at all
}

// reduce groups equal kinds and equal existing bins, sets aside items that fit
// nowhere, and drops bin kinds that another one replaces at no loss.
func reduce(p *Problem) *model {
	m := &model{p: p, unplaced: make([]int, len(p.Kinds))}
	foes := foesOf(*p)
	rooms := p.rooms()
	most := make([][]int, len(rooms)) // per room and kind
	for i, r := range rooms {
		most[i] = make([]int, len(p.Kinds))
		for k := range p.Kinds {
			most[i][k] = p.mostOf(k, r, foes[k])
		}
	}
	byKey := map[string]int{}
	for k, kind := range p.Kinds {
		fits := false
		for i := range rooms {
			fits = fits || most[i][k] > 0
		}
		if !fits {
			m.unplaced[k] = kind.Count
			continue
		}
		key := p.key(k, rooms, most, foes[k])
		if i, ok := byKey[key]; ok {
			m.lots[i].kinds = append(m.lots[i].kinds, k)
			m.lots[i].count += kind.Count
			continue
		}
		byKey[key] = len(m.lots)
		m.lots = append(m.lots, lot{kinds: []int{k}, count: kind.Count})
	}
	for i, r := range rooms {
		m.addClass(r, most[i])
	}
	m.mergeExisting()
	m.dropDominated()
	m.clash = make([][]bool, len(m.lots))
	for a := range m.lots {
		m.clash[a] = make([]bool, len(m.lots))
		for b := range m.lots {
			m.clash[a][b] = a != b && foes[m.lots[a].kinds[0]][m.lots[b].kinds[0]]
		}
	}
	return m
}

// room is what bin kinds and existing bins have in common.
type room struct {
	bin, existing int // one of them is -1
	family        int
	limits        []int64
	allow         []bool
	atMost        []int
	holds         []int
}

func (p *Problem) rooms() []room {
	var out []room
	for i, b := range p.Bins {
		out = append(out, room{bin: i, existing: -1, family: b.Family,
			limits: b.Limits, allow: b.Allow, atMost: b.AtMost})
	}
	for i, e := range p.Existing {
		out = append(out, room{bin: -1, existing: i, family: e.Family,
			limits: e.Limits, allow: e.Allow, atMost: e.AtMost, holds: e.Holds})
	}
	return out
}

// mostOf returns how many items of kind k the rules let into one such bin; 0
// also where not even one fits.
func (p *Problem) mostOf(k int, r room, foes map[int]bool) int {
	uses, ok := p.form(k, r.family)
	if !ok || p.Kinds[k].Count == 0 || (r.allow != nil && !r.allow[k]) {
		return 0
	}
	for i, u := range uses {
		if u > r.limits[i] {
			return 0
		}
	}
	for _, h := range r.holds {
		if foes[h] {
			return 0
		}
	}
	most := p.Kinds[k].Count
	if r.atMost != nil && r.atMost[k] > 0 {
		most = min(most, r.atMost[k])
	}
	if foes[k] {
		most = min(most, 1)
	}
	return most
}

// key is equal for kinds that may be merged. A limit on the number of one kind
// in a bin is per kind, so kinds with such a limit are never merged.
func (p *Problem) key(k int, rooms []room, most [][]int, foes map[int]bool) string {
	var b keyed
	for _, f := range slices.SortedFunc(slices.Values(p.Kinds[k].Forms), func(a, b Form) int {
		return cmp.Compare(a.Family, b.Family)
	}) {
		b.put(int64(f.Family))
		b.put(f.Uses...)
	}
	const (
		none, all = -1, -2 // only k: its number
	)
	for i := range rooms {
		at := rooms[i].atMost
		switch n := most[i][k]; {
		case n == 0:
			b.put(none)
		case n < p.Kinds[k].Count || at != nil && at[k] > 0:
			b.put(int64(k))
		default:
			b.put(all)
		}
	}
	if foes[k] {
		b.put(int64(k))
	}
	ids := make([]int64, 0, len(foes))
	for o := range foes {
		ids = append(ids, int64(o))
	}
	slices.Sort(ids)
	b.put(ids...)
	return string(b)
}

// keyed is whole numbers in a row, told apart by their bytes; lists carry their
// lengths.
type keyed []byte

func (b *keyed) put(list ...int64) {
	*b = binary.AppendUvarint(*b, uint64(len(list)))
	for _, v := range list {
		*b = binary.AppendVarint(*b, v)
	}
}

func (m *model) addClass(r room, most []int) {
	c := class{family: r.family, limits: r.limits, bin: r.bin,
		most: make([]int, len(m.lots)), uses: make([][]int64, len(m.lots))}
	used := false
	total := 0
	for t, l := range m.lots {
		if most[l.kinds[0]] == 0 {
			continue
		}
		used = true
		for _, k := range l.kinds {
			c.most[t] += most[k]
			total += m.p.Kinds[k].Count
		}
		c.uses[t], _ = m.p.form(l.kinds[0], r.family)
	}
	if !used {
		return
	}
	if r.bin < 0 {
		c.existing = []int{r.existing}
		c.max = 1
	} else {
		b := m.p.Bins[r.bin]
		c.width, c.opened, c.cost, c.max = int64(b.Width), 1, b.Cost, b.Max
	}
	// A bin holds at least one item, so a higher limit never binds.
	if c.bin >= 0 && c.max >= total {
		c.max = 0
	}
	m.classes = append(m.classes, c)
}

// mergeExisting makes one class of existing bins that have the same room left.
func (m *model) mergeExisting() {
	byKey := map[string]int{}
	kept := m.classes[:0]
	for _, c := range m.classes {
		if c.bin < 0 {
			key := fmt.Sprint(c.family, c.limits, c.most)
			if i, ok := byKey[key]; ok {
				kept[i].existing = append(kept[i].existing, c.existing...)
				kept[i].max++
				continue
			}
			byKey[key] = len(kept)
		}
		kept = append(kept, c)
	}
	m.classes = kept
}

// dropDominated removes bin kinds that can always be replaced: whatever such a
// bin holds, some other kind holds too, in any number and at no more width,
// or at the same width and no more cost.
func (m *model) dropDominated() {
	gone := make([]bool, len(m.classes))
	for a := range m.classes {
		for b := range m.classes {
			if a != b && !gone[b] && m.classes[a].replacedBy(&m.classes[b]) {
				gone[a] = true
				break
			}
		}
	}
	kept := m.classes[:0]
	for i, c := range m.classes {
		if !gone[i] {
			kept = append(kept, c)
		}
	}
	m.classes = kept
}

func (c *class) replacedBy(o *class) bool {
	if c.bin < 0 || o.bin < 0 || c.family != o.family || o.max != 0 {
		return false
	}
	if o.width > c.width || (o.width == c.width && o.cost > c.cost) {
		return false
	}
	for r := range c.limits {
		if o.limits[r] < c.limits[r] {
			return false
		}
	}
	for t := range c.most {
		if o.most[t] < c.most[t] {
			return false
		}
	}
	return true
}
