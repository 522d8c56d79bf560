package day

import (
	"encoding/binary"
	"slices"
)

// raw is a problem before its quarter-hours are gathered into columns: power by
// quarter-hour of the mean, the summer and the winter day.
type raw [kinds * quarters]int64

// gather makes the columns of a problem out of quarter-hours.
//
// Quarter-hours that the base and every option load alike are one column. A column that
// another one equals or exceeds in the base and in every option, and that counts in no
// season in which the other does not, can never be the largest alone: it is dropped, and
// its quarter-hours go to the other. Neither changes the value of any choice.
func (p *problem) gather(base raw, options [][]raw) {
	if p.goal.objective == ForCost && p.goal.price == 0 {
		p.slots = slices.Repeat([]int{noPrice}, len(base))
		return // demand costs nothing
	}
	var columns [][]int64
	index := map[string]int{}
	for slot := range base {
		col := []int64{base[slot]}
		for _, room := range options {
			for _, o := range room {
				col = append(col, o[slot])
			}
		}
		season := p.seasonOf(slot)
		key := []byte{season}
		for _, x := range col {
			key = binary.LittleEndian.AppendUint64(key, uint64(x))
		}
		at, ok := index[string(key)]
		if !ok {
			at = len(columns)
			index[string(key)] = at
			columns = append(columns, col)
			p.season = append(p.season, season)
		}
		p.slots = append(p.slots, at)
	}
	p.keep(columns, exceeded(columns, p.season))
}

// seasonOf returns the seasons in which a quarter-hour counts.
func (p *problem) seasonOf(slot int) uint8 {
	if p.goal.objective == ForPeak {
		return 1<<seasons - 1
	}
	out := uint8(0)
	for s := range seasons {
		for _, k := range seasonDays(s) {
			if k == slot/quarters {
				out |= 1 << s
			}
		}
	}
	return out
}

// exceeded returns for each column one that makes it idle, itself where none does.
func exceeded(columns [][]int64, season []uint8) []int {
	by := make([]int, len(columns))
	for i := range columns {
		by[i] = i
		for j := range columns {
			// No two columns are equal in both, so that no two make each other idle.
			if j != i && season[i]&^season[j] == 0 && below(columns[i], columns[j]) {
				by[i] = j
				break
			}
		}
	}
	for i := range by {
		for by[i] != by[by[i]] {
			by[i] = by[by[i]]
		}
	}
	return by
}

func below(a, b []int64) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}

// keep sets the columns that nothing exceeds.
func (p *problem) keep(columns [][]int64, by []int) {
	place := make([]int, len(columns))
	var season []uint8
	for i, col := range columns {
		if by[i] != i {
			continue
		}
		place[i] = len(season)
		season = append(season, p.season[i])
		p.base = append(p.base, col[0])
		at := 1
		for r := range p.rooms {
			for o := range p.rooms[r].options {
				opt := &p.rooms[r].options[o]
				opt.power = append(opt.power, col[at])
				at++
			}
		}
	}
	p.season = season
	for slot, c := range p.slots {
		p.slots[slot] = place[by[c]]
	}
}
