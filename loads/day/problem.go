package day

import (
	"math"
	"slices"

	"branchwork/loads/clock"
)

// Objective is what the starts are chosen for.
type Objective string

const (
	ForPeak Objective = "peak" // the largest 15-minute mean with the cycling loads coincident
	ForCost Objective = "cost" // the mean month's bill
)

// problem is the choice of one option for each room, on integers: milliwatts by column,
// millionths of the currency. A column is a quarter-hour of one of the days, or several
// that no choice can tell apart.
type problem struct {
	goal    goal
	base    []int64 // by column
	season  []uint8 // by column: bit 0 it counts in summer months, bit 1 in winter months
	slots   []int   // column of each quarter-hour of each day; noPrice where it has none
	energy  [seasons]int64
	rooms   []choice
	grid    clock.Minute
	shape   shape
	blocked [][][][]bool // by room, option, other room, its option: both lit, and must not be; nil where rooms are free of each other
}

// shape is a problem's power by quarter-hour, before it is gathered into columns.
type shape struct {
	base    raw
	options [][]raw // by room and option
}

// choice is a room with its options.
type choice struct {
	name    string
	options []option
	now     int // the option that stands today; -1 where it is none of them
}

// option is one start of a room's photoperiod.
type option struct {
	start  clock.Minute
	by     clock.Minute // later than today
	lit    clock.Windows
	power  []int64 // by column
	energy [seasons]int64
}

// goal is the value of a choice.
//
//	peak   max(D_summer, D_winter)                                            mW
//	cost   Σ_season months · max(K_min, E + k · max(D, r · D_highest))        10⁻⁶ currency a year
//
// It never falls when a demand or an energy cost rises, so that lower bounds of them give
// a lower bound of it.
type goal struct {
	objective Objective
	price     float64 // per milliwatt and month, in millionths
	ratchet   float64
	least     int64
}

// cost are the parts of a value.
type parts struct {
	demand [seasons]int64 // largest column that counts in the season
	energy [seasons]int64 // of a month
}

func (g goal) value(p parts) int64 {
	high := max(p.demand[0], p.demand[1])
	if g.objective == ForPeak {
		return high
	}
	sum := int64(0)
	for i := range seasons {
		sum += int64(seasonName(i).Months()) * max(g.least, p.energy[i]+g.charge(p.demand[i], high))
	}
	return sum
}

func (g goal) charge(demand, high int64) int64 {
	billed := max(demand, int64(math.Ceil(g.ratchet*float64(high))))
	return int64(math.Round(g.price * float64(billed)))
}

// floor is a lower bound of the value where the energy costs of the two seasons are known
// only apart, and together by their yearly sum.
func (g goal) floor(p parts, year int64) int64 {
	v := g.value(p)
	if g.objective == ForPeak {
		return v
	}
	high := max(p.demand[0], p.demand[1])
	sum := year
	for i := range seasons {
		sum += int64(seasonName(i).Months()) * g.charge(p.demand[i], high)
	}
	return max(v, sum)
}

// yearly is the energy cost of a year.
func yearly(e [seasons]int64) int64 {
	return int64(SummerMonths.Months())*e[0] + int64(WinterMonths.Months())*e[1]
}

// free reports whether two options may stand together.
func (p *problem) free(i, a, j, b int) bool {
	return p.blocked[i][a][j] == nil || !p.blocked[i][a][j][b]
}

// feasible reports whether a whole choice breaks nothing.
func (p *problem) feasible(pick []int) bool {
	for i, a := range pick {
		for j := range i {
			if !p.free(i, a, j, pick[j]) {
				return false
			}
		}
	}
	return true
}

// fits reports whether room i may take option a beside the others of a choice.
func (p *problem) fits(pick []int, i, a int) bool {
	for j, b := range pick {
		if j != i && b >= 0 && !p.free(i, a, j, b) {
			return false
		}
	}
	return true
}

// load returns the columns of a choice; rooms with a negative option are left out.
func (p *problem) load(pick []int) ([]int64, [seasons]int64) {
	out, energy := slices.Clone(p.base), p.energy
	for i, a := range pick {
		if a < 0 {
			continue
		}
		o := p.rooms[i].options[a]
		for c, x := range o.power {
			out[c] += x
		}
		for s := range seasons {
			energy[s] += o.energy[s]
		}
	}
	return out, energy
}

// peaks returns the largest column of each season.
func (p *problem) peaks(load []int64) (d [seasons]int64) {
	for c, x := range load {
		for s := range seasons {
			if p.season[c]&(1<<s) != 0 {
				d[s] = max(d[s], x)
			}
		}
	}
	return d
}

// value returns the value of a whole choice.
func (p *problem) value(pick []int) int64 {
	load, energy := p.load(pick)
	return p.goal.value(parts{p.peaks(load), energy})
}

// far is how far an option lies from today's start, around the clock, in minutes.
func (o option) far() clock.Minute { return min(o.by, clock.Day-o.by) }
