package packing

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
	w.from(0, t.g.room[i], 0)
	x.m.entries -= int64(maxWalk - w.steps)
	if w.steps <= 0 {
		q := &x.quotes[x.g.classes[i]]
		q.limit = max(q.limit, x.ceilingWith(t, i, l))
	}
}

func (w *walker) from(p int, at int32, value int64) {
	x := w.x
	if w.steps--; w.steps <= 0 {
		return
	}
	ceiling := value + w.t.value(p, at) + w.extra
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
	states := []int32{at}
	if !w.conflicts(p) {
		for at = x.g.prev[p][at]; most < w.worth[p].copies && at >= 0 && w.take(p); at = x.g.prev[p][at] {
			states = append(states, at)
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
