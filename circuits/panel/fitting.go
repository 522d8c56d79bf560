package panel

// fitTries limits the spaces tried for one answer whether breakers fit, so that
// a single hard one does not spend what there is for all. Most take as many as
// there are spaces.
const fitTries = 20_000

// fitting returns the test whether breakers so divided fit the free spaces.
func (b *board) fitting(kinds []kind, left *spent) func(tops) verdict {
	ones, twos, spanning := 0, 0, map[int]int{}
	for _, k := range kinds {
		switch {
		case k.spans(b.legs):
			spanning[k.poles] += len(k.wants)
		case k.poles == 1:
			ones += len(k.wants)
		default:
			twos += len(k.wants)
		}
	}
	known := map[tops]verdict{}
	return func(t tops) verdict {
		if v, ok := known[t]; ok {
			return v
		}
		var classes []class
		add := func(poles int, top legSet, n int) {
			if n > 0 {
				classes = append(classes, class{poles, top, n})
			}
		}
		for poles := maxPoles; poles >= b.legs; poles-- {
			add(poles, b.anyLeg(), spanning[poles])
		}
		for i, rest := range []int{ones, twos} {
			poles := i + 1
			for leg := range b.legs - 1 {
				n := t.count(poles, leg)
				add(poles, 1<<leg, n)
				rest -= n
			}
			add(poles, 1<<(b.legs-1), rest)
		}
		tries := min(left.tries, fitTries)
		left.tries -= tries
		_, v := b.place(b.rows(), classes, largestFirst(classes), &tries)
		left.tries += tries
		known[t] = v
		return v
	}
}
