package panel

import "slices"

// largestPart is how many equal breakers are divided over the legs at once.
// Eight over three legs are 45 ways; more at once would only make the tables
// grow in larger strides.
const largestPart = 8

// largestTogether limits the ways of dividing breakers that should be apart,
// which are looked at together. Beyond it they are divided like any others.
const largestTogether = 3000

// part is breakers that are divided over the legs in one step, and all ways of
// dividing them.
type part struct {
	kind  int    // the kind of its breakers, or the first of several
	total vector // current over all legs
	rank  int64  // the most of it at any moment
	ones  int    // breakers of one pole
	twos  int    // of two
	ways  []way
	// divisions is in how many ways all breakers of the kind can be divided.
	divisions int
}

// way is one division of a part over the legs.
type way struct {
	sums flat // added to the first leg and, of three, to the second
	tops tops
	over []share
}

// share is how many of a kind start on each leg.
type share struct {
	kind int
	tops [maxPoles]int
}

// tops counts breakers by the leg of their top pole: one pole on the first and
// second leg, two poles on the first and second, 16 bits each. The rest is on
// the last leg.
type tops uint64

func topsOf(poles, leg, n int) tops {
	if leg >= 2 {
		return 0
	}
	return tops(n) << (16 * (2*(poles-1) + leg))
}

func (t tops) count(poles, leg int) int { return int(t >> (16 * (2*(poles-1) + leg)) & 0xffff) }

// spans reports whether breakers of a kind load every leg alike wherever they
// are, so that there is nothing to divide.
func (k kind) spans(legs int) bool { return k.poles >= legs }

// partsOf cuts the kinds that are to be divided into parts, the heaviest first.
// With apart, the breakers that wish to be apart form a part of their own whose
// ways use two legs at least.
func (b *board) partsOf(kinds []kind, apart bool) []part {
	var parts []part
	var together []int // numbers of apart groups seen
	for i, k := range kinds {
		if k.spans(b.legs) {
			continue
		}
		if apart && k.apart != 0 {
			if slices.Contains(together, k.apart) {
				continue
			}
			if p, ok := b.together(kinds, k.apart); ok {
				together, p.divisions = append(together, k.apart), len(p.ways)
				parts = append(parts, p)
				continue
			}
		}
		for n := len(k.wants); n > 0; n -= largestPart {
			p := b.partOf(kinds, i, min(n, largestPart))
			p.divisions = k.divisions(b.legs)
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(p, q part) int {
		switch {
		case p.weight() > q.weight():
			return -1
		case p.weight() < q.weight():
			return 1
		}
		return 0
	})
	return parts
}

// divisions returns in how many ways the n breakers of a kind can be divided
// over the legs l that their top poles may use: (n + l − 1) over (l − 1).
func (k kind) divisions(legs int) int {
	l, n := 0, len(k.wants)
	for leg := range legs {
		if k.top.has(leg) {
			l++
		}
	}
	switch l {
	case 2:
		return n + 1
	case 3:
		return (n + 1) * (n + 2) / 2
	}
	return 1
}

// weight is the mean current of a pole at the heaviest moment.
func (p part) weight() float64 { return float64(p.rank) / float64(max(p.ones+2*p.twos, 1)) }

// partOf returns n breakers of a kind with all ways of dividing them.
func (b *board) partOf(kinds []kind, i, n int) part {
	k := kinds[i]
	p := part{kind: i}
	p.total.add(int64(n*k.poles), k.load)
	p.rank = slices.Max(p.total[:])
	if k.poles == 1 {
		p.ones = n
	} else {
		p.twos = n
	}
	var tops [maxPoles]int
	var divide func(leg, left int)
	divide = func(leg, left int) {
		if leg == b.legs-1 {
			if left == 0 || k.top.has(leg) {
				tops[leg] = left
				p.ways = append(p.ways, b.wayOf(kinds, share{i, tops}))
				tops[leg] = 0
			}
			return
		}
		for c := left; c >= 0; c-- {
			if c == 0 || k.top.has(leg) {
				tops[leg] = c
				divide(leg+1, left-c)
			}
		}
		tops[leg] = 0
	}
	divide(0, n)
	return p
}

// wayOf adds up what a division puts on the legs.
func (b *board) wayOf(kinds []kind, over ...share) way {
	w := way{over: over}
	for _, s := range over {
		k := kinds[s.kind]
		for leg, n := range s.tops {
			if n == 0 {
				continue
			}
			w.tops += topsOf(k.poles, leg, n)
			for p := range k.poles {
				switch l := (leg + p) % b.legs; {
				case l == 0:
					w.sums.add(0, n, k.load)
				case l == 1 && b.legs == 3:
					w.sums.add(1, n, k.load)
				}
			}
		}
	}
	return w
}

// together returns the breakers of an apart group as one part whose ways do not
// put all of them on one leg, or on one set of legs. It fails where there is no
// such way or there are too many ways.
func (b *board) together(kinds []kind, group int) (part, bool) {
	p := part{ways: []way{{}}}
	for i, k := range kinds {
		if k.apart != group || k.spans(b.legs) {
			continue
		}
		one := b.partOf(kinds, i, len(k.wants))
		if len(p.ways)*len(one.ways) > largestTogether {
			return part{}, false
		}
		if len(p.ways[0].over) == 0 {
			p.kind = i
		}
		p.total.add(1, one.total)
		p.rank, p.ones, p.twos = slices.Max(p.total[:]), p.ones+one.ones, p.twos+one.twos
		var ways []way
		for _, v := range p.ways {
			for _, w := range one.ways {
				ways = append(ways, way{v.sums.plus(&w.sums), v.tops + w.tops, slices.Concat(v.over, w.over)})
			}
		}
		p.ways = ways
	}
	p.ways = slices.DeleteFunc(p.ways, func(w way) bool { return !b.isApart(kinds, group, w.over) })
	return p, len(p.ways) > 0
}

// isApart reports whether a division, with the fixed breakers of the group,
// uses more than one set of legs.
func (b *board) isApart(kinds []kind, group int, over []share) bool {
	sets := map[legSet]bool{}
	for _, set := range b.apart[group] {
		sets[set] = true
	}
	for _, s := range over {
		for leg, n := range s.tops {
			if n > 0 {
				sets[b.legSetOf(leg, kinds[s.kind].poles)] = true
			}
		}
	}
	return len(sets) > 1
}

// legSetOf returns the legs of a breaker.
func (b *board) legSetOf(top, poles int) (set legSet) {
	for p := range poles {
		set |= 1 << ((top + p) % b.legs)
	}
	return set
}
