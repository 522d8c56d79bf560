package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rounds runs a property on more problems than rapid draws by itself.
func rounds(t *testing.T, n int, property func(*rapid.T)) {
	for range n {
		rapid.Check(t, property)
	}
}

func score(r Result) [aims]int64 {
	return [aims]int64{r.Missing.Used, r.Width.Used, r.Opened.Used, r.Cost.Used}
}

func requireProved(t require.TestingT, r Result) {
	for _, f := range []Bounded{r.Missing, r.Width, r.Opened, r.Cost} {
		require.True(t, f.Proved, f.Why)
		require.NotEmpty(t, f.Why)
	}
}

// TestTinyProblemsAgreeWithEnumeration solves small problems with everything in
// them and compares all four figures with complete enumeration. The large unit
// makes sizes that no table can list one by one.
func TestTinyProblemsAgreeWithEnumeration(t *testing.T) {
	for unit, n := range map[int64]int{1: 4, 1_000_003: 1} {
		rounds(t, n, func(t *rapid.T) {
			p := drawProblem(t, unit)
			r, err := Solve(p)
			require.NoError(t, err)
			require.NoError(t, Check(p, r))
			require.Equal(t, bruteForce(p), score(r))
			requireProved(t, r)
			require.NoError(t, r.Certificate.Verify(p))
		})
	}
}

// drawCrowd draws a problem of middling size: too large to enumerate.
func drawCrowd(t *rapid.T) Problem {
	p := Problem{Resources: 2}
	for range rapid.IntRange(1, 8).Draw(t, "kinds") {
		uses := []int64{rapid.Int64Range(3, 120).Draw(t, "size"), rapid.Int64Range(0, 9).Draw(t, "second")}
		p.Kinds = append(p.Kinds, Kind{rapid.IntRange(1, 40).Draw(t, "count"), []Form{{0, uses}}})
	}
	for range rapid.IntRange(1, 3).Draw(t, "bins") {
		p.Bins = append(p.Bins, BinKind{
			Limits: []int64{rapid.Int64Range(120, 400).Draw(t, "limit"), rapid.Int64Range(9, 40).Draw(t, "second limit")},
			Width:  rapid.IntRange(1, 2).Draw(t, "width"), Cost: rapid.Int64Range(50, 200).Draw(t, "cost"),
		})
	}
	n := len(p.Kinds)
	for range rapid.IntRange(0, n/2).Draw(t, "conflicts") {
		p.Conflicts = append(p.Conflicts, [2]int{
			rapid.IntRange(0, n-1).Draw(t, "a"), rapid.IntRange(0, n-1).Draw(t, "b")})
	}
	return p
}

func solved(t require.TestingT, p Problem) Result {
	r, err := Solve(p)
	require.NoError(t, err)
	require.NoError(t, Check(p, r))
	require.NoError(t, r.Certificate.Verify(p))
	require.LessOrEqual(t, r.Certificate.Bound, r.Width.Bound)
	return r
}

func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		q := p
		to := rapid.Permutation(indices(len(p.Kinds))).Draw(t, "order")
		q.Kinds = make([]Kind, len(p.Kinds))
		for k, at := range to {
			q.Kinds[at] = p.Kinds[k]
		}
		q.Conflicts = nil
		for _, c := range p.Conflicts {
			q.Conflicts = append(q.Conflicts, [2]int{to[c[1]], to[c[0]]})
		}
		q.Bins = rapid.Permutation(p.Bins).Draw(t, "bins")
		require.Equal(t, score(solved(t, p)), score(solved(t, q)))
	})
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestMoreCapacityNeverCostsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		before := score(solved(t, p))
		for i := range p.Bins {
			p.Bins[i].Limits = []int64{
				p.Bins[i].Limits[0] + rapid.Int64Range(0, 60).Draw(t, "more"),
				p.Bins[i].Limits[1] + rapid.Int64Range(0, 5).Draw(t, "more of the second")}
		}
		require.False(t, better(before, score(solved(t, p))))
	})
}

func TestAnotherBinKindNeverCostsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		before := score(solved(t, p))
		p.Bins = append(p.Bins, BinKind{Limits: []int64{rapid.Int64Range(50, 500).Draw(t, "limit"), 20}, Width: 1, Cost: 90})
		p.Existing = append(p.Existing, Existing{Limits: []int64{60, 5}})
		require.False(t, better(before, score(solved(t, p))))
	})
}

func TestDoublingTheItemsAtMostDoublesThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		twice := score(solved(t, p))
		for a := range twice {
			twice[a] *= 2
		}
		for k := range p.Kinds {
			p.Kinds[k].Count *= 2
		}
		require.False(t, better(twice, score(solved(t, p))))
	})
}

func TestEqualProblemsGetEqualPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		require.Equal(t, solved(t, p), solved(t, p))
	})
}

// TestWorkLimitsAreSaid cuts the work short: the plan still holds, the bounds
// still bound, and what is open is said.
func TestWorkLimitsAreSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawCrowd(t)
		want := score(solved(t, p))
		p.Limits = Work{
			Nodes:   rapid.IntRange(1, 3).Draw(t, "nodes"),
			Pivots:  rapid.IntRange(1, 60).Draw(t, "pivots"),
			Entries: rapid.Int64Range(1, 20_000).Draw(t, "entries"),
		}
		r := solved(t, p)
		require.Equal(t, r, solved(t, p))
		require.LessOrEqual(t, r.Width.Bound, want[aimWidth])
		require.False(t, better(score(r), want))
		for _, f := range []Bounded{r.Missing, r.Width, r.Opened, r.Cost} {
			require.NotEmpty(t, f.Why)
		}
	})
}

func TestItemsThatFitNowhereAreNamed(t *testing.T) {
	p := Problem{
		Resources: 1,
		Kinds: []Kind{
			{2, []Form{{0, []int64{11}}}},
			{3, []Form{{0, []int64{4}}}},
			{1, []Form{{7, []int64{1}}}},
		},
		Bins: []BinKind{{Limits: []int64{10}, Width: 1}},
	}
	r := solved(t, p)
	require.Equal(t, []int{2, 0, 1}, r.Unplaced)
	require.Equal(t, Bounded{Used: 3, Bound: 3, Proved: true, Why: r.Missing.Why}, r.Missing)
	require.EqualValues(t, 2, r.Width.Used)
}

// TestBinsRunOut leaves out as few items as possible: two bins of 10 hold five
// fours only if no six is inside.
func TestBinsRunOut(t *testing.T) {
	p := Problem{
		Resources: 1,
		Kinds:     []Kind{{2, []Form{{0, []int64{6}}}}, {5, []Form{{0, []int64{4}}}}},
		Bins:      []BinKind{{Limits: []int64{10}, Width: 1, Max: 2}},
	}
	r := solved(t, p)
	require.EqualValues(t, 3, r.Missing.Used)
	require.True(t, r.Missing.Proved)
}

// TestNothingToPlace holds for no kinds, no items and no bins.
func TestNothingToPlace(t *testing.T) {
	for _, p := range []Problem{
		{Resources: 1},
		{Resources: 1, Bins: []BinKind{{Limits: []int64{5}, Width: 1}}},
		{Resources: 1, Kinds: []Kind{{0, []Form{{0, []int64{3}}}}}, Bins: []BinKind{{Limits: []int64{5}, Width: 1}}},
	} {
		r := solved(t, p)
		requireProved(t, r)
		require.Zero(t, score(r))
	}
}

// TestEqualCellsAreSolvedOnce gives a hundred equal rooms equal plans.
func TestEqualCellsAreSolvedOnce(t *testing.T) {
	p := Problem{Resources: 1}
	for f := range 100 {
		p.Kinds = append(p.Kinds, Kind{7, []Form{{f, []int64{31}}}}, Kind{9, []Form{{f, []int64{17}}}})
		p.Bins = append(p.Bins, BinKind{Family: f, Limits: []int64{80}, Width: 2, Cost: 3})
	}
	r := solved(t, p)
	one := p
	one.Kinds, one.Bins = p.Kinds[:2], p.Bins[:1]
	want := score(solved(t, one))
	for a := range want {
		want[a] *= 100
	}
	require.Equal(t, want, score(r))
	requireProved(t, r)
}

// TestManyConflictsEndInTime has thirty kinds in ten triples at odds with each
// other: 59,049 ways to choose one of each.
func TestManyConflictsEndInTime(t *testing.T) {
	p := Problem{Resources: 1, Bins: []BinKind{{Limits: []int64{200}, Width: 1, Cost: 3}}}
	for k := range 30 {
		p.Kinds = append(p.Kinds, Kind{2 + k%5, []Form{{0, []int64{int64(7 + 5*k%83)}}}})
		if k%3 > 0 {
			p.Conflicts = append(p.Conflicts, [2]int{k, k - 1})
		}
		if k%3 == 2 {
			p.Conflicts = append(p.Conflicts, [2]int{k, k - 2})
		}
	}
	requireProved(t, solved(t, p))
}
