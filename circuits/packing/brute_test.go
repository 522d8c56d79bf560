package packing

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"
)

// bruteForce finds the best figures by complete enumeration: bins one after
// the other, each with every content that the rules allow. It knows nothing of
// the solver's ideas.
func bruteForce(p Problem) [aims]int64 {
	e := newEnumeration(p)
	for _, b := range e.bins() {
		for range b.times {
			if !e.add(b) {
				break
			}
		}
	}
	var best [aims]int64
	first := true
	for key, score := range e.now {
		for _, n := range e.left[key] {
			score[aimMissing] += int64(n)
		}
		if first || slices.Compare(score[:], best[:]) < 0 {
			best, first = score, false
		}
	}
	return best
}

// enumeration maps every state, which is what is still to place, to the best
// score that leads there.
type enumeration struct {
	p    Problem
	foes map[[2]int]bool
	now  map[string][aims]int64
	left map[string][]int
}

// bruteBin is a bin that may be used up to a number of times.
type bruteBin struct {
	room
	score [aims]int64
	times int
}

func newEnumeration(p Problem) *enumeration {
	e := &enumeration{p: p, foes: map[[2]int]bool{}, now: map[string][aims]int64{}, left: map[string][]int{}}
	var need []int
	for _, k := range p.Kinds {
		need = append(need, k.Count)
	}
	e.now[fmt.Sprint(need)] = [aims]int64{}
	e.left[fmt.Sprint(need)] = need
	for _, c := range p.Conflicts {
		e.foes[c] = true
		e.foes[[2]int{c[1], c[0]}] = true
	}
	return e
}

func (e *enumeration) bins() []bruteBin {
	total := 0
	for _, k := range e.p.Kinds {
		total += k.Count
	}
	var out []bruteBin
	for _, r := range e.p.rooms() {
		b := bruteBin{room: r, times: 1}
		if r.bin >= 0 {
			k := e.p.Bins[r.bin]
			b.score = [aims]int64{0, int64(k.Width), 1, k.Cost}
			if b.times = k.Max; k.Max == 0 {
				b.times = total
			}
		}
		out = append(out, b)
	}
	return out
}

// add allows one more bin; false if that improves nothing.
func (e *enumeration) add(b bruteBin) bool {
	next := map[string][aims]int64{}
	changed := false
	for key, score := range e.now {
		if old, ok := next[key]; !ok || slices.Compare(score[:], old[:]) < 0 {
			next[key] = score
		}
		e.contents(b, e.left[key], func(rest []int) {
			k := fmt.Sprint(rest)
			if _, ok := e.left[k]; !ok {
				e.left[k] = slices.Clone(rest)
			}
			sum := score
			for a := range sum {
				sum[a] += b.score[a]
			}
			if old, ok := next[k]; ok && slices.Compare(sum[:], old[:]) >= 0 {
				return
			}
			next[k] = sum
			if old, ok := e.now[k]; !ok || slices.Compare(sum[:], old[:]) < 0 {
				changed = true
			}
		})
	}
	e.now = next
	return changed
}

// contents calls f with what is left after each content of one bin.
func (e *enumeration) contents(b bruteBin, need []int, f func(rest []int)) {
	rest := slices.Clone(need)
	space := slices.Clone(b.limits)
	inside := make([]int, len(need))
	var from func(k int)
	from = func(k int) {
		if k == len(need) {
			f(rest)
			return
		}
		from(k + 1)
		uses, most := e.most(b, k, inside)
		taken := 0
		for ; taken < min(most, need[k]); taken++ {
			if !fits(uses, space) {
				break
			}
			for r := range space {
				space[r] -= uses[r]
			}
			rest[k]--
			inside[k]++
			from(k + 1)
		}
		for r := range uses {
			space[r] += int64(taken) * uses[r]
		}
		rest[k] += taken
		inside[k] = 0
	}
	from(0)
}

// most is how many of kind k the rules allow beside what is inside.
func (e *enumeration) most(b bruteBin, k int, inside []int) (uses []int64, most int) {
	for _, form := range e.p.Kinds[k].Forms {
		if form.Family == b.family {
			uses = form.Uses
		}
	}
	if uses == nil || (b.allow != nil && !b.allow[k]) {
		return nil, 0
	}
	for _, h := range b.holds {
		if e.foes[[2]int{k, h}] {
			return nil, 0
		}
	}
	for o := range k {
		if inside[o] > 0 && e.foes[[2]int{k, o}] {
			return nil, 0
		}
	}
	most = e.p.Kinds[k].Count
	if b.atMost != nil && b.atMost[k] > 0 {
		most = b.atMost[k]
	}
	if e.foes[[2]int{k, k}] {
		most = min(most, 1)
	}
	return uses, most
}

// drawProblem draws a small problem that uses everything the package offers.
// Sizes are up to unit times 12.
func drawProblem(t *rapid.T, unit int64) Problem {
	kinds := rapid.IntRange(1, 5).Draw(t, "kinds")
	families := rapid.IntRange(1, 2).Draw(t, "families")
	p := Problem{Resources: rapid.IntRange(1, 3).Draw(t, "resources")}
	amounts := func(low, high int64, what string) []int64 {
		return rapid.SliceOfN(rapid.Int64Range(low*unit, high*unit), p.Resources, p.Resources).Draw(t, what)
	}
	for range kinds {
		k := Kind{Count: rapid.IntRange(0, 4).Draw(t, "count")}
		for f := range families {
			if f == 0 || rapid.Bool().Draw(t, "second form") {
				k.Forms = append(k.Forms, Form{Family: f, Uses: amounts(0, 12, "uses")})
			}
		}
		p.Kinds = append(p.Kinds, k)
	}
	family := func() int { return rapid.IntRange(0, families-1).Draw(t, "family") }
	allow := func() []bool {
		return rapid.SampledFrom([][]bool{nil, rapid.SliceOfN(rapid.Bool(), kinds, kinds).Draw(t, "some")}).Draw(t, "allow")
	}
	atMost := func() []int {
		return rapid.SampledFrom([][]int{nil, rapid.SliceOfN(rapid.IntRange(0, 2), kinds, kinds).Draw(t, "few")}).Draw(t, "at most")
	}
	for range rapid.IntRange(1, 3).Draw(t, "bins") {
		p.Bins = append(p.Bins, BinKind{
			Family: family(), Limits: amounts(8, 30, "limits"),
			Width: rapid.IntRange(0, 3).Draw(t, "width"),
			Cost:  rapid.Int64Range(0, 9).Draw(t, "cost"),
			Max:   rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "max"),
			Allow: allow(), AtMost: atMost(),
		})
	}
	kind := rapid.IntRange(0, kinds-1)
	for range rapid.IntRange(0, 2).Draw(t, "existing") {
		e := Existing{Family: family(), Limits: amounts(0, 30, "left"), Allow: allow(), AtMost: atMost()}
		if rapid.Bool().Draw(t, "used") {
			e.Holds = []int{kind.Draw(t, "holds")}
		}
		p.Existing = append(p.Existing, e)
	}
	for range rapid.IntRange(0, 3).Draw(t, "conflicts") {
		p.Conflicts = append(p.Conflicts, [2]int{kind.Draw(t, "a"), kind.Draw(t, "b")})
	}
	return p
}
