package day

import (
	"slices"

	"branchwork/loads/clock"
)

// reducedProblem is a problem with fewer options and an optimum of the same value.
type reducedProblem struct {
	*problem
	index [][]int // by room and option, its place in the whole problem
}

// reduced leaves out options that some optimum can do without.
//
// Take an optimum and the rooms whose power is the same shape at every start. Move a set
// of them earlier by one step of the grid, all together. A quarter-hour can rise above
// what the day held before only where, within the step, a room outside the set steps down
// before one of the set steps up: the set is blocked there. If nothing blocks it and each
// of its rooms may start one step earlier, no peak rises, and the energy cost stays where
// it does not depend on the start. Moving on until nothing moves leaves an optimum in
// which every room is blocked by another, that by a third and so on, down to a room at the
// first of its starts, or to a step of what does not move. The starts that such chains
// reach are kept:
//
//	start_r = start_s + ⌈down_s − up_r⌉      to the grid, around the clock
//
// Where energy costs more at one time than at another, a set is moved to the side on which
// it gets no dearer. Its cost being linear between the starts at which the slope of some
// room's cost changes, chains may then be of either direction, and end also at the last
// start and at those.
//
// Lights that must not overlap block like powers: their edges are among the steps. Rooms
// whose shape changes with the start (weather) keep all their starts and are moved by
// nobody.
func (p *problem) reduced() reducedProblem {
	whole := reducedProblem{p, make([][]int, len(p.rooms))}
	for r := range p.rooms {
		for a := range p.rooms[r].options {
			whole.index[r] = append(whole.index[r], a)
		}
	}
	both, ok := p.reducible()
	if !ok {
		return whole
	}
	keep := p.chains(both)
	out := *p
	out.rooms = slices.Clone(p.rooms)
	for r := range out.rooms {
		var options []option
		whole.index[r] = nil
		for a, o := range p.rooms[r].options {
			if keep[r][a] {
				options = append(options, o)
				whole.index[r] = append(whole.index[r], a)
			}
		}
		out.rooms[r].options = options
	}
	out.blocked = p.blockedAmong(whole.index)
	return reducedProblem{&out, whole.index}
}

// reducible reports whether options may be left out, and whether the energy cost depends
// on the starts. It must not where a least bill bends it or starts lie off the grid.
func (p *problem) reducible() (both, ok bool) {
	for _, r := range p.rooms {
		for _, o := range r.options {
			if o.start%p.grid != 0 {
				return false, false
			}
			both = both || p.goal.objective == ForCost && o.energy != r.options[0].energy
		}
	}
	return both, !both || p.goal.least == 0
}

// edges are the minutes at which a room's power steps up or down, or its lights go on or
// off, after its start.
type edges struct {
	up, down []clock.Minute
	regular  bool // the same at every start
}

// chains marks the options to keep.
func (p *problem) chains(both bool) [][]bool {
	n := len(p.rooms)
	all := make([]edges, n)
	fixed := stepsOf(&p.shape.base, 0)
	for r := range p.rooms {
		all[r] = p.edgesOf(r)
		if all[r].regular {
			continue
		}
		for a := range p.rooms[r].options { // where it may step, whatever its start
			e := p.edgesAt(r, a, 0)
			fixed.up, fixed.down = append(fixed.up, e.up...), append(fixed.down, e.down...)
		}
	}
	fixed.up, fixed.down = unique(fixed.up), unique(fixed.down)
	keep := make([][]bool, n)
	var queue [][2]int
	mark := func(r int, start clock.Minute) {
		a := p.optionAt(r, start)
		if a >= 0 && !keep[r][a] {
			keep[r][a] = true
			queue = append(queue, [2]int{r, a})
		}
	}
	for r := range p.rooms {
		keep[r] = make([]bool, len(p.rooms[r].options))
		for a, o := range p.rooms[r].options {
			if !all[r].regular || p.anchor(r, a, both) {
				mark(r, o.start)
			}
		}
		for _, by := range p.differences(fixed.down, all[r].up) {
			mark(r, by)
		}
		if both {
			for _, by := range p.differences(all[r].down, fixed.up) {
				mark(r, -by)
			}
		}
	}
	links := make([][][]clock.Minute, n) // by blocked and blocking room
	for r := range all {
		links[r] = make([][]clock.Minute, n)
		for s := range all {
			if r != s && all[r].regular && all[s].regular {
				links[r][s] = p.differences(all[s].down, all[r].up)
			}
		}
	}
	for len(queue) > 0 {
		s, start := queue[0][0], p.rooms[queue[0][0]].options[queue[0][1]].start
		queue = queue[1:]
		for r := range all {
			for _, by := range links[r][s] {
				mark(r, start+by)
			}
			for _, by := range links[s][r] {
				if both {
					mark(r, start-by)
				}
			}
		}
	}
	return keep
}

