package packing

import "slices"

// Effort of repacking.
const (
	nodeRepacks  = 80
	repackLeast  = 6  // bins repacked at once
	repackMost   = 20 // bins repacked at once, at most
	repackNodes  = 20
	repackPivots = 4_000
	repackTable  = 20_000_000
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
		part := s.m.part(repackNodes, repackPivots, repackTable)
		left := part
		in := &solver{c: s.c, m: &left, dice: s.dice, known: map[string]bool{},
			best: &plan{chosen, sub.hold}, small: true}
		for _, p := range s.pool {
			if p.within(sub.need) {
				in.keep(p.class, p.items)
			}
		}
		in.search(sub)
		s.m.settle(part, left)
		if better(in.best.score, sub.hold) {
			s.offer(t, append(slices.Clone(rest), in.best.uses...))
		}
	}
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
