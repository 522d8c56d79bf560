//go:build unix

package packing

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// The models that the general solvers are given. Bins of different families
// never share an item here, so every family is a programme of its own. Of the
// two strong models, all patterns that one bin can hold and flow through the
// fill levels of a bin, a family gets the one with fewer columns.

// sideRoom is one family of a problem whose kinds have one form each.
type sideRoom struct {
	p     *Problem
	kinds []int // falling by size
	bins  []BinKind
	foes  []map[int]bool // per kind of the problem
}

func sideRooms(p *Problem) []sideRoom {
	var out []sideRoom
	for f := 0; ; f++ {
		r := sideRoom{p: p, foes: foesOf(*p)}
		for k, kind := range p.Kinds {
			if kind.Forms[0].Family == f {
				r.kinds = append(r.kinds, k)
			}
		}
		if len(r.kinds) == 0 {
			return out
		}
		slices.SortStableFunc(r.kinds, func(a, b int) int { return int(r.uses(b)[0] - r.uses(a)[0]) })
		for _, b := range p.Bins {
			if b.Family == f {
				r.bins = append(r.bins, b)
			}
		}
		out = append(out, r)
	}
}

func (r sideRoom) uses(k int) []int64 { return r.p.Kinds[k].Forms[0].Uses }

// needed drops the bins that another replaces at no more weight.
func (r sideRoom) needed(weigh func(BinKind) int64) []BinKind {
	var out []BinKind
	for i, b := range r.bins {
		if !slices.ContainsFunc(out, func(o BinKind) bool { return r.replaces(o, b) && weigh(o) <= weigh(b) }) &&
			!slices.ContainsFunc(r.bins[i+1:], func(o BinKind) bool {
				return r.replaces(o, b) && weigh(o) <= weigh(b) && (weigh(o) < weigh(b) || !r.replaces(b, o))
			}) {
			out = append(out, b)
		}
	}
	return out
}

// replaces tells whether the bin o takes whatever b takes.
func (r sideRoom) replaces(o, b BinKind) bool {
	for _, k := range r.kinds {
		if b.Allow[k] && !o.Allow[k] || o.AtMost[k] > 0 && (b.AtMost[k] == 0 || b.AtMost[k] > o.AtMost[k]) {
			return false
		}
	}
	return o.Limits[0] >= b.Limits[0] && o.Limits[1] >= b.Limits[1]
}

// program is a pure integer programme: make the weights small.
type program struct {
	name    string
	weights []int64
	rows    map[string][]string // left-hand side, term by term
	right   map[string]string   // relation and right-hand side
	order   []string
}

func newProgram(name string) *program {
	return &program{name: name, rows: map[string][]string{}, right: map[string]string{}}
}

func (m *program) row(name, right string) {
	m.order = append(m.order, name)
	m.right[name] = right
}

func (m *program) column(weight int64) int {
	m.weights = append(m.weights, weight)
	return len(m.weights) - 1
}

func (m *program) add(row string, n, column int) {
	m.rows[row] = append(m.rows[row], fmt.Sprintf("%+d x%d", n, column))
}

// write gives the programme in the LP format.
func (m *program) write() string {
	var b strings.Builder
	line := func(terms []string) {
		for part := range slices.Chunk(terms, 16) {
			b.WriteString(" " + strings.Join(part, " ") + "\n")
		}
	}
	b.WriteString("Minimize\n obj:\n")
	var terms, names []string
	for c, w := range m.weights {
		names = append(names, fmt.Sprint("x", c))
		if w != 0 {
			terms = append(terms, fmt.Sprintf("%+d x%d", w, c))
		}
	}
	line(terms)
	b.WriteString("Subject To\n")
	for _, r := range m.order {
		fmt.Fprintf(&b, " %s:\n", r)
		line(m.rows[r])
		fmt.Fprintf(&b, " %s\n", m.right[r])
	}
	b.WriteString("Generals\n")
	line(names)
	b.WriteString("End\n")
	return b.String()
}

// program states the family: every item in a bin, at most so many bins, and
// the weights of the bins made small.
func (r sideRoom) program(weigh func(BinKind) int64, most int64) *program {
	flow := r.start("flow", most)
	bins := r.needed(weigh)
	for g, group := range r.groups(bins) {
		for s, set := range r.sets(group[0]) {
			r.flow(flow, fmt.Sprintf("g%ds%d", g, s), group, set, weigh)
		}
	}
	list := r.start("patterns", most)
	if !r.list(list, bins, weigh, len(flow.weights)) {
		return flow
	}
	return list
}

