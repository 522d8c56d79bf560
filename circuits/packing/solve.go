package packing

import (
	"fmt"
	"slices"
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
		keys[i] = c.key()
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
	used   []int            // per class of existing bins, how many are taken
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
	part := *s.part
	part.Kinds, part.Weights = nil, nil
	for t, l := range c.lots {
		for _, k := range r.m.lots[l].kinds {
			part.Kinds = append(part.Kinds, k)
			part.Weights = append(part.Weights, s.part.Weights[t])
		}
	}
	r.Certificate.Parts = append(r.Certificate.Parts, part)
	r.Certificate.Bound += part.Bound
	r.addBins(c, s)
}

// addBins names the items of each lot one by one.
func (r *collector) addBins(c *cell, s *solver) {
	left := make([][]int, len(c.lots)) // per lot and kind
	for t, l := range c.lots {
		for _, k := range r.m.lots[l].kinds {
			left[t] = append(left[t], r.m.p.Kinds[k].Count)
		}
	}
	take := func(holds []int, t, n int) {
		for i, k := range r.m.lots[c.lots[t]].kinds {
			d := min(n, left[t][i])
			holds[k] += d
			left[t][i] -= d
			n -= d
		}
	}
	taken := make([]int, len(c.classes))
	for _, b := range s.bins {
		holds := make([]int, len(r.m.p.Kinds))
		for t, n := range b.counts {
			if n > 0 {
				take(holds, t, n)
			}
		}
		key := fmt.Sprint(holds)
		if same, ok := r.shared[key]; ok {
			holds = same
		} else {
			r.shared[key] = holds
		}
		class := &c.classes[b.class]
		bin := Bin{Kind: class.bin, Existing: -1, Holds: holds}
		if class.bin < 0 {
			bin.Existing = class.existing[taken[b.class]]
			taken[b.class]++
		}
		r.Bins = append(r.Bins, bin)
	}
	for _, u := range s.best.uses {
		if u.class == leftOut {
			take(r.Unplaced, u.items[0].lot, u.times*u.items[0].count)
		}
	}
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
		return "nothing to decide: " + map[bool]string{true: "the least possible is reached", false: "open"}[r.score[aim] == r.bound[aim]]
	}
	line := r.why[aim][0]
	for _, w := range r.why[aim][1:] {
		line += "; " + w
	}
	return line
}
