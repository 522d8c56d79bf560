package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A room of a thousand small lights of thirty kinds, invented, which fill sixteen bins but
// for an eighth of a percent, is settled without a search; largest first needs seventeen.
func TestManySmallItemsAreSpreadWithoutASearch(t *testing.T) {
	p := Problem{Resources: 1, Bins: []BinKind{{Limits: []int64{16_000}, Width: 1, Cost: 1}}, Limits: Work{Nodes: 1, Pivots: 1, Entries: 1_000_000}}
	for _, x := range []struct {
		count int
		size  int64
	}{{38, 407}, {27, 400}, {48, 393}, {36, 385}, {25, 377}, {46, 370}, {34, 332}, {23, 324}, {44, 316}, {32, 308}, {53, 299}, {42, 291}, {30, 282}, {32, 273}, {22, 242}, {44, 234}, {34, 225}, {24, 216}, {46, 206}, {23, 197}, {46, 187}, {36, 177}, {17, 153}, {42, 143}, {26, 134}, {12, 123}, {33, 113}, {19, 103}, {39, 92}, {27, 81}} {
		p.Kinds = append(p.Kinds, Kind{Count: x.count, Forms: []Form{{Uses: []int64{x.size}}}})
	}
	r, err := Solve(p)
	require.NoError(t, err)
	require.NoError(t, Check(p, r))
	require.True(t, r.Width.Proved, r.Width.Why)
	require.Equal(t, int64(16), r.Width.Used)

	model := reduce(&p)
	c := model.split()[0]
	s := newSolver(c, Work{}.share(1))
	s.offer(s.whole(aimMissing), s.greedy(c.need, c.allRoom(), style{}))
	require.Equal(t, int64(17), s.best.score[aimWidth], "largest first")
}

// Whatever is spread is a plan, and no worse than what there was.
func TestWhatIsSpreadHolds(t *testing.T) {
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Int64Range(50, 2000).Draw(t, "limit")
		p := Problem{Resources: 2, Bins: []BinKind{{Limits: []int64{limit, 100}, Width: rapid.IntRange(1, 3).Draw(t, "width"), Cost: 1}}}
		for range rapid.IntRange(1, 8).Draw(t, "kinds") {
			p.Kinds = append(p.Kinds, Kind{Count: rapid.IntRange(1, 60).Draw(t, "count"),
				Forms: []Form{{Uses: []int64{rapid.Int64Range(1, limit/3).Draw(t, "size"), rapid.Int64Range(0, 20).Draw(t, "share")}}}})
		}
		model := reduce(&p)
		for _, c := range model.split() {
			s := newSolver(c, Work{}.share(1))
			task := s.whole(aimMissing)
			s.offer(task, s.greedy(task.need, task.room, style{}))
			s.cheapBounds()
			before := s.best.score[aimWidth]
			s.spread(task) // panics where it is no plan
			require.LessOrEqual(t, s.best.score[aimWidth], before)
			require.GreaterOrEqual(t, s.best.score[aimWidth], s.bound[aimWidth])
			if s.best.score[aimWidth] < before {
				better++
			}
		}
	})
	t.Log(better, "better than largest first")
}
