package panel

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/codes/outside"
)

// 320 public sets of numbers with the optimum difference of two sums: the
// repository arnaud-m/partition (MIT licence). Two legs without spaces to keep
// to are that problem. The sets are not part of the module.
func TestSplitMatchesPublicPartitions(t *testing.T) {
	var sets []struct {
		ID         int
		Numbers    []int64
		Difference int64 `json:"optimal_difference"`
	}
	require.NoError(t, json.Unmarshal(outside.Reference(t, "partition", "packing", "partition", "two_way_partition.json"), &sets))
	assert.Len(t, sets, 320)
	c := outside.Compare(t, outside.Tool{Name: "public optima"}, "panel balance", "difference of two sums of public partition sets", 0, "units", 0)
	for _, s := range sets {
		leg, worst, bound := Split(2, s.Numbers, Work{})
		var sums [2]int64
		for i, x := range s.Numbers {
			sums[leg[i]] += x
		}
		assert.Equal(t, max(sums[0], sums[1]), worst, "set %d", s.ID)
		c.Case(math.Abs(float64(s.Difference-(max(sums[0], sums[1])-min(sums[0], sums[1])))), "set %d", s.ID)
		assert.Equal(t, worst, bound, "set %d is proved", s.ID)
	}
}

// Every division of a few loads over two and three legs is tried.
func TestSplitIsExactOnFewLoads(t *testing.T) {
	compare := func(rt *rapid.T) {
		legs := rapid.IntRange(1, 3).Draw(rt, "legs")
		loads := rapid.SliceOfN(rapid.Int64Range(0, 100), 0, 8).Draw(rt, "loads")
		sums := make([]int64, legs)
		best := int64(-1)
		var try func(int)
		try = func(i int) {
			if i == len(loads) {
				if w := slices.Max(sums); best < 0 || w < best {
					best = w
				}
				return
			}
			for l := range sums {
				sums[l] += loads[i]
				try(i + 1)
				sums[l] -= loads[i]
			}
		}
		try(0)
		leg, worst, bound := Split(legs, loads, Work{})
		for i, x := range loads {
			sums[leg[i]] += x
		}
		assert.Equal(rt, best, worst)
		assert.Equal(rt, best, bound)
		assert.Equal(rt, best, slices.Max(sums))
	}
	for range rounds / 4 {
		rapid.Check(t, compare)
	}
}

// Six loads of 28 A together. By hand: an equal share of three legs is 9⅓ A, so
// no division of whole amperes has less than 10 A on its worst leg; 7 + 3, 7 + 1
// and 5 + 5 has that.
func ExampleSplit() {
	_, worst, bound := Split(3, []int64{7, 7, 5, 5, 3, 1}, Work{})
	fmt.Println(worst, bound)
	// Output: 10 10
}
