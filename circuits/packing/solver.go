package packing

import (
	"cmp"
	"fmt"
	"slices"
)

// solver finds the best plan of one cell, aim after aim.
type solver struct {
	c     *cell
	m     *meter
	dice  *dice
	pool  []*pattern // every pattern met, shared by all linear programs
	known map[string]bool
	best  *plan
	level int // 0, or levelRemainder or levelRepack inside a larger search

	bound   [aims]int64
	why     [aims]string
	weights []int64 // per lot, the weights behind the best cheap bound of the width
	prices  []int64 // per lot, row prices of the width's linear relaxation
	unit    uint    // prices are scaled by 2^unit
	nodes   int     // nodes of the present aim

	bins []loaded // the best plan, evened out
	part *Part

	checked *int64 // bound that the certificate's own check confirms
}

// Levels of searches inside searches: the deeper, the less is tried.
const (
	levelRemainder = 1
	levelRepack    = 2
)

func newSolver(c *cell, m *meter) *solver {
	c.prepare()
	s := &solver{c: c, m: m, dice: newDice(), known: map[string]bool{}}
	for t, may := range c.canMiss {
		if may {
			s.keep(leftOut, []entry{{t, 1}})
		}
	}
	return s
}

// keep puts a pattern into the pool; false if it was there.
func (s *solver) keep(class int, items []entry) (*pattern, bool) {
	p := &pattern{class, slices.Clone(items)}
	slices.SortFunc(p.items, func(a, b entry) int { return cmp.Compare(a.lot, b.lot) })
	key := p.key()
	if s.known[key] {
		return p, false
	}
	s.known[key] = true
	s.pool = append(s.pool, p)
	return p, true
}

// whole is the task of placing everything in the cell.
func (s *solver) whole(aim int) *task {
	t := &task{aim: aim, need: s.c.need, room: s.c.allRoom(), exact: -1}
	if s.best != nil {
		t.hold = s.best.score
		if aim > aimOpened && s.bound[aimOpened] == s.best.score[aimOpened] {
			t.exact = s.best.score[aimOpened]
		}
	}
	return t
}

// allRoom is the number of bins per class, negative for any number.
func (c *cell) allRoom() []int {
	room := make([]int, len(c.classes))
	for k := range room {
		room[k] = -1
		if n := c.classes[k].max; n > 0 {
			room[k] = n
		}
	}
	return room
}

// goal is the value of the aim to beat.
func (s *solver) goal(t *task) int64 { return s.best.score[t.aim] }

// offer takes a plan over if it is the best so far.
func (s *solver) offer(t *task, uses []use) bool {
	p := s.c.tidy(uses, t.need, t.room)
	if s.best != nil && !better(p.score, s.best.score) {
		return false
	}
	if err := s.c.verify(p, t.need, t.room); err != nil {
		panic("packing: " + err.Error()) // our own fault, never the input's
	}
	s.best = p
	for _, u := range p.uses {
		s.keep(u.class, u.items)
	}
	return true
}

// lift raises a bound to the next value that some plan could have.
func (s *solver) lift(t *task, b int64) int64 {
	if b < 0 {
		b = 0
	}
	var step, least int64 = 0, -1
	for k := range s.c.classes {
		if c := &s.c.classes[k]; c.opened > 0 {
			v := s.c.priceOf(k, t.aim)
			if t.exact >= 0 {
				if least < 0 {
					least = v
				}
				v = max(v-least, least-v)
			}
			step = gcd(step, v)
		}
	}
	if t.aim == aimMissing {
		return b
	}
	base := int64(0)
	if t.exact >= 0 {
		base = least * t.exact
	}
	if step == 0 {
		return max(b, base)
	}
	// least integer >= b that is base plus a multiple of step
	r := (b - base) % step
	if r < 0 {
		r += step
	}
	if r > 0 {
		b += step - r
	}
	return b
}

// solve runs the aims in order.
func (s *solver) solve() {
	s.firstPlans()
	for aim := aimMissing; aim < aims; aim++ {
		before := s.best.score
		s.settle(aim)
		if aim == aimWidth {
			s.certify()
		}
		if slices.Compare(s.best.score[:aim], before[:aim]) < 0 {
			// A later aim's search came across a plan better for an earlier
			// aim that had been left unproved: start over from there.
			// The bounds after that aim were found under the old value.
			for a := aims - 1; slices.Compare(s.best.score[:a], before[:a]) < 0; a-- {
				s.bound[a], s.why[a] = 0, ""
			}
			aim = -1
		}
	}
	s.bins = s.c.evenOut(s.best)
	s.c.groups, s.pool, s.known = nil, nil, nil
}

// settle finds the least value of one aim and a bound for it.
func (s *solver) settle(aim int) {
	if s.bound[aim] >= s.best.score[aim] {
		s.bound[aim] = s.best.score[aim]
		return
	}
	if aim == aimOpened && s.c.even > 0 {
		s.bound[aim] = s.bound[aimWidth] / s.c.even
		s.why[aim] = "every bin takes the same width, so the bound of the width decides"
		return
	}
	if aim == aimCost {
		if b := s.best.score[aimOpened] * s.c.cheapest(); b > s.bound[aim] {
			s.bound[aim], s.why[aim] = b, "as many bins of the cheapest kind"
			if b == s.best.score[aim] {
				return
			}
		}
	}
	s.nodes = 0
	t := s.whole(aim)
	// A hard aim leaves something for the later ones.
	all := s.m
	share := *all
	if aim < aimCost {
		share = all.part(all.nodes/2, all.pivots/2, all.entries/2)
	}
	left := share
	s.m = &left
	bound := s.search(t)
	s.m = all
	s.m.settle(share, left)
	if bound > s.bound[aim] || s.why[aim] == "" {
		s.why[aim] = s.say(aim, bound, left.spent())
	}
	s.bound[aim] = min(max(s.bound[aim], bound), s.best.score[aim])
}

// cheapest is the cost of the cheapest bin that can be opened.
func (c *cell) cheapest() int64 {
	least := int64(-1)
	for i := range c.classes {
		if k := &c.classes[i]; k.opened > 0 && (least < 0 || k.cost < least) {
			least = k.cost
		}
	}
	return max(least, 0)
}

// say tells in a line how a bound was found.
func (s *solver) say(aim int, bound int64, spent bool) string {
	switch {
	case bound < s.best.score[aim] && spent:
		return fmt.Sprintf("the work limit ended the search after %d nodes", s.nodes)
	case bound < s.best.score[aim]:
		return fmt.Sprintf("a search of %d nodes left one that rounding could not settle", s.nodes)
	case s.nodes <= 1:
		return "the linear relaxation of all contents of a bin, rounded up"
	}
	return fmt.Sprintf("search of %d nodes, each bounded by the linear relaxation", s.nodes)
}
