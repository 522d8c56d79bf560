package packing

import "slices"

// worth is what the items of one lot are worth to a bin.
type worth struct {
	each   int64   // value of every copy, where steps is nil
	steps  []int64 // value of n copies, where it is not proportional
	copies int     // the most that may be taken; 0 leaves the lot out
}

func (w *worth) of(n int) int64 {
	if w.steps != nil {
		return w.steps[n]
	}
	return w.each * int64(n)
}

// table is a bounded knapsack over the states of a raster. Layer p holds, for
// each state, the best value of lots p, p+1, ... alone; layer 0 is the answer.
type table struct {
	g      *raster
	layers [][]int64
	store  []int64
	worth  []worth
	blank  []bool  // layer equals the one below it
	before []trace // what the layers were made from; see same
}

func (t *table) reset(g *raster, w []worth) {
	t.g, t.worth = g, w
	if len(t.before) != len(w) {
		t.before = make([]trace, len(w))
		for p := range t.before {
			t.before[p].copies = -1
		}
	}
	if t.layers == nil {
		t.store = make([]int64, g.size*(len(g.lots)+1))
		t.layers = make([][]int64, len(g.lots)+1)
		t.blank = make([]bool, len(g.lots))
		t.layers[len(g.lots)] = t.layer(len(g.lots)) // stays zero
	}
}

// layer returns the storage of layer p.
func (t *table) layer(p int) []int64 { return t.store[p*t.g.size : (p+1)*t.g.size] }

// fill solves the knapsack.
func (g *raster) fill(w []worth, m *meter) *table {
	t := &g.table
	t.reset(g, w)
	kept := true // all layers below are as they were
	for p := len(g.lots) - 1; p >= 0; p-- {
		below, v := t.layers[p+1], &w[p]
		now := v.trace(g.full[p])
		same := kept && now.copies >= 0 && t.before[p] == now
		t.before[p], kept = now, same
		if t.blank[p] = v.copies == 0; t.blank[p] {
			t.layers[p] = below
			continue
		}
		cur, prev := t.layer(p), g.prev[p]
		t.layers[p] = cur
		m.entries -= int64(g.size)
		switch {
		case same && !t.blank[p]:
			if v.copies < g.full[p] || prev[len(prev)-1] == int32(len(prev)-1) {
				m.entries -= int64(g.size * (now.copies - 1)) // counted as if anew
			}
		case v.steps == nil && v.copies >= g.full[p] && prev[len(prev)-1] < int32(len(prev)-1):
			// As many as fit: each copy builds on the entry with one fewer.
			gain, first := v.each, firstRoom(prev)
			copy(cur[:first], below)
			below, cur := below[:len(prev)], cur[:len(prev)]
			for j := first; j < len(prev); j++ {
				cur[j] = max(below[j], cur[prev[j]]+gain)
			}
		default:
			m.entries -= int64(g.size * (min(v.copies, g.full[p]) - 1))
			first := firstRoom(prev)
			copy(cur[:first], below)
			for j := first; j < len(cur); j++ {
				best := below[j]
				at := prev[j]
				if v.steps != nil {
					for n := 1; n <= v.copies && at >= 0; n++ {
						best = max(best, below[at]+v.steps[n])
						at = prev[at]
					}
				} else {
					for n, gain := 0, v.each; n < v.copies && at >= 0; n, gain = n+1, gain+v.each {
						best = max(best, below[at]+gain)
						at = prev[at]
					}
				}
				cur[j] = best
			}
		}
	}
	return t
}

// firstRoom returns the first state that has room for an item; states are in the
// order of their room.
func firstRoom(prev []int32) int {
	n, _ := slices.BinarySearch(prev, 0)
	return n
}

// trace is what a layer was made from, beside the layer below it; copies is
// below 0 where nothing can be told.
type trace struct {
	each   int64
	copies int
}

func (w *worth) trace(full int) trace {
	switch {
	case w.copies == 0:
		return trace{}
	case w.steps != nil:
		return trace{copies: -1}
	}
	return trace{w.each, min(w.copies, full)}
}

// value is the best value of lots p, p+1, ... from a state.
func (t *table) value(p int, at int32) int64 { return t.layers[p][at] }

// read writes into counts how many of each position make up the best value of
// class i.
func (t *table) read(i int, counts []int) {
	at := t.g.room[i]
	for p := range t.g.lots {
		counts[p] = 0
		if t.blank[p] {
			continue
		}
		want := t.value(p, at)
		for n, now := 0, at; now >= 0 && n <= t.worth[p].copies; n++ {
			if t.value(p+1, now)+t.worth[p].of(n) == want {
				counts[p], at = n, now
				break
			}
			now = t.g.prev[p][now]
		}
	}
}
