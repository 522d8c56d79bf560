package panel

// states collects cells, equal states once: the first that came stays, so that
// the collection depends on the order of adding only. It is a hash table with
// open addressing; slots hold the index of a cell plus one.
type states struct {
	cells []cell
	slots []int32
}

func newStates(room int) *states {
	size := 64
	for size < 2*room {
		size *= 2
	}
	return &states{slots: make([]int32, size)}
}

// empty makes room for others in the same memory.
func (s *states) empty(room int) {
	if 2*room > len(s.slots) {
		cells := s.cells
		*s = *newStates(room)
		s.cells = cells
	}
	clear(s.slots)
	s.cells = s.cells[:0]
}

// add takes a cell in unless its state is there already.
func (s *states) add(c cell) {
	if 2*(len(s.cells)+1) > len(s.slots) {
		s.grow()
	}
	mask := uint64(len(s.slots) - 1)
	for at := c.hash() & mask; ; at = (at + 1) & mask {
		i := s.slots[at]
		if i == 0 {
			s.cells = append(s.cells, c)
			s.slots[at] = int32(len(s.cells))
			return
		}
		if o := &s.cells[i-1]; o.tops == c.tops && o.sums == c.sums {
			return
		}
	}
}

func (s *states) grow() {
	s.slots = make([]int32, 2*len(s.slots))
	mask := uint64(len(s.slots) - 1)
	for i, c := range s.cells {
		at := c.hash() & mask
		for s.slots[at] != 0 {
			at = (at + 1) & mask
		}
		s.slots[at] = int32(i + 1)
	}
}

// hash mixes a state's numbers: multiplication by odd constants (the golden
// ratio's fraction and others of its kind) and folding of the high half.
func (c *cell) hash() uint64 {
	h := uint64(c.tops) * 0x165667b19e3779f9
	for m := 0; m < len(c.sums); m += 2 {
		h = (h ^ uint64(uint32(c.sums[m]))<<32 ^ uint64(uint32(c.sums[m+1]))) * 0x9e3779b97f4a7c15
		h ^= h >> 32
	}
	h *= 0xc2b2ae3d27d4eb4f
	return h ^ h>>29
}