// differences returns ⌈down − up⌉ to the grid for all pairs, each once.
func (p *problem) differences(down, up []clock.Minute) []clock.Minute {
	var out []clock.Minute
	for _, d := range down {
		for _, u := range up {
			x := around(d - u)
			out = append(out, around((x+p.grid-1)/p.grid*p.grid))
		}
	}
	return unique(out)
}

func around(m clock.Minute) clock.Minute { return (m%clock.Day + clock.Day) % clock.Day }

func unique(list []clock.Minute) []clock.Minute {
	slices.Sort(list)
	return slices.Compact(list)
}

func (p *problem) optionAt(r int, start clock.Minute) int {
	return slices.IndexFunc(p.rooms[r].options, func(o option) bool { return o.start == around(start) })
}

// bend is the second difference of a year's energy cost, in millionths, up to which it is
// the rounding of straight lines.
const bend = 48

// anchor reports whether a room need not be movable from an option: at the first start of
// a stretch, and where both directions count at the last and where its cost bends.
func (p *problem) anchor(r, a int, both bool) bool {
	o := p.rooms[r].options[a]
	before, after := p.optionAt(r, o.start-p.grid), p.optionAt(r, o.start+p.grid)
	if before < 0 || o.start == 0 {
		return true // around the clock midnight is taken as the first
	}
	if !both {
		return false
	}
	if after < 0 || o.start == clock.Day-p.grid {
		return true
	}
	cost := func(a int) int64 { return yearly(p.rooms[r].options[a].energy) }
	second := cost(before) - 2*cost(a) + cost(after)
	return second > bend || second < -bend
}

// edgesOf returns a room's edges after its start, and whether they are those of all its
// options.
func (p *problem) edgesOf(r int) edges {
	options, shape := p.rooms[r].options, p.shape.options[r]
	for a, o := range options {
		turn := int(around(o.start-options[0].start) / quarter)
		for k := range kinds {
			for q := range quarters {
				if shape[a][k*quarters+(q+turn)%quarters] != shape[0][k*quarters+q] {
					return edges{}
				}
			}
		}
	}
	e := p.edgesAt(r, 0, options[0].start)
	e.regular = true
	return e
}

// edgesAt returns the edges of one option, counted from a minute.
func (p *problem) edgesAt(r, a int, from clock.Minute) edges {
	e := stepsOf(&p.shape.options[r][a], from)
	for _, x := range runsOf(p.rooms[r].options[a].lit) {
		e.up = append(e.up, around(x.start-from))
		e.down = append(e.down, around(x.start+x.length-from))
	}
	e.up, e.down = unique(e.up), unique(e.down)
	return e
}

// stepsOf returns where power steps, counted from a minute.
func stepsOf(power *raw, from clock.Minute) edges {
	var e edges
	for k := range kinds {
		for q := range quarters {
			at := around(clock.Minute(q)*quarter - from)
			switch x, y := power[k*quarters+(q+quarters-1)%quarters], power[k*quarters+q]; {
			case y > x:
				e.up = append(e.up, at)
			case y < x:
				e.down = append(e.down, at)
			}
		}
	}
	e.up, e.down = unique(e.up), unique(e.down)
	return e
}

// blockedAmong returns what blocks what among the options kept.
func (p *problem) blockedAmong(index [][]int) [][][][]bool {
	out := make([][][][]bool, len(index))
	for i := range index {
		for _, a := range index[i] {
			row := make([][]bool, len(index))
			for j := range index {
				if full := p.blocked[i][a][j]; full != nil {
					for _, b := range index[j] {
						row[j] = append(row[j], full[b])
					}
				}
			}
			out[i] = append(out[i], row)
		}
	}
	return out
}
