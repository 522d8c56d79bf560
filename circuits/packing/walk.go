package packing

// maxDeepLimit is the largest limit of a second resource that a table carries.
const maxDeepLimit = 64

// secondFor chooses the resource to add to the table: one that the best
// content by main size exceeds, and small enough.
func (x *explorer) secondFor(open []int) int {
	if x.g.coarse() {
		return -1 // the table does not know the true main size
	}
	for _, i := range open {
		x.g.flat.read(i, x.counts)
		r := x.overflows(i)
		if r < 1 {
			continue
		}
		var limit int64
		for _, k := range open {
			limit = max(limit, x.g.limits[k][r])
		}
		cells := limit * int64(x.g.size) * int64(len(x.g.lots)+1)
		if limit <= maxDeepLimit && cells <= maxDeep {
			return r
		}
	}
	return -1
}

// maxWalk bounds the steps of one walk. A walk that ends early leaves the
// table's answer as the limit, which is still true, only less sharp.
const maxWalk = 1 << 17

// walker tries contents one lot after the other, with the table as a bound.
type walker struct {
	x     *explorer
	worth []worth
	t     *table // of worths reduced by the tolls
	l     toll
	i     int
	left  []int64 // per scarce resource of the class
	main  int64   // of the main size
	extra int64   // the most that joint conditions can add
	steps int
}

// walk settles class i of the group by trying contents. It respects conflicts,
// all resources and joint conditions.
func (x *explorer) walk(worth []worth, t *table, l toll, i int) {
	w := &walker{x: x, worth: worth, t: t, l: l, i: i, main: x.g.limits[i][0], steps: maxWalk}
	for _, r := range x.g.scarce[i] {
		w.left = append(w.left, x.g.limits[i][r])
	}
	for _, j := range x.joints[i] {
		w.extra += max(j.extra, 0)
	}
	clear(x.counts)
	w.from(0, t.start(i), 0)
	x.m.entries -= int64(maxWalk - w.steps)
	if w.steps <= 0 {
		q := &x.quotes[x.g.classes[i]]
		q.limit = max(q.limit, x.ceilingWith(t, i, l))
	}
}

func (w *walker) from(p int, s state, value int64) {
	x := w.x
	if w.steps--; w.steps <= 0 {
		return
	}
	ceiling := value + w.t.value(p, s) + w.extra
	for n := range x.g.scarce[w.i] {
		if w.l[n] > 0 {
			ceiling += w.l.worthAll(n, w.left[n])
		}
	}
	if ceiling <= x.quotes[x.g.classes[w.i]].value {
		return
	}
	for p < len(x.g.lots) && w.worth[p].copies == 0 {
		p++
	}
	if p == len(x.g.lots) {
		if !x.empty() {
			x.offer(w.i, x.worthOf(w.i))
		}
		return
	}
	// States after n copies, as many as fit.
	most := 0
	states := []state{s}
	if !w.conflicts(p) {
		for most < w.worth[p].copies && w.take(p) {
			next, ok := w.t.take(p, s)
			if !ok {
				w.untake(p, 1)
				break
			}
			s = next
			states = append(states, s)
			most++
		}
	}
	for n := most; n >= 0; n-- {
		x.counts[p] = n
		w.from(p+1, states[n], value+w.worth[p].of(n))
		if n > 0 {
			w.untake(p, 1)
		}
	}
}

func (w *walker) conflicts(p int) bool {
	x := w.x
	for o, n := range x.counts[:p] {
		if n > 0 && x.c.clash[x.g.lots[p]][x.g.lots[o]] {
			return true
		}
	}
	return false
}

// take charges one item of position p, if it fits.
func (w *walker) take(p int) bool {
	scarce, uses := w.x.g.scarce[w.i], w.x.g.uses[p]
	if uses[0] > w.main {
		return false
	}
	for i, r := range scarce {
		if uses[r] > w.left[i] {
			return false
		}
	}
	w.untake(p, -1)
	return true
}

// untake gives back n items of position p.
func (w *walker) untake(p, n int) {
	uses := w.x.g.uses[p]
	w.main += int64(n) * uses[0]
	for i, r := range w.x.g.scarce[w.i] {
		w.left[i] += int64(n) * uses[r]
	}
}
