package packing

import (
	"slices"
	"strings"
)

// Solve places the items. It fails only for malformed problems: items that no
// bin can take are named in Unplaced, and a figure that could not be proved
// within the work limits says so.
func Solve(p Problem) (Result, error) {
	if err := p.validate(); err != nil {
		return Result{}, err
	}
	m := reduce(&p)
	cells := m.split()
	done := map[string]*solver{}
	keys := make([]string, len(cells))
	for i, c := range cells {
		if len(cells) > 1 {
			keys[i] = c.key()
		}
		done[keys[i]] = nil
	}
	r := &collector{m: m, shared: map[string][]int{}}
	r.Unplaced = slices.Clone(m.unplaced)
	r.Certificate = &Certificate{}
	for k := range r.Unplaced {
		r.score[aimMissing] += int64(r.Unplaced[k])
		r.bound[aimMissing] += int64(r.Unplaced[k])
	}
	for i, c := range cells {
		s := done[keys[i]]
		if s == nil {
			s = newSolver(c, p.Limits.share(len(done)))
			s.solve()
			done[keys[i]] = s
		}
		r.add(c, s)
	}
	return r.result(), nil
}

// collector adds up the cells.
type collector struct {
	Result
	m      *model
	score  [aims]int64
	bound  [aims]int64
	why    [aims][]string
	shared map[string][]int // equal contents share one slice
}

func (r *collector) add(c *cell, s *solver) {
	for a := range aims {
		r.score[a] += s.best.score[a]
		r.bound[a] += s.bound[a]
		if w := s.why[a]; w != "" && !slices.Contains(r.why[a], w) {
			// The reason for a gap comes first.
			if s.bound[a] < s.best.score[a] {
				r.why[a] = slices.Insert(r.why[a], 0, w)
			} else {
				r.why[a] = append(r.why[a], w)
			}
		}
	}
	r.addPart(c, s)
	r.addBins(c, s)
}

// addPart names the kinds of the cell's certificate. The certificate's own
// check has the last word about its bound: where it cannot follow, the bound
// printed is the one it can. Where it cannot even tell that no bin holds more
// than Z, the weights are dropped: they prove nothing.
func (r *collector) addPart(c *cell, s *solver) {
	part := r.named(c, s.part)
	if s.checked == nil {
		b, err := newVerifier(*r.m.p).boundOf(part)
		if err != nil {
			s.part = &Part{Z: 1, LeftOut: s.part.LeftOut, Weights: make([]int64, len(s.part.Weights))}
			part, b = r.named(c, s.part), 0
		}
		s.checked = &b
	}
	part.Bound = min(part.Bound, *s.checked)
	r.Certificate.Parts = append(r.Certificate.Parts, part)
	r.Certificate.Bound += part.Bound
}

// named is a part of a cell's certificate with the kinds of the problem in place of
// the cell's lots.
func (r *collector) named(c *cell, of *Part) Part {
	part := *of
	part.Kinds, part.Weights = nil, nil
	for t, l := range c.lots {
		for _, k := range r.m.lots[l].kinds {
			part.Kinds = append(part.Kinds, k)
			part.Weights = append(part.Weights, of.Weights[t])
		}
	}
	return part
}

// addBins names the items of each lot one by one.
func (r *collector) addBins(c *cell, s *solver) {
	left := make([][]int, len(c.lots)) // per lot and kind
	for t, l := range c.lots {
		left[t] = make([]int, 0, len(r.m.lots[l].kinds))
		for _, k := range r.m.lots[l].kinds {
			left[t] = append(left[t], r.m.p.Kinds[k].Count)
		}
	}
	var held []entry // kinds and counts
	take := func(t, n int) {
		for i, k := range r.m.lots[c.lots[t]].kinds {
			if d := min(n, left[t][i]); d > 0 {
				held = append(held, entry{k, d})
				left[t][i] -= d
				n -= d
			}
		}
	}
	taken := make([]int, len(c.classes))
	alone := !slices.ContainsFunc(left, func(kinds []int) bool { return len(kinds) > 1 })
	r.Bins = slices.Grow(r.Bins, len(s.bins))
	for i, b := range s.bins {
		if class := &c.classes[b.class]; alone && i > 0 && class.bin >= 0 && slices.Equal(b.counts, s.bins[i-1].counts) {
			r.Bins = append(r.Bins, Bin{Kind: class.bin, Existing: -1, Holds: r.Bins[len(r.Bins)-1].Holds})
			continue // lots of one kind: as the bin before
		}
		held = held[:0]
		for t, n := range b.counts {
			take(t, n)
		}
		class := &c.classes[b.class]
		bin := Bin{Kind: class.bin, Existing: -1, Holds: r.holds(held)}
		if class.bin < 0 {
			bin.Existing = class.existing[taken[b.class]]
			taken[b.class]++
		}
		r.Bins = append(r.Bins, bin)
	}
	held = held[:0]
	for _, u := range s.best.uses {
		if u.class == leftOut {
			take(u.items[0].lot, u.times*u.items[0].count)
		}
	}
	for _, e := range held {
		r.Unplaced[e.lot] += e.count
	}
}

// holds returns the counts per kind; equal ones share a slice, so that memory
// grows with the number of different contents, not of bins.
func (r *collector) holds(held []entry) []int {
	key := (&pattern{items: held}).key()
	if same, ok := r.shared[key]; ok {
		return same
	}
	out := make([]int, len(r.m.p.Kinds))
	for _, e := range held {
		out[e.lot] += e.count
	}
	r.shared[key] = out
	return out
}

func (r *collector) result() Result {
	for a, f := range []*Bounded{&r.Missing, &r.Width, &r.Opened, &r.Cost} {
		f.Used, f.Bound = r.score[a], r.bound[a]
		f.Proved = f.Used == f.Bound
		f.Why = r.say(a)
	}
	slices.SortStableFunc(r.Bins, func(a, b Bin) int {
		return (a.Kind - b.Kind)
	})
	return r.Result
}

// say puts the reasons for one figure into a line.
func (r *collector) say(aim int) string {
	if len(r.why[aim]) == 0 {
		return "the least possible is reached, there was nothing to decide"
	}
	return strings.Join(r.why[aim], "; ")
}
