package day

import (
	"slices"
	"sort"

	"branchwork/loads/clock"
)

// improve makes a whole choice better as long as moving one room, or two, does. What two
// choices of one value differ in is how far below the peak the rest of the day lies: the
// lesser sum of squares is taken, which leads off plateaus.
func (p *problem) improve(pick []int) []int {
	pick = slices.Clone(pick)
	best := p.score(pick)
	for range maxRounds {
		better := p.moveOne(pick, &best)
		if !better {
			better = p.moveTwo(pick, &best)
		}
		if !better {
			break
		}
	}
	return pick
}

// maxRounds ends improving where steps become tiny; it is far beyond what sites need.
const maxRounds = 500

// score is a value with what breaks ties.
type score struct{ value, squares int64 }

func (a score) less(b score) bool {
	if a.value != b.value {
		return a.value < b.value
	}
	return a.squares < b.squares
}

func (p *problem) score(pick []int) score {
	load, energy := p.load(pick)
	return p.scoreOf(load, energy)
}

// scoreOf scores some columns with options on top.
func (p *problem) scoreOf(load []int64, energy [seasons]int64, more ...*option) score {
	var s score
	all := parts{energy: energy}
	for _, o := range more {
		for i := range seasons {
			all.energy[i] += o.energy[i]
		}
	}
	for c, x := range load {
		for _, o := range more {
			x += o.power[c]
		}
		for i := range seasons {
			if p.season[c]&(1<<i) != 0 && x > all.demand[i] {
				all.demand[i] = x
			}
		}
		w := x / perWatt // whole watts, so that the sum stays in range
		s.squares += w * w
	}
	s.value = p.goal.value(all)
	return s
}

func (p *problem) moveOne(pick []int, best *score) bool {
	better := false
	for i := range pick {
		keep := pick[i]
		pick[i] = -1
		load, energy := p.load(pick)
		for a := range p.rooms[i].options {
			if !p.fits(pick, i, a) {
				continue
			}
			if s := p.scoreOf(load, energy, &p.rooms[i].options[a]); s.less(*best) {
				*best, keep, better = s, a, true
			}
		}
		pick[i] = keep
	}
	return better
}

// maxPairs bounds the pairs of options that are tried of one pair of rooms.
const maxPairs = 50 * 50

func (p *problem) moveTwo(pick []int, best *score) bool {
	for i := range pick {
		for j := range i {
			found := false
			p.pairs(pick, i, j, func(a, b int, s score) bool {
				if s.less(*best) {
					*best, found = s, true
					pick[i], pick[j] = a, b
				}
				return found
			})
			if found {
				return true
			}
		}
	}
	return false
}

// pairs visits the pairs of options that two rooms of a choice may take, until told to
// stop.
func (p *problem) pairs(pick []int, i, j int, visit func(a, b int, s score) (stop bool)) {
	if len(p.rooms[i].options)*len(p.rooms[j].options) > maxPairs {
		return
	}
	others := slices.Clone(pick)
	others[i], others[j] = -1, -1
	load, energy := p.load(others)
	for a := range p.rooms[i].options {
		if others[i], others[j] = a, -1; !p.fits(others, i, a) {
			continue
		}
		for b := range p.rooms[j].options {
			if !p.fits(others, j, b) {
				continue
			}
			if visit(a, b, p.scoreOf(load, energy, &p.rooms[i].options[a], &p.rooms[j].options[b])) {
				return
			}
		}
	}
}

// greedy places the rooms in an order, each where the value is then least. ok is false
// where a room finds no option beside those placed.
func (p *problem) greedy(order []int) (pick []int, ok bool) {
	pick = make([]int, len(p.rooms))
	for i := range pick {
		pick[i] = -1
	}
	for _, i := range order {
		at, found := -1, score{}
		for a := range p.rooms[i].options {
			if !p.fits(pick, i, a) {
				continue
			}
			pick[i] = a
			if s := p.score(pick); at < 0 || s.less(found) {
				at, found = a, s
			}
		}
		if pick[i] = at; at < 0 {
			return nil, false
		}
	}
	return pick, true
}

// bySize returns the rooms, the largest first; rooms of one size stay in their order.
func (p *problem) bySize() []int {
	size := make([]int64, len(p.rooms))
	order := make([]int, len(p.rooms))
	for i, r := range p.rooms {
		order[i] = i
		for _, x := range r.options[0].power {
			size[i] += x
		}
		if p.goal.objective == ForCost {
			size[i] += yearly(r.options[0].energy) / 1_000_000
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return size[order[a]] > size[order[b]] })
	return order
}

// settle returns the choice of a value that is nearest to today's: nobody moves a room
// for nothing. One room moved is better than two, two than more; of equals the shorter
// way counts.
func (p *problem) settle(now, pick []int) []int {
	best := p.value(pick)
	if now == nil {
		return p.stay(pick)
	}
	if p.value(now) <= best {
		return now
	}
	var out []int
	way := clock.Minute(-1)
	take := func(far clock.Minute, rooms, options [2]int) {
		if way >= 0 && far >= way {
			return
		}
		way, out = far, slices.Clone(now)
		out[rooms[0]], out[rooms[1]] = options[0], options[1]
	}
	for i, r := range p.rooms {
		others := slices.Clone(now)
		others[i] = -1
		load, energy := p.load(others)
		for a := range r.options {
			if p.fits(now, i, a) && p.scoreOf(load, energy, &r.options[a]).value <= best {
				take(r.options[a].far(), [2]int{i, i}, [2]int{a, a})
			}
		}
	}
	for i := range p.rooms {
		for j := 0; j < i && way < 0; j++ {
			p.pairs(now, i, j, func(a, b int, s score) bool {
				if s.value <= best {
					take(p.rooms[i].options[a].far()+p.rooms[j].options[b].far(), [2]int{i, j}, [2]int{a, b})
				}
				return false
			})
		}
	}
	if out != nil {
		return out
	}
	return p.stay(pick)
}

// stay puts every room back to where it stands today, or as near as it can without
// losing value.
func (p *problem) stay(pick []int) []int {
	pick = slices.Clone(pick)
	best := p.value(pick)
	for i, r := range p.rooms {
		was := pick[i]
		near := make([]int, len(r.options))
		for a := range near {
			near[a] = a
		}
		sort.SliceStable(near, func(a, b int) bool { return r.options[near[a]].far() < r.options[near[b]].far() })
		for _, a := range near {
			if r.options[a].far() >= r.options[was].far() {
				break
			}
			if pick[i] = a; p.fits(pick, i, a) && p.value(pick) <= best {
				break
			}
			pick[i] = was
		}
	}
	return pick
}
