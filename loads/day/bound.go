package day

import (
	"math"
	"slices"
	"sort"
)

// weighing is a lower bound by weights on columns.
//
// Of demand, for any weights w ≥ 0, not all zero, over columns that count in a season:
//
//	D = max_c L_c ≥ Σ w_c · L_c / Σ w_c
//
// Of a year's cost, with weights of one sum W for each season and months m of it:
//
//	K ≥ E + k · Σ_season m · D ≥ (W · E + k · Σ_season m · Σ w_c · L_c) / W
//
// Either is a sum over the rooms. Taking of each room not placed yet its least option
// gives no more than any choice gives, whatever the weights; good weights make it strong.
type weighing struct {
	of     [][]int64 // by room and option
	base   int64     // of what is no room's
	sum    int64     // divides the total
	season int       // of a demand; wholeCost of a cost
}

const wholeCost = -1

// demandWeighing weighs the columns of a season.
func (p *problem) demandWeighing(season int, w []int64) weighing {
	g := weighing{season: season, of: make([][]int64, len(p.rooms)), base: dot(w, p.base)}
	for _, x := range w {
		g.sum += x
	}
	for r := range p.rooms {
		for _, o := range p.rooms[r].options {
			g.of[r] = append(g.of[r], dot(w, o.power))
		}
	}
	return g
}

// costWeighing weighs energy and demand together; w has the sum for each season. A unit is
// taken off each product of floating point, and one a month for the rounding of charges,
// so that the bound stays below.
func (p *problem) costWeighing(w [seasons][]int64, sum int64) weighing {
	g := weighing{season: wholeCost, sum: sum, of: make([][]int64, len(p.rooms))}
	weigh := func(energy [seasons]int64, power []int64) int64 {
		d := int64(0)
		for s := range seasons {
			d += int64(seasonName(s).Months()) * dot(w[s], power)
		}
		return sum*yearly(energy) + int64(math.Floor(p.goal.price*float64(d))) - 1
	}
	g.base = weigh(p.energy, p.base) - 12*sum
	for r := range p.rooms {
		for _, o := range p.rooms[r].options {
			g.of[r] = append(g.of[r], weigh(o.energy, o.power))
		}
	}
	return g
}

func dot(w, x []int64) int64 {
	sum := int64(0)
	for c, a := range w {
		sum += a * x[c]
	}
	return sum
}

// root is the bound's total before any room is placed.
func (g weighing) root() int64 {
	sum := g.base
	for _, of := range g.of {
		sum += slices.Min(of)
	}
	return sum
}

// bound turns a total into the bound, rounded up: values are whole.
func (g weighing) bound(total int64) int64 {
	if total <= 0 {
		return 0
	}
	return (total + g.sum - 1) / g.sum
}

// Limits of the bound's making. They decide its strength, never its validity.
const (
	maxWeighings = 8   // kept of each kind
	playRounds   = 240 // of the search for good weights
	playEvery    = 8   // rounds between two looks at the bound
)

// weighings returns good weights.
func (p *problem) weighings() []weighing {
	if len(p.base) == 0 {
		return nil
	}
	if p.goal.objective == ForPeak { // both seasons are one
		return append(strongest(p.spaced(0)), strongest(p.play(0))...)
	}
	var out []weighing
	for s := range seasons {
		out = append(out, strongest(append(p.spaced(s), p.play(s)...))...)
	}
	return append(out, strongest(p.playCost())...)
}

func strongest(list []weighing) []weighing {
	sort.SliceStable(list, func(i, j int) bool { return list[i].bound(list[i].root()) > list[j].bound(list[j].root()) })
	return list[:min(maxWeighings, len(list))]
}

// spaced returns the means of quarter-hours that stand evenly around the clock: all of the
// day, every second, every third … What is on for its share of the day is on for its share
// of those, wherever it starts, which makes them strong for photoperiods.
func (p *problem) spaced(season int) []weighing {
	var out []weighing
	for _, k := range seasonDays(season) {
		for step := 1; step <= quarters/2; step++ {
			if quarters%step != 0 {
				continue
			}
			for first := range step {
				w := make([]int64, len(p.base))
				for q := first; q < quarters; q += step {
					w[p.slots[k*quarters+q]]++
				}
				out = append(out, p.demandWeighing(season, w))
			}
		}
	}
	return out
}

// play looks for weights as two players would find them who answer each other's past: the
// rooms take the options that are lightest by the weights so far, the weights grow where
// the load so far is largest.
//
// Source: fictitious play of a matrix game, common practice, no source.
func (p *problem) play(season int) []weighing {
	w := make([]int64, len(p.base))
	load := make([]int64, len(p.base))
	var out []weighing
	for i := range playRounds {
		w[p.fullest(load, season)]++
		g := p.demandWeighing(season, w)
		if i%playEvery == 0 {
			out = append(out, g)
		}
		p.answer(g, load)
	}
	return out
}

// playCost does so for both seasons and the energy together.
func (p *problem) playCost() []weighing {
	w := [seasons][]int64{make([]int64, len(p.base)), make([]int64, len(p.base))}
	load := make([]int64, len(p.base))
	var out []weighing
	for i := range playRounds {
		for s := range seasons {
			w[s][p.fullest(load, s)]++
		}
		g := p.costWeighing(w, int64(i+1))
		if i%playEvery == 0 {
			out = append(out, g)
		}
		p.answer(g, load)
	}
	return out
}

// fullest returns the fullest column that counts in a season.
func (p *problem) fullest(load []int64, season int) int {
	at := -1
	for c, x := range load {
		if p.season[c]&(1<<season) != 0 && (at < 0 || x > load[at]) {
			at = c
		}
	}
	return at
}

// answer adds to the load the base and each room's lightest option.
func (p *problem) answer(g weighing, load []int64) {
	for c, x := range p.base {
		load[c] += x
	}
	for r, of := range g.of {
		lightest := slices.Index(of, slices.Min(of))
		for c, x := range p.rooms[r].options[lightest].power {
			load[c] += x
		}
	}
}