func (r sideRoom) start(name string, most int64) *program {
	m := newProgram(name)
	for _, k := range r.kinds {
		m.row(fmt.Sprint("d", k), fmt.Sprint(">= ", r.p.Kinds[k].Count))
	}
	if most < math.MaxInt64 {
		m.row("bins", fmt.Sprint("<= ", most))
	}
	return m
}

// open adds a column of opened bins.
func (m *program) open(weight int64) int {
	c := m.column(weight)
	if m.right["bins"] != "" {
		m.add("bins", 1, c)
	}
	return c
}

// groups puts together the bins that take the same kinds.
func (r sideRoom) groups(bins []BinKind) [][]BinKind {
	var out [][]BinKind
	for _, b := range bins {
		i := slices.IndexFunc(out, func(g []BinKind) bool {
			return !slices.ContainsFunc(r.kinds, func(k int) bool { return g[0].Allow[k] != b.Allow[k] })
		})
		if i < 0 {
			out = append(out, nil)
			i = len(out) - 1
		}
		out[i] = append(out[i], b)
	}
	return out
}

// sets lists the largest sets of kinds that may meet in the bin.
func (r sideRoom) sets(b BinKind) [][]int {
	var out [][]int
	var grow func(in, may, done []int)
	grow = func(in, may, done []int) {
		if len(may)+len(done) == 0 {
			out = append(out, slices.Clone(in))
		}
		for len(may) > 0 {
			// A set that one of those done would still fit is not the largest.
			if slices.ContainsFunc(done, func(d int) bool {
				return !slices.ContainsFunc(may, func(k int) bool { return r.foes[d][k] })
			}) {
				return
			}
			k := may[0]
			friend := func(list []int) (kept []int) {
				for _, o := range list {
					if o != k && !r.foes[k][o] {
						kept = append(kept, o)
					}
				}
				return kept
			}
			grow(append(slices.Clone(in), k), friend(may), friend(done))
			may, done = may[1:], append(slices.Clone(done), k)
		}
	}
	var may []int
	for _, k := range r.kinds {
		if b.Allow[k] {
			may = append(may, k)
		}
	}
	grow(nil, may, nil)
	for _, s := range out {
		slices.SortFunc(s, func(a, b int) int { return slices.Index(r.kinds, a) - slices.Index(r.kinds, b) })
	}
	return out
}

// level is a node: how full a bin is, and, where a limit on the number of
// items can bind, how many items it holds.
type level [2]int64

// cheapest is the least weight of a bin that takes a fill, or -1.
func cheapest(bins []BinKind, at level, weigh func(BinKind) int64) int64 {
	best := int64(-1)
	for _, b := range bins {
		if b.Limits[0] >= at[0] && b.Limits[1] >= at[1] && (best < 0 || weigh(b) < best) {
			best = weigh(b)
		}
	}
	return best
}

