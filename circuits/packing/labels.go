package packing

import (
	"slices"
)

// Limits of growing contents.
const (
	// maxLabels bounds the contents kept at once. Where more would be needed,
	// the ceiling stays as the limit: still true, only less sharp.
	maxLabels = 1 << 17
	// quickLabels and fairLabels are how many are kept where a good content
	// will do.
	quickLabels = 60
	fairLabels  = 1500
	// neighbours is how many labels a new one is compared with.
	neighbours = 8
	// leastBuffer is the least room of a buffer of labels.
	leastBuffer = 64
	// maxSpare is how many buffers are kept for the next grower.
	maxSpare = 64
)

// label is a content of a bin by the lots looked at so far.
type label struct {
	left    int64 // of the main size
	value   int64
	ceiling int64 // no content that grows from it is worth more
	from    int32 // label it grew from
	count   int32 // times the piece was added to it
	rest    int32 // where in the grower's store the other resources are
}

// grower settles one class of a group, apart from joint conditions: it builds
// contents lot by lot and keeps only those that could still become worth more
// than the best known, by the table of worths reduced by tolls.
type grower struct {
	x      *explorer
	i      int
	t      *table
	worth  []worth
	l      toll
	others []int // scarce resources
	pieces []piece
	store  []int64
	stages [][]label
}

// piece is a number of items of one position that is added whole. A lot whose
// worth is proportional is added in pieces of 1, 2, 4, ... items, which
// together make every count.
type piece struct {
	p    int
	unit int  // items in the piece
	most int  // times it may be added
	last bool // no more pieces of this position follow
}

// cut makes the pieces, large ones first: they rule out most.
func (g *grower) cut() {
	for p := range g.x.g.lots {
		w := &g.worth[p]
		copies := min(w.copies, g.x.g.full[p])
		if copies == 0 {
			continue
		}
		if w.steps != nil || copies <= 4 {
			g.pieces = append(g.pieces, piece{p, 1, copies, true})
			continue
		}
		var units []int
		for n := 1; copies > 0; n *= 2 {
			n = min(n, copies)
			units = append(units, n)
			copies -= n
		}
		slices.Sort(units)
		for i := len(units) - 1; i >= 0; i-- {
			g.pieces = append(g.pieces, piece{p, units[i], 1, i == 0})
		}
	}
}

// grow returns done false where it took too much or was quick; clash is a
// position to branch on where the best content has a conflict.
func (x *explorer) grow(t *table, w []worth, i int, l toll) (done bool, clash int) {
	g := &grower{x: x, i: i, t: t, worth: w, l: l, others: x.g.scarce[i], store: x.g.store[:0]}
	start := label{left: x.g.limits[i][0], from: -1}
	for _, r := range g.others {
		g.store = append(g.store, x.g.limits[i][r])
	}
	g.stages = [][]label{{start}}
	defer g.release()
	g.cut()
	done = true
	for i := range g.pieces {
		next, clash := g.stage(i)
		if clash >= 0 {
			return false, clash
		}
		x.m.entries -= int64(len(next)) * 4
		if x.a.keep > 0 && len(next) > x.a.keep {
			next, done = foremost(next, x.a.keep), false
		}
		if len(next) > maxLabels {
			return false, -1
		}
		if len(next) == 0 {
			break // nothing that is left could still be worth more
		}
		g.stages = append(g.stages, next)
	}
	return done, -1
}

// stage adds piece i to all labels, most left over first. Labels with equally
// many added keep that order, so a merge sorts them all.
func (g *grower) stage(i int) (next []label, clash int) {
	now := g.stages[i]
	var runs [][]label // of about equal length, merged like a binary counter
	for n := 0; n <= g.pieces[i].most; n++ {
		run, any, clash := g.run(now, i, n)
		if clash >= 0 {
			return nil, clash
		}
		if !any {
			break
		}
		runs = append(runs, run)
		for m := n + 1; m%2 == 0; m /= 2 {
			runs = g.mergeLast(runs)
		}
	}
	for len(runs) > 1 {
		runs = g.mergeLast(runs)
	}
	return g.undominated(runs[0]), -1
}

func (g *grower) mergeLast(runs [][]label) [][]label {
	last := len(runs) - 1
	a, b := runs[last-1], runs[last]
	merged := mergeLabels(g.buffer(len(a)+len(b)), a, b)
	g.x.g.spare = append(g.x.g.spare, a, b)
	if len(g.others) == 0 {
		merged = g.undominated(merged)
	}
	runs[last-1] = merged
	return runs[:last]
}

