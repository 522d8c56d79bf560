package panel

import "math"

// reader is the guide of the fill that decides the layout: of the breakers that
// may start on a leg, the one that comes first by rank goes first. So numbers
// run down the panel in the order of IDs wherever balance leaves a choice.
type reader struct {
	kinds  []kind
	rankOf map[int]int // by want
	left   spread      // breakers of each kind still to start on each leg
	used   []int       // of each kind
	of     [][]int     // kinds by class
	spans  func(kind) bool
	trail  []pick
}

type pick struct{ kind, leg, want int }

func (b *board) reader(kinds []kind, s spread, ranked []int) (*reader, []class) {
	classes, of := b.classesOf(kinds, s)
	r := &reader{
		kinds: kinds, rankOf: map[int]int{}, left: append(spread(nil), s...), used: make([]int, len(kinds)),
		of: make([][]int, len(classes)), spans: func(k kind) bool { return k.spans(b.legs) },
	}
	for n, i := range ranked {
		r.rankOf[i] = n
	}
	for k := range kinds {
		seen := map[int]bool{}
		for leg := range b.legs {
			if c := of(k, leg); c >= 0 && !seen[c] && s[k][r.column(k, leg)] > 0 {
				seen[c] = true
				r.of[c] = append(r.of[c], k)
			}
		}
	}
	return r, classes
}

// column is where the spread counts breakers of a kind that start on a leg.
func (r *reader) column(k, leg int) int {
	if r.spans(r.kinds[k]) {
		return 0
	}
	return leg
}

// next returns the kind of a class whose next breaker comes first.
func (r *reader) next(class, leg int) (best, rank int) {
	best, rank = -1, math.MaxInt
	for _, k := range r.of[class] {
		if r.left[k][r.column(k, leg)] == 0 {
			continue
		}
		if n := r.rankOf[r.kinds[k].wants[r.used[k]]]; n < rank {
			best, rank = k, n
		}
	}
	return best, rank
}

func (r *reader) rank(class, leg int) int {
	_, rank := r.next(class, leg)
	return rank
}

func (r *reader) take(class, leg int) {
	k, _ := r.next(class, leg)
	r.trail = append(r.trail, pick{k, r.column(k, leg), r.kinds[k].wants[r.used[k]]})
	r.left[k][r.column(k, leg)]--
	r.used[k]++
}

func (r *reader) undo(_, _ int) {
	p := r.trail[len(r.trail)-1]
	r.trail = r.trail[:len(r.trail)-1]
	r.left[p.kind][p.leg]++
	r.used[p.kind]--
}

// settleTries limits the spaces tried for one layout. It is apart from the
// limits of the search, which may be spent when the layout is drawn.
const settleTries = 20_000

// settle gives every breaker its top space. Among equally good divisions it
// chooses the one that leaves most rows at the bottom free, then the one that is
// read most easily. It returns nil where none could be drawn.
func (b *board) settle(kinds []kind, spreads []spread, ranked []int) map[int]int {
	var best map[int]int
	fewest, fewestCrossed := b.rows(), math.MaxInt
	for _, s := range spreads {
		for rows := 0; rows <= fewest; rows++ {
			tops := b.draw(rows, kinds, s, ranked, settleTries)
			if tops == nil {
				continue
			}
			if n := crossed(ranked, tops); rows < fewest || n < fewestCrossed {
				best, fewest, fewestCrossed = tops, rows, n
			}
			break
		}
	}
	return best
}

// draw lays out a division in the first rows: guided by rank or, where that
// leads into too many dead ends, largest first.
func (b *board) draw(rows int, kinds []kind, s spread, ranked []int, tries int64) map[int]int {
	r, classes := b.reader(kinds, s, ranked)
	at, v := b.place(rows, classes, r, &tries)
	if v == fits {
		return r.tops(at)
	}
	if v == cannotTell {
		tries = settleTries
		if at, v = b.place(rows, classes, largestFirst(classes), &tries); v == fits {
			return b.assign(kinds, s, ranked, at)
		}
	}
	return nil
}

// crossed counts the pairs of breakers of which the later by rank has the
// earlier space.
func crossed(ranked []int, tops map[int]int) (n int) {
	for i, x := range ranked {
		for _, y := range ranked[i+1:] {
			if tops[y] < tops[x] {
				n++
			}
		}
	}
	return n
}

// assign gives the breakers of a division to positions that suit it.
func (b *board) assign(kinds []kind, s spread, ranked []int, at []position) map[int]int {
	r, classes := b.reader(kinds, s, ranked)
	for _, p := range at {
		leg := LegOf(b.sys, p.first)
		for c := range classes {
			if _, rank := r.next(c, leg); classes[c].top.has(leg) && classes[c].poles == p.poles && rank < math.MaxInt {
				r.take(c, leg)
				break
			}
		}
	}
	return r.tops(at)
}

// tops returns the top space of each want, from the positions in the order in
// which they were taken.
func (r *reader) tops(at []position) map[int]int {
	tops := make(map[int]int, len(at))
	for i, p := range at {
		tops[r.trail[i].want] = p.first
	}
	return tops
}
