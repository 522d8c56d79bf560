package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawProgram draws a covering program; no column is free, so it is bounded,
// and every row is served by some column, so that it can be met.
func drawProgram(t *rapid.T) *simplex {
	m := Work{}.share(1)
	rows := rapid.IntRange(1, 8).Draw(t, "rows")
	s := newSimplex(m, 1e6)
	for range rows {
		s.addRow(true, float64(rapid.IntRange(0, 40).Draw(t, "rhs")))
	}
	entry := rapid.IntRange(0, 4)
	for j := range rapid.IntRange(0, 15).Draw(t, "columns") + rows {
		c := column{price: float64(rapid.IntRange(1, 9).Draw(t, "price"))}
		for r := range rows {
			n := entry.Draw(t, "entry")
			if r == j {
				n++
			}
			if n > 0 {
				c.rows = append(c.rows, int32(r))
				c.coefs = append(c.coefs, float64(n))
			}
		}
		s.addColumn(c)
	}
	return s
}

// requireOptimal checks the three conditions that together prove a solution
// optimal: values meet the rows, prices meet the columns, both totals agree.
func requireOptimal(t require.TestingT, s *simplex) {
	const tol = 1e-6
	s.rowPrices()
	got := make([]float64, len(s.rhs))
	total := 0.0
	for i, v := range s.basis {
		require.GreaterOrEqual(t, s.x[i], -tol)
		if v >= 0 {
			total += s.cols[v].price * s.x[i]
			s.entryOf(v, func(r int, c float64) { got[r] += c * s.x[i] })
		}
	}
	prices := 0.0
	for r, want := range s.rhs {
		if s.least[r] {
			require.GreaterOrEqual(t, got[r], want-tol)
			require.GreaterOrEqual(t, s.y[r], -tol)
		} else {
			require.LessOrEqual(t, got[r], want+tol)
			require.LessOrEqual(t, s.y[r], tol)
		}
		prices += s.y[r] * want
	}
	for j := range s.cols {
		require.GreaterOrEqual(t, s.reduced(j), -tol)
	}
	require.InDelta(t, total, prices, tol*(1+total))
}

func TestSimplexEndsOptimal(t *testing.T) {
	rounds(t, 5, func(t *rapid.T) {
		s := drawProgram(t)
		s.start(nil)
		s.solve()
		requireOptimal(t, s)
	})
}

// TestSimplexFollowsChanges changes right sides, adds columns and starts again
// from the old basis, as dives and branching do.
func TestSimplexFollowsChanges(t *testing.T) {
	rounds(t, 5, func(t *rapid.T) {
		s := drawProgram(t)
		s.start(nil)
		s.solve()
		for range 3 {
			for r := range s.rhs {
				s.rhs[r] = float64(rapid.IntRange(0, 40).Draw(t, "new rhs"))
			}
			r := int32(rapid.IntRange(0, len(s.rhs)-1).Draw(t, "row"))
			s.addColumn(column{price: 1, rows: []int32{r}, coefs: []float64{2}})
			if rapid.Bool().Draw(t, "restart") {
				s.start(append([]int(nil), s.basis...))
			}
			s.values()
			s.solve()
			requireOptimal(t, s)
		}
	})
}

// TestSimplexKeepsAtMostRows limits the first column of a two-row program:
// 10 of each row are wanted, the good column serves both and is limited to 4.
func TestSimplexKeepsAtMostRows(t *testing.T) {
	s := newSimplex(Work{}.share(1), 1e6)
	s.addRow(true, 10)
	s.addRow(true, 10)
	s.addRow(false, 4)
	s.addColumn(column{1, []int32{0, 1, 2}, []float64{1, 1, 1}})
	s.addColumn(column{1, []int32{0}, []float64{1}})
	s.addColumn(column{1, []int32{1}, []float64{1}})
	s.start(nil)
	s.solve()
	requireOptimal(t, s)
	require.InDelta(t, 16, s.objective(), 1e-6)
}
