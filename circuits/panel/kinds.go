package panel

import (
	"cmp"
	"slices"
)

// kind is breakers that may be exchanged for one another: equal poles, current
// at every moment and permitted legs, and the same wish to be apart.
type kind struct {
	poles int
	load  vector
	amps  int64 // the load at one moment; see view
	top   legSet
	apart int
	wants []int // indices of wants, by rank
}

// kindsOf groups wants, given by rank. Kinds come in the order of their first
// member.
func (b *board) kindsOf(wants []Want, ranked []int) []kind {
	var kinds []kind
	for _, i := range ranked {
		w := wants[i]
		k := kind{poles: w.Poles, load: b.loads[i], top: b.legsFor(w), apart: w.Apart}
		at := slices.IndexFunc(kinds, func(o kind) bool {
			return o.poles == k.poles && o.load == k.load && o.top == k.top && o.apart == k.apart
		})
		if at < 0 {
			at = len(kinds)
			kinds = append(kinds, k)
		}
		kinds[at].wants = append(kinds[at].wants, i)
	}
	return kinds
}

// byRank orders the indices of wants as they should be read from the top:
// group, then ID. Equal IDs fall back on what they are, so that the order of the
// list does not matter.
func byRank(wants []Want, pick func(int) bool) []int {
	var ranked []int
	for i := range wants {
		if pick(i) {
			ranked = append(ranked, i)
		}
	}
	slices.SortStableFunc(ranked, func(i, j int) int {
		a, b := wants[i], wants[j]
		return cmp.Or(cmp.Compare(a.Group, b.Group), cmp.Compare(a.ID, b.ID),
			cmp.Compare(b.Poles, a.Poles), cmp.Compare(b.Amps, a.Amps), slices.Compare(b.At, a.At))
	})
	return ranked
}

// spread is how many breakers of each kind start on each leg: the division of
// breakers over legs that a search decides. Kinds that span all legs count on
// the first.
type spread [][maxPoles]int

// classesOf counts a spread by class, and tells the class of a kind on a leg.
func (b *board) classesOf(kinds []kind, s spread) (classes []class, of func(kind, leg int) int) {
	index := map[[2]int]int{} // poles and top leg
	key := func(k, leg int) [2]int {
		if kinds[k].poles >= b.legs {
			leg = 0
		}
		return [2]int{kinds[k].poles, leg}
	}
	for poles := maxPoles; poles >= 1; poles-- {
		for leg := range b.legs {
			n := 0
			for k := range kinds {
				if kinds[k].poles == poles {
					n += s[k][leg]
				}
			}
			if n == 0 {
				continue
			}
			c := class{poles, 1 << leg, n}
			if poles >= b.legs {
				c.top = b.anyLeg()
			}
			index[[2]int{poles, leg}] = len(classes)
			classes = append(classes, c)
		}
	}
	return classes, func(k, leg int) int {
		if at, ok := index[key(k, leg)]; ok {
			return at
		}
		return -1
	}
}

// sums returns what each leg carries under a spread.
func (b *board) sums(kinds []kind, s spread) []vector {
	sums := slices.Clone(b.bases)
	for k, kd := range kinds {
		for leg, n := range s[k] {
			for p := range kd.poles {
				if n > 0 {
					sums[(leg+p)%b.legs].add(int64(n), kd.load)
				}
			}
		}
	}
	return sums
}

// addSpanning completes a spread by the kinds that span all legs, of which
// there is nothing to divide.
func (b *board) addSpanning(kinds []kind, s spread) {
	for k, kd := range kinds {
		if kd.spans(b.legs) {
			s[k] = [maxPoles]int{len(kd.wants)}
		}
	}
}