// release hands the buffers on to the next grower.
func (g *grower) release() {
	g.x.g.store = g.store
	g.x.g.spare = append(g.x.g.spare, g.stages...)
	if extra := len(g.x.g.spare) - maxSpare; extra > 0 {
		g.x.g.spare = slices.Delete(g.x.g.spare, 0, extra)
	}
}

// buffer returns room for n labels, from an earlier stage if it can.
func (g *grower) buffer(n int) []label {
	spare := g.x.g.spare
	for i := len(spare) - 1; i >= 0 && i >= len(spare)-8; i-- {
		if b := spare[i]; cap(b) >= n {
			spare[i] = spare[len(spare)-1]
			g.x.g.spare = spare[:len(spare)-1]
			return b[:0]
		}
	}
	return make([]label, 0, max(n, leastBuffer))
}

// run adds piece i to each label n times; any is false where not one had room.
func (g *grower) run(now []label, i, n int) (run []label, any bool, clash int) {
	x := g.x
	q := &x.quotes[x.g.classes[g.i]]
	p := g.pieces[i].p
	items := n * g.pieces[i].unit
	uses, gain := x.g.uses[p], g.worth[p].of(items)
	size := int64(items) * uses[0]
	below := g.t.layers[p]
	if g.pieces[i].last {
		below = g.t.layers[p+1]
	}
	run = g.buffer(len(now))
	for from := range now {
		b := &now[from]
		left := b.left - size
		if left < 0 {
			break // the others have even less left
		}
		c := label{left: left, value: b.value + gain, from: int32(from), count: int32(n), rest: b.rest}
		c.ceiling = c.value + below[x.g.stateOf(left)]
		fit := true
		for o, r := range g.others {
			rest := g.store[int(b.rest)+o] - int64(items)*uses[r]
			if fit = fit && rest >= 0; !fit {
				break
			}
			if g.l[o] > 0 {
				c.ceiling += g.l.worthAll(o, rest)
			}
		}
		if !fit {
			continue
		}
		any = true
		if c.ceiling <= q.value {
			continue
		}
		if n > 0 && len(g.others) > 0 {
			c.rest = int32(len(g.store))
			for o, r := range g.others {
				g.store = append(g.store, g.store[int(b.rest)+o]-int64(items)*uses[r])
			}
		}
		run = append(run, c)
		if c.value > q.value {
			g.trace(i, c)
			if clash := x.clashing(); clash >= 0 {
				return nil, true, clash
			}
			if !x.empty() {
				x.offer(g.i, c.value)
			}
		}
	}
	return run, any, -1
}

// trace writes the counts of a label that was just made with piece i.
func (g *grower) trace(i int, c label) {
	clear(g.x.counts)
	for ; i >= 0; i-- {
		g.x.counts[g.pieces[i].p] += int(c.count) * g.pieces[i].unit
		c = g.stages[i][c.from]
	}
}

// before orders labels: more left first, then more worth.
func (a *label) before(b *label) bool {
	return a.left > b.left || (a.left == b.left && a.value >= b.value)
}

// mergeLabels appends two sorted lists to out.
func mergeLabels(out, a, b []label) []label {
	for len(a) > 0 && len(b) > 0 {
		if a[0].before(&b[0]) {
			out, a = append(out, a[0]), a[1:]
		} else {
			out, b = append(out, b[0]), b[1:]
		}
	}
	return append(append(out, a...), b...)
}

// undominated drops labels that another one replaces: at least as much left of
// everything, and worth at least as much. With more than one resource only
// near neighbours are compared; keeping too many is harmless.
func (g *grower) undominated(labels []label) []label {
	kept := labels[:0]
	for i := range labels {
		out := false
		for n := len(kept) - 1; n >= max(0, len(kept)-neighbours) && !out; n-- {
			out = g.replaces(&kept[n], &labels[i])
		}
		if !out {
			kept = append(kept, labels[i])
		}
	}
	return kept
}

func (g *grower) replaces(a, b *label) bool {
	if a.left < b.left || a.value < b.value {
		return false
	}
	for o := range g.others {
		if g.store[int(a.rest)+o] < g.store[int(b.rest)+o] {
			return false
		}
	}
	return true
}

// foremost keeps the n labels with the highest ceilings, and a few more where
// ceilings are equal, in their order.
func foremost(labels []label, n int) []label {
	ceilings := make([]int64, len(labels))
	for i := range labels {
		ceilings[i] = labels[i].ceiling
	}
	slices.Sort(ceilings)
	least := ceilings[len(ceilings)-n]
	kept := labels[:0]
	for _, c := range labels {
		if c.ceiling >= least && len(kept) < 2*n {
			kept = append(kept, c)
		}
	}
	return kept
}
