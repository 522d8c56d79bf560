package packing

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

// table is a bounded knapsack over the states of a raster, and optionally over
// what is left of one more resource. Layer p holds, for each state, the best
// value of lots p, p+1, ... alone; layer 0 is the answer.
type table struct {
	g      *raster
	layers [][]int64
	store  []int64
	stride int // 1 + limit of the second resource; 1 without one
	second int // the second resource, -1 without one
	worth  []worth
	blank  []bool // layer equals the one below it
}

func (t *table) reset(g *raster, w []worth, stride int) {
	t.g, t.worth, t.stride = g, w, stride
	cells := g.size * stride
	if need := cells * (len(g.lots) + 1); len(t.store) < need {
		t.store = make([]int64, need)
	}
	if len(t.layers) != len(g.lots)+1 {
		t.layers = make([][]int64, len(g.lots)+1)
		t.blank = make([]bool, len(g.lots))
	}
	last := t.store[:cells]
	clear(last)
	t.layers[len(g.lots)] = last
}

// layer returns the storage of layer p.
func (t *table) layer(g *raster, p int) []int64 {
	cells := g.size * t.stride
	at := (len(g.lots) - p) * cells
	return t.store[at : at+cells]
}

// fill solves the knapsack over the main size alone.
func (g *raster) fill(w []worth, m *meter) *table {
	t := &g.flat
	t.second = -1
	t.reset(g, w, 1)
	for p := len(g.lots) - 1; p >= 0; p-- {
		below, v := t.layers[p+1], &w[p]
		if t.blank[p] = v.copies == 0; t.blank[p] {
			t.layers[p] = below
			continue
		}
		cur, prev := t.layer(g, p), g.prev[p]
		t.layers[p] = cur
		m.entries -= int64(g.size)
		switch {
		case v.steps == nil && g.uses[p][0] > 0 && v.copies >= g.full[p] && prev[len(prev)-1] < int32(len(prev)-1):
			// As many as fit: each copy builds on the entry with one fewer.
			gain := v.each
			for j, at := range prev {
				best := below[j]
				if at >= 0 {
					best = max(best, cur[at]+gain)
				}
				cur[j] = best
			}
		default:
			m.entries -= int64(g.size * (min(v.copies, g.full[p]) - 1))
			for j := range cur {
				best := below[j]
				at := prev[j]
				for n := 1; n <= v.copies && at >= 0; n++ {
					best = max(best, below[at]+v.of(n))
					at = prev[at]
				}
				cur[j] = best
			}
		}
	}
	return t
}

// maxDeep bounds the entries of a table with a second resource.
const maxDeep = 1 << 22

// fillDeep solves the knapsack over the main size and resource r together.
// limit is the largest limit of r that matters.
func (g *raster) fillDeep(w []worth, r int, limit int64, m *meter) *table {
	t := &g.deep
	t.second = r
	t.reset(g, w, int(limit)+1)
	s := t.stride
	for p := len(g.lots) - 1; p >= 0; p-- {
		below, v, c := t.layers[p+1], &w[p], int(min(g.uses[p][r], limit+1))
		if t.blank[p] = v.copies == 0 || c >= s; t.blank[p] {
			t.layers[p] = below
			continue
		}
		cur, prev := t.layer(g, p), g.prev[p]
		t.layers[p] = cur
		m.entries -= int64(g.size * s)
		fit := g.full[p]
		if c > 0 {
			fit = min(fit, int(limit)/c)
		}
		zero := prev[len(prev)-1] == int32(len(prev)-1)
		if v.steps == nil && v.copies >= fit && !zero {
			gain := v.each
			for j, at := range prev {
				row, old := cur[j*s:(j+1)*s], below[j*s:(j+1)*s]
				copy(row, old)
				if at < 0 {
					continue
				}
				from := cur[int(at)*s : int(at)*s+s-c]
				for u, base := range from {
					row[u+c] = max(row[u+c], base+gain)
				}
			}
			continue
		}
		m.entries -= int64(g.size * s * max(min(v.copies, fit)-1, 0))
		copy(cur, below)
		for j := range prev {
			row := cur[j*s : (j+1)*s]
			at := prev[j]
			for n := 1; n <= v.copies && at >= 0 && n*c < s; n++ {
				gain := v.of(n)
				from := below[int(at)*s : int(at)*s+s-n*c]
				for u, base := range from {
					row[u+n*c] = max(row[u+n*c], base+gain)
				}
				at = prev[at]
			}
		}
	}
	return t
}

// state is a place in a table: what is left of the main size and of the
// second resource.
type state struct {
	at   int32
	left int
}

// start returns the state of an empty bin of class i of the group.
func (t *table) start(i int) state {
	g := t.g
	s := state{at: g.room[i]}
	if t.second >= 0 {
		s.left = int(min(g.limits[i][t.second], int64(t.stride-1)))
	}
	return s
}

func (t *table) value(p int, s state) int64 {
	return t.layers[p][int(s.at)*t.stride+s.left]
}

// take returns the state after one item of position p, or false.
func (t *table) take(p int, s state) (state, bool) {
	s.at = t.g.prev[p][s.at]
	if s.at < 0 {
		return s, false
	}
	if t.second >= 0 {
		u := t.g.uses[p][t.second]
		if u > int64(s.left) {
			return s, false
		}
		s.left -= int(u)
	}
	return s, true
}

// read writes into counts how many of each position make up the best value of
// class i.
func (t *table) read(i int, counts []int) {
	s := t.start(i)
	for p := range t.g.lots {
		counts[p] = 0
		if t.blank[p] {
			continue
		}
		want := t.value(p, s)
		for n, ok, now := 0, true, s; ok; n++ {
			if t.value(p+1, now)+t.worth[p].of(n) == want {
				counts[p], s = n, now
				break
			}
			if n == t.worth[p].copies {
				break
			}
			now, ok = t.take(p, now)
		}
	}
}
