package day

import (
	"slices"
	"sort"
)

// Limits of the search, in figures added up and compared: time would make the answer
// depend on the machine. Up to exactRooms the tree is meant to be searched to its end; the
// limit is there for the sites on which even that is too much, and then the answer says
// that it is not proved.
const (
	exactRooms = 12
	mostWork   = 600_000_000
	lessWork   = 120_000_000 // for more rooms
)

// found is the result of a search.
type found struct {
	pick   []int
	value  int64
	bound  int64
	proved bool
	nodes  int
}

// search finds the choice of least value. now is today's choice, nil where that may not be
// chosen; ok is false where no choice was found: there is none where proved, else none was
// met.
func (p *problem) search(now []int) (f found, ok bool) {
	pick := p.heuristic(now)
	t := p.reduced().newTree()
	if pick != nil {
		t.best, t.has = p.value(pick), true
	}
	t.descend(0)
	if t.pick != nil {
		pick = t.pick
	}
	f = found{proved: !t.cut, nodes: t.nodes}
	if pick == nil {
		return f, false
	}
	f.pick, f.value = p.settle(now, pick), p.value(pick)
	f.bound = f.value
	if t.cut {
		f.bound = min(f.value, t.open)
		f.proved = f.bound == f.value
	}
	return f, true
}

// heuristic returns a good choice, nil where none is met.
func (p *problem) heuristic(now []int) []int {
	var best []int
	var value int64
	take := func(pick []int) {
		if v := p.value(pick); best == nil || v < value {
			best, value = pick, v
		}
	}
	if now != nil {
		take(now)
		take(p.improve(now))
	}
	order := p.bySize()
	for k := range order {
		turned := append(slices.Clone(order[k:]), order[:k]...)
		if pick, ok := p.greedy(turned); ok {
			take(p.improve(pick))
		}
	}
	return best
}

// tree is a depth-first search with bounds. At each node the options that can no longer be
// part of a better choice are struck out. A room with one option left is placed next, else
// the largest.
type tree struct {
	*problem
	index   [][]int // the options' places in the whole problem
	before  []int   // the like room before this one, whose option is no later; -1 where none
	weights []weighing
	frames  []frame // by depth

	size  []int // the rooms, the largest first
	at    []int // option by room; -1 where it is not placed
	best  int64
	has   bool // best is the value of a choice
	pick  []int
	open  int64 // least bound of what was left unsearched
	nodes int
	work  int
	limit int
	cut   bool
}

// frame is a node.
type frame struct {
	left   [][]int // options by room that are not struck out
	load   []int64
	energy [seasons]int64
	totals []int64 // by weighing, of what is placed
	least  []least // by room not placed
	sum    least   // of them
}

func (r reducedProblem) newTree() *tree {
	p := r.problem
	t := &tree{problem: p, index: r.index, limit: lessWork, before: p.twins(), weights: p.weighings()}
	if len(p.rooms) <= exactRooms {
		t.limit = mostWork
	}
	n, columns := len(p.rooms), len(p.base)
	t.frames, t.size = make([]frame, n+1), p.bySize()
	t.at = make([]int, n)
	for d := range t.frames {
		f := &t.frames[d]
		f.left, f.least, f.sum = make([][]int, n), make([]least, n), t.newLeast()
		for i := range n {
			f.left[i], f.least[i] = make([]int, 0, len(p.rooms[i].options)), t.newLeast()
		}
		f.load, f.totals = make([]int64, columns), make([]int64, len(t.weights))
	}
	root := &t.frames[0]
	for i, r := range p.rooms {
		t.at[i] = -1
		for a := range r.options {
			root.left[i] = append(root.left[i], a)
		}
	}
	copy(root.load, p.base)
	root.energy = p.energy
	for g, w := range t.weights {
		root.totals[g] = w.base
	}
	return t
}

// descend searches below a node. Its frame holds what is placed and the options of the
// node above.
func (t *tree) descend(d int) {
	bound, ok := t.strike(&t.frames[d])
	if !ok {
		return
	}
	f := &t.frames[d]
	if d == len(t.at) {
		t.best, t.has = bound, true
		t.pick = make([]int, len(t.at))
		for i, a := range t.at {
			t.pick[i] = t.index[i][a]
		}
		return
	}
	room := t.next(f)
	type child struct {
		option int
		bound  int64
	}
	var order []child
	for _, a := range f.left[room] {
		order = append(order, child{a, max(bound, t.withOption(f, room, a))})
	}
	sort.SliceStable(order, func(x, y int) bool { return order[x].bound < order[y].bound })
	for _, c := range order {
		a, low := c.option, c.bound
		if t.has && low >= t.best {
			continue
		}
		if t.work >= t.limit {
			if !t.cut || low < t.open {
				t.open = low
			}
			t.cut = true
			return // the others are no lower
		}
		t.nodes++
		t.place(d, room, a)
		t.descend(d + 1)
		t.at[room] = -1
	}
}

// place fills the frame below with a room placed.
func (t *tree) place(d, room, a int) {
	f, g := &t.frames[d], &t.frames[d+1]
	t.at[room] = a
	o := &t.rooms[room].options[a]
	for i := range f.left {
		g.left[i] = append(g.left[i][:0], f.left[i]...)
	}
	g.left[room] = append(g.left[room][:0], a)
	for c, x := range o.power {
		g.load[c] = f.load[c] + x
	}
	for s := range seasons {
		g.energy[s] = f.energy[s] + o.energy[s]
	}
	for w := range t.weights {
		g.totals[w] = f.totals[w] + t.weights[w].of[room][a]
	}
}

// next returns the room to place: one with a single option left, else the largest.
func (t *tree) next(f *frame) int {
	room := -1
	for _, i := range t.size {
		if t.at[i] < 0 && (room < 0 || len(f.left[i]) == 1 && len(f.left[room]) > 1) {
			room = i
		}
	}
	return room
}
