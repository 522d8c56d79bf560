package packing

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// brute finds the best figures by complete enumeration: bins one after the
// other, each with every content that the rules allow. It knows nothing of
// the solver's ideas.
type brute struct {
	p    Problem
	best map[string][aims]int64
}

// bruteBin is one bin that may be used up to a number of times.
type bruteBin struct {
	family int
	limits []int64
	allow  []bool
	atMost []int
	holds  []int
	score  [aims]int64
	times  int
}

func bruteForce(p Problem) [aims]int64 {
	total := 0
	need := make([]int, len(p.Kinds))
	for k := range p.Kinds {
		need[k] = p.Kinds[k].Count
		total += need[k]
	}
	var bins []bruteBin
	for _, e := range p.Existing {
		bins = append(bins, bruteBin{e.Family, e.Limits, e.Allow, e.AtMost, e.Holds, [aims]int64{}, 1})
	}
	for _, b := range p.Bins {
		times := b.Max
		if times == 0 {
			times = total
		}
		bins = append(bins, bruteBin{b.Family, b.Limits, b.Allow, b.AtMost, nil,
			[aims]int64{0, int64(b.Width), 1, b.Cost}, times})
	}
	foes := map[[2]int]bool{}
	for _, c := range p.Conflicts {
		foes[c] = true
		foes[[2]int{c[1], c[0]}] = true
	}
	// now maps what is left to the best score so far.
	now := map[string][aims]int64{fmt.Sprint(need): {}}
	left := map[string][]int{fmt.Sprint(need): need}
	for _, b := range bins {
		for range b.times {
			next := map[string][aims]int64{}
			changed := false
			for key, score := range now {
				if old, ok := next[key]; !ok || slices.Compare(score[:], old[:]) < 0 {
					next[key] = score
				}
				contents(p, b, foes, left[key], func(rest []int) {
					k := fmt.Sprint(rest)
					if _, ok := left[k]; !ok {
						left[k] = slices.Clone(rest)
					}
					sum := score
					for a := range sum {
						sum[a] += b.score[a]
					}
					if old, ok := next[k]; !ok || slices.Compare(sum[:], old[:]) < 0 {
						if old, ok := now[k]; !ok || slices.Compare(sum[:], old[:]) < 0 {
							changed = true
						}
						next[k] = sum
					}
				})
			}
			now = next
			if !changed {
				break
			}
		}
	}
	var best [aims]int64
	first := true
	for key, score := range now {
		for _, n := range left[key] {
			score[aimMissing] += int64(n)
		}
		if first || slices.Compare(score[:], best[:]) < 0 {
			best, first = score, false
		}
	}
	return best
}

// contents calls f with what is left after each content of one bin.
func contents(p Problem, b bruteBin, foes map[[2]int]bool, need []int, f func(rest []int)) {
	rest := slices.Clone(need)
	room := slices.Clone(b.limits)
	inside := make([]int, len(need))
	var from func(k int)
	from = func(k int) {
		if k == len(need) {
			f(rest)
			return
		}
		from(k + 1)
		uses := []int64(nil)
		for _, form := range p.Kinds[k].Forms {
			if form.Family == b.family {
				uses = form.Uses
			}
		}
		if uses == nil || (b.allow != nil && !b.allow[k]) {
			return
		}
		for _, h := range b.holds {
			if foes[[2]int{k, h}] {
				return
			}
		}
		for o := range k {
			if inside[o] > 0 && foes[[2]int{k, o}] {
				return
			}
		}
		most := rest[k]
		if b.atMost != nil && b.atMost[k] > 0 {
			most = min(most, b.atMost[k])
		}
		if foes[[2]int{k, k}] {
			most = min(most, 1)
		}
		taken := 0
		for taken < most {
			ok := true
			for r := range room {
				ok = ok && room[r] >= uses[r]
			}
			if !ok {
				break
			}
			for r := range room {
				room[r] -= uses[r]
			}
			taken++
			rest[k]--
			inside[k]++
			from(k + 1)
		}
		for r := range room {
			room[r] += int64(taken) * uses[r]
		}
		rest[k] += taken
		inside[k] = 0
	}
	from(0)
}

// drawProblem draws a small problem that uses everything the package offers.
func drawProblem(t *rapid.T) Problem {
	kinds := rapid.IntRange(1, 5).Draw(t, "kinds")
	families := rapid.IntRange(1, 2).Draw(t, "families")
	p := Problem{Resources: rapid.IntRange(1, 3).Draw(t, "resources")}
	size := rapid.Int64Range(0, 12)
	for range kinds {
		k := Kind{Count: rapid.IntRange(0, 4).Draw(t, "count")}
		for f := range families {
			if f > 0 && rapid.Bool().Draw(t, "single form") {
				continue
			}
			form := Form{Family: f}
			for range p.Resources {
				form.Uses = append(form.Uses, size.Draw(t, "use"))
			}
			k.Forms = append(k.Forms, form)
		}
		p.Kinds = append(p.Kinds, k)
	}
	limits := func() []int64 {
		var out []int64
		for range p.Resources {
			out = append(out, rapid.Int64Range(8, 30).Draw(t, "limit"))
		}
		return out
	}
	allow := func() []bool {
		if rapid.Bool().Draw(t, "allow all") {
			return nil
		}
		return rapid.SliceOfN(rapid.Bool(), kinds, kinds).Draw(t, "allow")
	}
	atMost := func() []int {
		if rapid.Bool().Draw(t, "no limit") {
			return nil
		}
		return rapid.SliceOfN(rapid.IntRange(0, 2), kinds, kinds).Draw(t, "at most")
	}
	for range rapid.IntRange(1, 3).Draw(t, "bins") {
		p.Bins = append(p.Bins, BinKind{
			Family: rapid.IntRange(0, families-1).Draw(t, "family"),
			Limits: limits(),
			Width:  rapid.IntRange(0, 3).Draw(t, "width"),
			Cost:   rapid.Int64Range(0, 9).Draw(t, "cost"),
			Max:    rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "max"),
			Allow:  allow(), AtMost: atMost(),
		})
	}
	for range rapid.IntRange(0, 2).Draw(t, "existing") {
		e := Existing{Family: rapid.IntRange(0, families-1).Draw(t, "family"),
			Limits: limits(), Allow: allow(), AtMost: atMost()}
		if rapid.Bool().Draw(t, "holds") {
			e.Holds = []int{rapid.IntRange(0, kinds-1).Draw(t, "held")}
		}
		p.Existing = append(p.Existing, e)
	}
	for range rapid.IntRange(0, 3).Draw(t, "conflicts") {
		p.Conflicts = append(p.Conflicts, [2]int{
			rapid.IntRange(0, kinds-1).Draw(t, "a"), rapid.IntRange(0, kinds-1).Draw(t, "b")})
	}
	return p
}

func TestTinyProblemsAgreeWithEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		r, err := Solve(p)
		require.NoError(t, err)
		require.NoError(t, Check(p, r))
		want := bruteForce(p)
		got := [aims]int64{r.Missing.Used, r.Width.Used, r.Opened.Used, r.Cost.Used}
		require.Equal(t, want, got)
		for _, f := range []Bounded{r.Missing, r.Width, r.Opened, r.Cost} {
			require.True(t, f.Proved, f.Why)
		}
		require.NoError(t, r.Certificate.Verify(p))
	})
}
