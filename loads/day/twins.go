package day

import (
	"slices"
)

// twins returns for each room the like room before it. Two rooms are alike where
// exchanging them changes nothing; of choices that differ only by such an exchange the one
// in which options ascend is searched.
func (p *problem) twins() []int {
	before := make([]int, len(p.rooms))
	for j := range p.rooms {
		before[j] = -1
		for i := range j {
			if p.alike(i, j) {
				before[j] = i
			}
		}
	}
	return before
}

// alike reports whether exchanging two rooms changes nothing.
func (p *problem) alike(i, j int) bool {
	a, b := p.rooms[i].options, p.rooms[j].options
	if len(a) != len(b) {
		return false
	}
	for k := range a {
		if a[k].start != b[k].start || a[k].energy != b[k].energy || !slices.Equal(a[k].power, b[k].power) {
			return false
		}
	}
	for x := range a {
		for y := range a {
			if p.free(i, x, j, y) != p.free(i, y, j, x) {
				return false
			}
		}
		for o := range p.rooms {
			if o == i || o == j {
				continue
			}
			for y := range p.rooms[o].options {
				if p.free(i, x, o, y) != p.free(j, x, o, y) {
					return false
				}
			}
		}
	}
	return true
}
