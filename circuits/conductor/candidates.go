package conductor

// mostSets is the most parallel conductors per phase that are looked at; more
// would be a service, not a circuit or a panel of a grow room.
const mostSets = 12

// candidates lists what may be chosen, in the order of preference: single
// conductors up to the largest in common use, then two in parallel from the
// smallest that may be run so, then three, and so on.
func (q question) candidates() []candidate {
	wires := q.p.Wires
	var list []candidate
	for sets := 1; sets <= mostSets; sets++ {
		sizes := wires.Sizes
		if sets > 1 {
			sizes = wires.From(wires.ParallelMin)
		}
		for _, s := range sizes {
			list = append(list, candidate{s, sets})
			if s == wires.SingleMax {
				break
			}
		}
		if wires.ParallelMin == "" {
			break
		}
	}
	return list
}

// first returns the index of the first candidate from i on that meets all the
// tests, -1 where none does.
func (q question) first(list []candidate, i int, tests ...string) int {
next:
	for ; i < len(list); i++ {
		for _, t := range tests {
			if !q.meets(t, list[i]) {
				continue next
			}
		}
		return i
	}
	return -1
}

// from returns the index of the first candidate of the smallest size allowed.
func (q question) from(list []candidate) int {
	for i, c := range list {
		if c.size == q.Minimum {
			return i
		}
	}
	return 0
}
