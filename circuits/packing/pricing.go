package packing

// cond holds in a bin that has at least so many items of a lot.
type cond struct{ lot, least int }

// joint is extra worth of a bin of the class (-1: of any class) in which all
// conditions hold.
type joint struct {
	class int
	conds []cond
	extra int64
}

// ask is a question to the pricing: which content of one bin is worth most?
type ask struct {
	value  []int64 // per lot, worth of one item
	steps  []joint // one condition each, any class
	joints []joint // several conditions, or one class only
	copies []int   // per lot, the most of interest
	floor  []int64 // per class, contents must be worth more to be of interest
	keep   int     // a good content will do, from so many labels; 0 for the best
}

// entry is a number of items of one lot.
type entry struct{ lot, count int }

// quote answers an ask for one class.
type quote struct {
	items []entry // best content found that is worth more than the floor
	value int64   // what it is worth
	limit int64   // no content is worth more than this, or than the floor
	loose bool    // asked for the best, the limit could be lower
	spare []entry // buffer of items
}

// price finds the best content for every class of the cell. The answer holds
// until the next question.
func (c *cell) price(a *ask, m *meter) []quote {
	if c.quotes == nil {
		c.quotes = make([]quote, len(c.classes))
	}
	quotes := c.quotes
	for k := range quotes {
		quotes[k] = quote{spare: quotes[k].spare}
	}
	for _, gr := range c.groups {
		g := gr.rough
		if a.keep == 0 {
			g = gr.sharp()
		}
		x := g.explorer(c, a, m)
		for i, k := range g.classes {
			quotes[k].value = a.floor[k]
			quotes[k].limit = a.floor[k]
			x.joints[i] = x.joints[i][:0]
			for j := range a.joints {
				if a.joints[j].class < 0 || a.joints[j].class == k {
					x.joints[i] = append(x.joints[i], &a.joints[j])
				}
			}
		}
		x.singles()
		x.explore()
	}
	return quotes
}

// explorer returns the raster's explorer for a new question.
func (g *raster) explorer(c *cell, a *ask, m *meter) *explorer {
	if g.x == nil {
		g.x = &explorer{g: g, out: make([]bool, len(g.lots)), counts: make([]int, len(g.lots)), joints: make([][]*joint, len(g.classes))}
	}
	x := g.x
	x.c, x.a, x.m, x.quotes = c, a, m, c.quotes
	clear(x.out)
	clear(x.counts)
	return x
}

// explorer prices the classes of one group. The table knows the main size, the
// copies and the steps; conflicts, other resources and joint conditions are
// looked at afterwards. Where they disagree, the table is only a bound from
// above and the explorer narrows the question until both agree.
type explorer struct {
	c      *cell
	g      *raster
	a      *ask
	m      *meter
	quotes []quote
	joints [][]*joint // per class of the group
	out    []bool     // positions that are left out
	worth  []worth    // buffer of worths
	less   []worth    // buffer of reduced
	counts []int
}

// singles offers every item alone where even a worthless bin gains: where the
// relaxation asks for more bins. No bin of a plan is empty, so an empty one is
// no answer.
func (x *explorer) singles() {
	for i, k := range x.g.classes {
		if x.a.floor[k] >= 0 {
			continue
		}
		for p, t := range x.g.lots {
			if x.a.copies[t] > 0 && fits(x.g.uses[p], x.g.limits[i]) {
				x.counts[p] = 1
				x.offer(i, x.worthOf(i))
				x.counts[p] = 0
			}
		}
	}
}

func (x *explorer) empty() bool {
	for _, n := range x.counts {
		if n > 0 {
			return false
		}
	}
	return true
}

// explore answers for the lots that are not left out. A pair of lots in
// conflict is resolved by leaving out the one, or the other's opponents:
// every content without conflict survives on one side.
func (x *explorer) explore() {
	w := x.worths()
	open, clash := x.settle(x.g.fill(w, x.m))
	for _, i := range open {
		if clash < 0 {
			clash = x.alone(w, i)
		}
	}
	switch {
	case clash < 0:
	case x.m.entries > 0:
		x.branch(clash)
	default: // the work limit: the table without conflicts has the last word
		t := x.g.fill(w, x.m)
		for _, i := range open {
			q := &x.quotes[x.g.classes[i]]
			q.limit = max(q.limit, x.ceiling(t, i))
		}
	}
}

// alone settles a class by itself where the table shared by all classes could
// not. It returns a position to branch on where it met a conflict.
func (x *explorer) alone(w []worth, i int) (clash int) {
	t, l, ceiling := x.tolls(w, i)
	q := &x.quotes[x.g.classes[i]]
	switch {
	case ceiling <= q.value:
		return -1
	case len(x.joints[i]) > 0:
		x.walk(w, t, l, i)
		return -1
	}
	done, clash := x.grow(t, w, i, l)
	if !done && clash < 0 {
		q.limit = max(q.limit, ceiling)
		q.loose = x.a.keep > 0
	}
	return clash
}

