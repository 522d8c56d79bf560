package packing

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// checkCase is a problem with everything that Check looks at, and a sound
// result of it.
func checkCase() (Problem, Result) {
	p := Problem{
		Resources: 2,
		Kinds: []Kind{
			{4, []Form{{0, []int64{5, 1}}, {1, []int64{3, 1}}}},
			{2, []Form{{0, []int64{4, 1}}}},
			{2, []Form{{0, []int64{1, 1}}}},
		},
		Bins: []BinKind{
			{Family: 0, Limits: []int64{10, 3}, Width: 1, Cost: 7, AtMost: []int{0, 0, 1}},
			{Family: 1, Limits: []int64{9, 2}, Width: 2, Cost: 5, Max: 1, Allow: []bool{true, false, false}},
		},
		Existing:  []Existing{{Family: 0, Limits: []int64{6, 2}, Holds: []int{1}}},
		Conflicts: [][2]int{{1, 2}},
	}
	r := Result{
		Bins: []Bin{
			{Kind: 0, Existing: -1, Holds: []int{2, 0, 0}},
			{Kind: 0, Existing: -1, Holds: []int{1, 0, 1}},
			{Kind: 0, Existing: -1, Holds: []int{0, 2, 0}},
			{Kind: -1, Existing: 0, Holds: []int{1, 0, 0}},
		},
		Unplaced: []int{0, 0, 1},
		Missing:  Bounded{1, 0, false, ""},
		Width:    Bounded{3, 3, true, ""},
		Opened:   Bounded{3, 2, false, ""},
		Cost:     Bounded{21, 0, false, ""},
	}
	return p, r
}

func TestCheckAcceptsASoundResult(t *testing.T) {
	p, r := checkCase()
	require.NoError(t, Check(p, r))
}

func TestCheckRefusesBrokenResults(t *testing.T) {
	for _, c := range []struct {
		why   string
		broke func(p *Problem, r *Result)
		want  string
	}{
		{"an item is lost", func(_ *Problem, r *Result) { r.Unplaced[2] = 0 }, "kind 2: 1 placed and 0 unplaced, want 2"},
		{"an item is placed twice", func(_ *Problem, r *Result) { r.Bins[1].Holds[0] = 2 }, "over its limit"},
		{"unplaced is short", func(_ *Problem, r *Result) { r.Unplaced = r.Unplaced[1:] }, "unplaced has 2 entries, want 3"},
		{"the main size is exceeded", func(p *Problem, _ *Result) { p.Bins[0].Limits[0] = 9 }, "resource 0 is over its limit 9"},
		{"the second resource is exceeded", func(p *Problem, _ *Result) { p.Bins[0].Limits[1] = 1 }, "resource 1 is over its limit 1"},
		{"an existing bin is overfilled", func(p *Problem, _ *Result) { p.Existing[0].Limits[0] = 4 }, "resource 0 is over its limit 4"},
		{"too many of one kind", func(_ *Problem, r *Result) { r.Bins[0].Holds, r.Unplaced[2] = []int{0, 0, 2}, 0 }, "2 of kind 2, at most 1"},
		{"opponents share a bin", func(p *Problem, _ *Result) { p.Conflicts[0] = [2]int{0, 2} }, "conflict"},
		{"an opponent is already inside", func(p *Problem, _ *Result) { p.Conflicts[0] = [2]int{0, 1} }, "conflict"},
		{"a kind opposes itself", func(p *Problem, _ *Result) { p.Conflicts[0] = [2]int{0, 0} }, "conflicts with itself"},
		{"a kind is refused", func(p *Problem, _ *Result) { p.Bins[0].Allow = []bool{true, false, true} }, "kind 1 is not allowed"},
		{"a kind has no form there", func(_ *Problem, r *Result) { r.Bins[2].Kind = 1 }, "no form of family 1"},
		{"too many bins", func(p *Problem, _ *Result) { p.Bins[0].Max = 2 }, "3 bins of kind 0 opened, at most 2"},
		{"an existing bin is used twice", func(_ *Problem, r *Result) { r.Bins = append(r.Bins, r.Bins[3]) }, "filled twice"},
		{"a bin is empty", func(_ *Problem, r *Result) {
			r.Bins = append(r.Bins, Bin{Kind: 0, Existing: -1, Holds: make([]int, 3)})
		}, "is empty"},
		{"a bin is of no kind", func(_ *Problem, r *Result) { r.Bins[0].Kind = 9 }, "name no bin"},
		{"a bin is of a kind and existing", func(_ *Problem, r *Result) { r.Bins[0].Existing = 0 }, "name no bin"},
		{"a count is negative", func(_ *Problem, r *Result) { r.Bins[0].Holds[1] = -1 }, "holds -1 of kind 1"},
		{"holds is short", func(_ *Problem, r *Result) { r.Bins[0].Holds = nil }, "holds has 0 entries, want 3"},
		{"the missing are miscounted", func(_ *Problem, r *Result) { r.Missing.Used = 0 }, "missing is given as 0"},
		{"the width is wrong", func(_ *Problem, r *Result) { r.Width.Used = 2 }, "width is given as 2"},
		{"the number is wrong", func(_ *Problem, r *Result) { r.Opened.Used = 2 }, "opened is given as 2"},
		{"the cost is wrong", func(_ *Problem, r *Result) { r.Cost.Used = 20 }, "cost is given as 20"},
		{"a bound is above the value", func(_ *Problem, r *Result) { r.Cost.Bound = 22 }, "bound 22 is above the value 21"},
		{"proved without proof", func(_ *Problem, r *Result) { r.Cost.Proved = true }, "proved is true, bound 0"},
		{"the problem is malformed", func(p *Problem, _ *Result) { p.Resources = 0 }, "resources is 0"},
	} {
		t.Run(c.why, func(t *testing.T) {
			p, r := checkCase()
			for i := range r.Bins {
				r.Bins[i].Holds = slices.Clone(r.Bins[i].Holds)
			}
			c.broke(&p, &r)
			require.ErrorContains(t, Check(p, r), c.want)
		})
	}
}

