package panel

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// drawBoard draws a small board with some spaces taken and classes as a division
// over legs makes them.
func drawBoard(rt *rapid.T) (*board, []class) {
	sys := system(rt, rapid.SampledFrom([]string{splitPhase, wye208}).Draw(rt, "system"))
	spaces := rapid.IntRange(4, 14).Draw(rt, "spaces")
	b, _ := newBoard(sys, spaces, drawFixed(rt, sys, spaces, 4), Day{})
	var classes []class
	for poles := sys.Legs; poles >= 1; poles-- {
		for leg := range sys.Legs {
			c := class{poles, 1 << leg, rapid.IntRange(0, 2).Draw(rt, "count")}
			if poles == sys.Legs {
				c.top = b.anyLeg()
			}
			if c.count > 0 && (poles < sys.Legs || leg == 0) {
				classes = append(classes, c)
			}
		}
	}
	return b, classes
}

// plainly tries every place of every breaker, class by class, with none of the
// shortcuts of the fill.
func plainly(b *board, taken []bool, classes []class, from int) bool {
	if len(classes) == 0 {
		return true
	}
	c := classes[0]
	if c.count == 0 {
		return plainly(b, taken, classes[1:], 1)
	}
	for first := from; first <= b.spaces; first++ {
		at := Takes(first, c.poles)
		if !c.top.has(LegOf(b.sys, first)) || slices.ContainsFunc(at, func(s int) bool { return s > b.spaces || taken[s] }) {
			continue
		}
		next := slices.Clone(taken)
		for _, s := range at {
			next[s] = true
		}
		rest := slices.Clone(classes)
		rest[0].count--
		if plainly(b, next, rest, first+1) {
			return true
		}
	}
	return false
}

func TestFillFindsAPlaceWhereThereIsOne(t *testing.T) {
	answers := map[verdict]int{}
	compare := func(rt *rapid.T) {
		b, classes := drawBoard(rt)
		tries := int64(1_000_000)
		at, v := b.place(b.rows(), classes, largestFirst(classes), &tries)
		answers[v]++
		assert.Equal(rt, plainly(b, b.taken, classes, 1), v == fits)
		if v != fits {
			return
		}
		taken := slices.Clone(b.taken)
		left := slices.Clone(classes)
		for _, p := range at {
			c := &left[p.class]
			c.count--
			assert.True(rt, c.top.has(LegOf(b.sys, p.first)))
			for _, s := range Takes(p.first, c.poles) {
				assert.False(rt, taken[s], "space %d", s)
				taken[s] = true
			}
		}
		for _, c := range left {
			assert.Zero(rt, c.count)
		}
	}
	for range rounds {
		rapid.Check(t, compare)
	}
	assert.Positive(t, answers[fits])
	assert.Positive(t, answers[fitsNot])
	assert.Zero(t, answers[cannotTell])
}

// A fill that runs out of tries says so and does not say no.
func TestFillOutOfTriesCannotTell(t *testing.T) {
	b, _ := newBoard(system(t, wye208), 8, nil, Day{}) // rows A, B, C, A: all taken, none to leave blank
	classes := []class{{1, 1 << legA, 4}, {1, 1 << legB, 2}, {1, 1 << legC, 2}}
	tries := int64(2)
	_, v := b.place(b.rows(), classes, largestFirst(classes), &tries)
	assert.Equal(t, cannotTell, v)
}

// A layout that cannot be drawn in the order of IDs is drawn largest first.
func TestLayoutIsDrawnWhereTheGuideRunsOut(t *testing.T) {
	wye := system(t, wye208)
	wants := append(equalWants(1, 3, 1, 400), equalWants(4, 3, 2, 900)...)
	b, _ := newBoard(wye, 12, wants, Day{})
	ranked := byRank(wants, b.placeable(wants))
	kinds := b.kindsOf(wants, ranked)
	s := spread{{1, 1, 1}, {1, 1, 1}}
	for _, tries := range []int64{0, settleTries} {
		tops := b.draw(b.rows(), kinds, s, ranked, tries)
		assert.Len(t, tops, len(wants))
		counts := map[[2]int]int{}
		for want, top := range tops {
			counts[[2]int{wants[want].Poles, LegOf(wye, top)}]++
		}
		assert.Len(t, counts, 6, "one of each on each leg")
	}
}
