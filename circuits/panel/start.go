package panel

import (
	"cmp"
	"slices"
)

// chosen returns the breakers that are to be placed: all where they fit, else
// as many as possible. With them comes one way to place them, found without a
// thought for balance.
//
// Where a breaker is placed, one that needs less can take its place. So the
// largest number is reached by taking them in the order of need: one pole on any
// leg, one pole on a low leg, two poles, three; among equals by rank. Two poles
// that must both be on low legs stand outside that order, since three poles on
// end may have no two that suit them; every number of them is tried.
//
// It is sure where the search for spaces never ended early.
func (b *board) chosen(wants []Want, ranked []int) (kept []int, at []position, classes []class, sure bool) {
	sure = true
	var byNeed, pairs []int
	for _, i := range ranked {
		if w := wants[i]; w.Poles == 2 && b.legsFor(w) != b.anyLeg() {
			pairs = append(pairs, i)
		} else {
			byNeed = append(byNeed, i)
		}
	}
	slices.SortStableFunc(byNeed, func(i, j int) int {
		return cmp.Or(cmp.Compare(wants[i].Poles, wants[j].Poles), cmp.Compare(b.legsFor(wants[j]), b.legsFor(wants[i])))
	})
	for n := len(pairs); n >= 0; n-- {
		for m := len(byNeed); m >= 0 && n+m > len(kept); m-- {
			list := slices.Concat(pairs[:n], byNeed[:m])
			c := classesByNeed(b, wants, list)
			tries := int64(fitTries)
			p, v := b.place(b.rows(), c, largestFirst(c), &tries)
			if v == fits {
				kept, at, classes = list, p, c
			}
			sure = sure && v != cannotTell
		}
	}
	return slices.DeleteFunc(slices.Clone(ranked), func(i int) bool { return !slices.Contains(kept, i) }), at, classes, sure
}

func classesByNeed(b *board, wants []Want, list []int) []class {
	var classes []class
	for _, i := range list {
		poles, top := wants[i].Poles, b.legsFor(wants[i])
		at := slices.IndexFunc(classes, func(c class) bool { return c.poles == poles && c.top == top })
		if at < 0 {
			at = len(classes)
			classes = append(classes, class{poles: poles, top: top})
		}
		classes[at].count++
	}
	return classes
}

// firstSpread gives the breakers of the kinds to positions, the largest first,
// each where the worst leg of it ends lowest; then exchanges pairs while that
// helps. It is the answer that any other must beat.
func (b *board) firstSpread(kinds []kind, at []position, classes []class) spread {
	s := make(spread, len(kinds))
	open := make([]map[int]int, len(classes)) // by class, positions left by top leg
	for _, p := range at {
		if open[p.class] == nil {
			open[p.class] = map[int]int{}
		}
		open[p.class][LegOf(b.sys, p.first)]++
	}
	order := make([]int, len(kinds))
	for k := range kinds {
		order[k] = k
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(slices.Max(kinds[j].load[:]), slices.Max(kinds[i].load[:])) })
	sums := slices.Clone(b.bases)
	for _, k := range order {
		kd := kinds[k]
		c := slices.IndexFunc(classes, func(c class) bool { return c.poles == kd.poles && c.top == kd.top })
		for range kd.wants {
			best, bestScore := -1, score{}
			for top := range b.legs {
				if open[c][top] == 0 {
					continue
				}
				b.load(sums, top, 1, kd)
				s := b.scoreOf(sums)
				b.load(sums, top, -1, kd)
				if best < 0 || s.compare(bestScore) < 0 {
					best, bestScore = top, s
				}
			}
			open[c][best]--
			b.load(sums, best, 1, kd)
			if kd.spans(b.legs) {
				best = 0
			}
			s[k][best]++
		}
	}
	for b.exchange(kinds, s, sums) {
	}
	return s
}

// load adds n breakers of a kind to the legs from their top leg on.
func (b *board) load(sums []vector, top, n int, k kind) {
	for p := range k.poles {
		sums[(top+p)%b.legs].add(int64(n), k.load)
	}
}

// exchange makes the first exchange of two breakers of equal poles on
// different legs that improves the score.
func (b *board) exchange(kinds []kind, s spread, sums []vector) bool {
	before := b.scoreOf(sums)
	for i, x := range kinds {
		for j, y := range kinds {
			if x.poles != y.poles || i == j || x.spans(b.legs) {
				continue
			}
			for from := range b.legs {
				for to := range b.legs {
					if from == to || s[i][from] == 0 || s[j][to] == 0 || !x.top.has(to) || !y.top.has(from) {
						continue
					}
					shift := func(n int) {
						b.load(sums, from, -n, x)
						b.load(sums, to, n, x)
						b.load(sums, from, n, y)
						b.load(sums, to, -n, y)
					}
					shift(1)
					if b.scoreOf(sums).compare(before) < 0 {
						s[i][from]--
						s[i][to]++
						s[j][to]--
						s[j][from]++
						return true
					}
					shift(-1)
				}
			}
		}
	}
	return false
}