func TestMalformedProblemsAreRefused(t *testing.T) {
	for _, c := range []struct {
		why   string
		broke func(p *Problem)
		want  string
	}{
		{"no resource", func(p *Problem) { p.Resources = 0 }, "resources is 0, want at least 1"},
		{"negative count", func(p *Problem) { p.Kinds[0].Count = -1 }, "kind 0: count is -1"},
		{"too many items", func(p *Problem) { p.Kinds[0].Count, p.Kinds[1].Count = maxItems, 1 }, "items in all"},
		{"no form", func(p *Problem) { p.Kinds[1].Forms = nil }, "kind 1: no form"},
		{"two forms of a family", func(p *Problem) { p.Kinds[0].Forms[1].Family = 0 }, "kind 0: two forms in family 0"},
		{"uses too short", func(p *Problem) { p.Kinds[0].Forms[0].Uses = []int64{1} }, "kind 0: uses has 1 entries, want 2"},
		{"negative use", func(p *Problem) { p.Kinds[0].Forms[0].Uses[1] = -3 }, "kind 0: uses has -3 for resource 1"},
		{"limit too large", func(p *Problem) { p.Bins[0].Limits[0] = maxUse + 1 }, "bin kind 0: limits has"},
		{"negative width", func(p *Problem) { p.Bins[0].Width = -1 }, "bin kind 0: width is -1"},
		{"negative cost", func(p *Problem) { p.Bins[0].Cost = -1 }, "bin kind 0: cost is -1"},
		{"negative max", func(p *Problem) { p.Bins[0].Max = -1 }, "bin kind 0: max is -1"},
		{"allow too long", func(p *Problem) { p.Bins[0].Allow = make([]bool, 9) }, "bin kind 0: allow has 9 entries, want none or 3"},
		{"at most too short", func(p *Problem) { p.Bins[0].AtMost = []int{1} }, "bin kind 0: at most has 1 entries, want none or 3"},
		{"negative at most", func(p *Problem) { p.Bins[0].AtMost[1] = -2 }, "bin kind 0: at most -2 of kind 1"},
		{"existing limits", func(p *Problem) { p.Existing[0].Limits = nil }, "existing bin 0: limits has 0 entries"},
		{"holds an unknown kind", func(p *Problem) { p.Existing[0].Holds = []int{3} }, "existing bin 0: holds kind 3, want 0 to 2"},
		{"conflict of an unknown kind", func(p *Problem) { p.Conflicts[0][1] = -1 }, "conflict 0: kind -1, want 0 to 2"},
		{"negative work", func(p *Problem) { p.Limits.Pivots = -1 }, "work limits are 0, -1 and 0"},
	} {
		t.Run(c.why, func(t *testing.T) {
			p, _ := checkCase()
			c.broke(&p)
			_, err := Solve(p)
			require.ErrorContains(t, err, c.want)
		})
	}
}