// flow adds one graph: from the empty bin through arcs that add an item, larger
// items first, to the cheapest bin that takes the fill. An arc of a kind leaves
// only nodes that larger items, or fewer of the kind than there are, can reach.
func (r sideRoom) flow(m *program, name string, bins []BinKind, set []int, weigh func(BinKind) int64) {
	if len(set) == 0 {
		return
	}
	counted := int64(0)
	for _, b := range bins {
		if b.Limits[1] < b.Limits[0]/r.uses(set[len(set)-1])[0] {
			counted = 1
		}
	}
	type arc struct {
		from, to level
		kind     int
	}
	var arcs []arc
	nodes := []level{{}}
	known := map[level]bool{{}: true}
	for _, k := range set {
		copies := map[level]int{} // of this kind, the fewest that reach a node
		queue := slices.Clone(nodes)
		slices.SortFunc(queue, func(a, b level) int { return slices.Compare(a[:], b[:]) })
		for len(queue) > 0 {
			at := queue[0]
			queue = queue[1:]
			to := level{at[0] + r.uses(k)[0], at[1] + counted}
			if copies[at] == r.p.Kinds[k].Count || cheapest(bins, to, weigh) < 0 {
				continue
			}
			arcs = append(arcs, arc{at, to, k})
			if known[to] {
				continue
			}
			known[to] = true
			nodes = append(nodes, to)
			copies[to] = copies[at] + 1
			i, _ := slices.BinarySearchFunc(queue, to, func(a, b level) int { return slices.Compare(a[:], b[:]) })
			queue = slices.Insert(queue, i, to)
		}
	}
	row := func(at level) string { return fmt.Sprintf("%sn%d_%d", name, at[0], at[1]) }
	for _, n := range nodes[1:] {
		m.row(row(n), "= 0")
	}
	grows := map[level]bool{} // one more item costs nothing
	for _, a := range arcs {
		c := m.column(0)
		m.add(fmt.Sprint("d", a.kind), 1, c)
		m.add(row(a.to), 1, c)
		if a.from != (level{}) {
			m.add(row(a.from), -1, c)
		}
		if cheapest(bins, a.from, weigh) == cheapest(bins, a.to, weigh) {
			grows[a.from] = true
		}
	}
	for _, n := range nodes[1:] {
		if !grows[n] {
			m.add(row(n), -1, m.open(cheapest(bins, n, weigh)))
		}
	}
}

// list adds every pattern that takes no further item at the same weight, unless
// there are more than so many.
func (r sideRoom) list(m *program, bins []BinKind, weigh func(BinKind) int64, most int) bool {
	holds := make([]int, len(r.p.Kinds))
	cost := func() int64 {
		return cheapest(slices.DeleteFunc(slices.Clone(bins), func(b BinKind) bool {
			return slices.ContainsFunc(r.kinds, func(k int) bool {
				return holds[k] > 0 && (!b.Allow[k] || b.AtMost[k] > 0 && holds[k] > b.AtMost[k])
			})
		}), r.fill(holds), weigh)
	}
	more := func(k int) bool {
		for o := range r.foes[k] {
			if holds[o] > 0 {
				return false
			}
		}
		return holds[k] < r.p.Kinds[k].Count
	}
	steps := 0
	var grow func(from int) bool
	grow = func(from int) bool {
		if steps++; steps > 20*most+1000 || len(m.weights) > most {
			return false
		}
		now, full := cost(), true
		for i, k := range r.kinds {
			if !more(k) {
				continue
			}
			holds[k]++
			next := cost()
			if full = full && next != now; next >= 0 && i >= from && !grow(i) {
				return false
			}
			holds[k]--
		}
		if full && slices.Max(holds) > 0 {
			c := m.open(now)
			for _, k := range r.kinds {
				if holds[k] > 0 {
					m.add(fmt.Sprint("d", k), holds[k], c)
				}
			}
		}
		return true
	}
	return grow(0) && len(m.weights) <= most
}

func (r sideRoom) fill(holds []int) level {
	var at level
	for _, k := range r.kinds {
		at[0] += int64(holds[k]) * r.uses(k)[0]
		at[1] += int64(holds[k])
	}
	return at
}

func opened(p Problem, r Result, family int) float64 {
	n := 0
	for _, b := range r.Bins {
		if p.Bins[b.Kind].Family == family {
			n++
		}
	}
	return float64(n)
}

// hundredThousand draws 100,000 items in 30 kinds of 0.2 to 14 A on a grid of
// so many steps per ampere, for breakers loaded to 80 %.
func hundredThousand(seed uint64, steps int64, breakers []BinKind) Problem {
	r := rand.New(rand.NewPCG(seed, 100_000))
	p := Problem{Resources: 1}
	left := 100_000
	for k := range 30 {
		n := left
		if k < 29 {
			n = left / (30 - k) / 2 * (1 + r.IntN(3))
		}
		left -= n
		low := []int64{2, 10, 20, 50}[r.IntN(4)] // tenths of an ampere
		size := (low*steps + r.Int64N(map[int64]int64{2: 10, 10: 20, 20: 40, 50: 90}[low]*steps)) / 10
		p.Kinds = append(p.Kinds, Kind{n, []Form{{0, []int64{size}}}})
	}
	for _, b := range breakers {
		b.Limits = []int64{b.Limits[0] * steps * 8 / 10}
		p.Bins = append(p.Bins, b)
	}
	return p
}
