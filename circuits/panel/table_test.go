package panel

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// state is a cell without the way that led to it.
type state struct {
	a, b int64
	tops tops
}

// drawParts draws a few kinds of breakers on a wye and cuts them into parts.
func drawParts(rt *rapid.T) []part {
	wye := system(rt, wye208)
	b, _ := newBoard(wye, 42, nil, Day{})
	var wants []Want
	for range rapid.IntRange(1, 3).Draw(rt, "kinds") {
		wants = append(wants, equalWants(len(wants), rapid.IntRange(1, 3).Draw(rt, "count"),
			rapid.IntRange(1, 2).Draw(rt, "poles"), rapid.Int64Range(0, 20).Draw(rt, "amps"))...)
	}
	b.look(Day{}, wants)
	return b.partsOf(b.kindsOf(wants, byRank(wants, b.placeable(wants))), false)
}

// everyState follows every way of every part.
func everyState(parts []part, at state, into map[state]bool) {
	if len(parts) == 0 {
		into[at] = true
		return
	}
	for _, w := range parts[0].ways {
		everyState(parts[1:], state{at.a + int64(w.sums[0]), at.b + int64(w.sums[1]), at.tops + w.tops}, into)
	}
}

func TestTableHoldsEveryReachableState(t *testing.T) {
	cut := 0
	rapid.Check(t, func(rt *rapid.T) {
		parts := drawParts(rt)
		want := map[state]bool{}
		everyState(parts, state{}, want)
		free := rules{legs: 3, moments: []moment{everythingOn}, most: math.MaxInt32, slots: []int{99, 99, 99}}
		states := func(size room, budget int64) (map[state]bool, table) {
			got := tabulate(parts, make([]vector, 3), free, size, &budget)
			set := map[state]bool{}
			for _, c := range got.cells {
				set[state{int64(c.sums[0]), int64(c.sums[1]), c.tops}] = true
			}
			assert.Len(rt, set, len(got.cells), "equal states once")
			return set, got
		}

		all, whole := states(room{cells: 1 << 20}, 1<<40)
		assert.Equal(rt, want, all)
		assert.True(rt, whole.whole)

		small := rapid.IntRange(1, 20).Draw(rt, "room")
		some, table := states(room{cells: small}, 1<<40)
		assert.LessOrEqual(rt, len(some), small)
		assert.NotEmpty(rt, some)
		assert.Subset(rt, want, some)
		if len(some) < len(want) {
			cut++
			assert.False(rt, table.whole, "states are missing")
			_, none := states(room{cells: small, whole: true}, 1<<40)
			assert.Empty(rt, none.cells)
			assert.False(rt, none.whole)
		}

		hurried, table := states(room{cells: 1 << 20}, rapid.Int64Range(0, 50).Draw(rt, "budget"))
		assert.NotEmpty(rt, hurried)
		if len(hurried) < len(want) {
			assert.False(rt, table.whole, "states are missing")
		}
	})
	assert.Positive(t, cut)
}

// The way back from a cell adds up to the cell.
func TestWalkLeadsToTheCell(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b, _ := newBoard(system(rt, wye208), 42, nil, Day{})
		wants := append(equalWants(0, rapid.IntRange(1, 12).Draw(rt, "ones"), 1, 7), equalWants(20, rapid.IntRange(1, 6).Draw(rt, "twos"), 2, 5)...)
		b.look(Day{}, wants)
		kinds := b.kindsOf(wants, byRank(wants, b.placeable(wants)))
		budget := int64(1 << 40)
		table := tabulate(b.partsOf(kinds, false), make([]vector, 3), rules{3, b.moments, math.MaxInt32, []int{99, 99, 99}}, room{cells: 50}, &budget)
		for i, c := range table.cells {
			s := make(spread, len(kinds))
			table.walk(int32(i), s)
			sums := b.sums(kinds, s)
			x, y, z := c.sums.legs(0, table.total[0])
			assert.Equal(rt, []vector{{x}, {y}, {z}}, sums)
			for k, kd := range kinds {
				assert.Equal(rt, len(kd.wants), s[k][0]+s[k][1]+s[k][2])
			}
		}
	})
}

func TestSmallestIsThePlaceInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.Int64Range(-9, 9), 1, 40).Draw(t, "list")
		n := rapid.IntRange(0, len(list)-1).Draw(t, "n")
		require.Equal(t, slices.Sorted(slices.Values(list))[n], smallest(slices.Clone(list), n))
	})
}