func (x *explorer) branch(clash int) {
	before := append([]bool(nil), x.out...)
	x.out[clash] = true
	x.explore()
	copy(x.out, before)
	for p, t := range x.g.lots {
		if x.c.clash[x.g.lots[clash]][t] {
			x.out[p] = true
		}
	}
	x.explore()
	copy(x.out, before)
}

// worths turns the ask into what each position is worth in the table. The answer
// holds until lots are left out or let in.
func (x *explorer) worths() []worth {
	if x.worth == nil {
		x.worth = make([]worth, len(x.g.lots))
	}
	w := x.worth
	clear(w)
	for p, t := range x.g.lots {
		if x.out[p] {
			continue
		}
		n := min(x.g.most[p], x.a.copies[t])
		w[p] = worth{each: x.a.value[t], copies: n}
		steps, gains := []int64(nil), x.a.value[t] > 0
		for _, s := range x.a.steps {
			if s.conds[0].lot != t {
				continue
			}
			gains = gains || s.extra > 0
			if steps == nil {
				steps = make([]int64, n+1)
				for i := range steps {
					steps[i] = int64(i) * x.a.value[t]
				}
			}
			for i := s.conds[0].least; i <= n; i++ {
				steps[i] += s.extra
			}
		}
		w[p].steps = steps
		// An item worth nothing can still be what a joint condition asks for.
		for _, j := range x.a.joints {
			for _, c := range j.conds {
				gains = gains || (c.lot == t && j.extra > 0)
			}
		}
		if !gains {
			w[p].copies = 0
		}
	}
	return w
}

// settle takes over what the table answers and returns the classes it cannot
// settle. clash is a position to branch on if one of them met a conflict.
func (x *explorer) settle(t *table) (open []int, clash int) {
	clash = -1
	for i, k := range x.g.classes {
		q := &x.quotes[k]
		bound := x.ceiling(t, i)
		if bound <= q.value {
			continue
		}
		t.read(i, x.counts)
		if p := x.clashing(); p >= 0 {
			open, clash = append(open, i), p
			continue
		}
		if x.empty() || x.overflows(i) >= 0 {
			open = append(open, i)
			continue
		}
		v := x.worthOf(i)
		x.offer(i, v)
		if v < bound {
			open = append(open, i)
		}
	}
	return open, clash
}

// ceiling is what no content of class i can exceed, by the table.
func (x *explorer) ceiling(t *table, i int) int64 {
	v := t.value(0, t.g.room[i])
	for _, j := range x.joints[i] {
		v += max(j.extra, 0)
	}
	return v
}

// clashing returns the position of the counts with the most conflicts among
// the lots still in, or -1 if the counts have no conflict.
func (x *explorer) clashing() int {
	best, most := -1, 0
	for p, n := range x.counts {
		if n == 0 {
			continue
		}
		met, all := false, 0
		for o, t := range x.g.lots {
			if !x.out[o] && x.c.clash[x.g.lots[p]][t] {
				all++
				met = met || x.counts[o] > 0
			}
		}
		if met && all > most {
			best, most = p, all
		}
	}
	return best
}

// overflows returns a resource that the counts exceed in class i, or -1.
func (x *explorer) overflows(i int) int {
	for _, r := range x.g.scarce[i] {
		if x.used(r) > x.g.limits[i][r] {
			return r
		}
	}
	if x.g.coarse() && x.used(0) > x.g.limits[i][0] {
		return 0
	}
	return -1
}

// used is what the counts take of a resource.
func (x *explorer) used(r int) int64 {
	var sum int64
	for p, n := range x.counts {
		sum += int64(n) * x.g.uses[p][r]
	}
	return sum
}

// worthOf adds up the true worth of the counts in class i.
func (x *explorer) worthOf(i int) int64 {
	var v int64
	for p, n := range x.counts {
		if n == 0 {
			continue
		}
		t := x.g.lots[p]
		v += int64(n) * x.a.value[t]
		for _, s := range x.a.steps {
			if s.conds[0].lot == t && n >= s.conds[0].least {
				v += s.extra
			}
		}
	}
	for _, j := range x.joints[i] {
		if x.holds(j) {
			v += j.extra
		}
	}
	return v
}

func (x *explorer) holds(j *joint) bool {
	for _, c := range j.conds {
		met := false
		for p, t := range x.g.lots {
			met = met || (t == c.lot && x.counts[p] >= c.least)
		}
		if !met {
			return false
		}
	}
	return true
}

// offer keeps the counts if they are the best seen for class i.
func (x *explorer) offer(i int, v int64) {
	q := &x.quotes[x.g.classes[i]]
	if v <= q.value {
		return
	}
	q.value, q.limit = v, max(q.limit, v)
	q.spare = q.spare[:0]
	for p, n := range x.counts {
		if n > 0 {
			q.spare = append(q.spare, entry{x.g.lots[p], n})
		}
	}
	q.items = q.spare
}
