package packing

import "slices"

// Effort of repacking.
const (
	nodeRepacks  = 80
	repackLeast  = 6  // bins repacked at once
	repackMost   = 20 // bins repacked at once, at most
	repackNodes  = 20
	insidePivots = 200       // per node of a problem within the problem
	insideTable  = 1_000_000 // the same
)

// repack takes some bins of the best plan and solves their content anew as a
// problem of its own, again and again.
func (s *solver) repack(t *task, bound int64, rounds int) {
	for range rounds {
		if s.m.spent() || bound >= s.goal(t) {
			return
		}
		chosen, rest := s.choose()
		if len(chosen) < 2 {
			return
		}
		sub := &task{aim: t.aim, need: make([]int, len(t.need)), room: slices.Clone(t.room), exact: -1}
		for _, u := range rest {
			if u.class != leftOut && sub.room[u.class] >= 0 {
				sub.room[u.class] -= u.times
			}
		}
		for _, u := range chosen {
			for _, e := range u.items {
				sub.need[e.lot] += e.count * u.times
			}
		}
		sub.hold = s.c.scoreOf(chosen)
		if p := s.inside(sub, levelRepack, repackNodes); p != nil {
			s.offer(t, append(slices.Clone(rest), p.uses...))
		}
	}
}

// inside solves a part of the task as a problem of its own, with little work.
// It returns a plan only if it is better than what the part holds at.
func (s *solver) inside(sub *task, level, nodes int) *plan {
	part := s.m.part(nodes, insidePivots*nodes, insideTable*int64(nodes))
	left := part
	in := &solver{c: s.c, m: &left, dice: s.dice, known: map[string]bool{},
		best: &plan{score: sub.hold}, level: level}
	for _, p := range s.pool {
		if p.within(sub.need) {
			in.keep(p.class, p.items)
		}
	}
	in.search(sub)
	s.m.settle(part, left)
	if in.best.uses == nil {
		return nil
	}
	for _, p := range in.best.uses {
		s.keep(p.class, p.items)
	}
	return in.best
}

// choose splits the best plan into a few bins drawn at random, and the rest.
func (s *solver) choose() (chosen, rest []use) {
	bins := 0
	for _, u := range s.best.uses {
		bins += u.times
	}
	want := min(repackLeast+s.dice.below(repackMost-repackLeast+1), bins)
	picked := make([]int, len(s.best.uses))
	for n := 0; n < want; {
		at := s.dice.below(bins)
		for i, u := range s.best.uses {
			if at -= u.times; at < 0 {
				if picked[i] < u.times {
					picked[i]++
					n++
				}
				break
			}
		}
	}
	for i, u := range s.best.uses {
		if picked[i] > 0 {
			chosen = append(chosen, use{u.pattern, picked[i]})
		}
		if n := u.times - picked[i]; n > 0 {
			rest = append(rest, use{u.pattern, n})
		}
	}
	return chosen, rest
}

// within reports whether the pattern places nothing beyond the need.
func (p *pattern) within(need []int) bool {
	for _, e := range p.items {
		if e.count > need[e.lot] {
			return false
		}
	}
	return true
}
