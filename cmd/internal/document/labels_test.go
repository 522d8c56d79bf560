package document

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/units"
)

// Every leg's current stands under its own name; shares are given in per cent and
// trip thresholds in milliamperes, as their keys promise.
func TestFiguresStandUnderTheirNames(t *testing.T) {
	p := panel(circuits.Panel{Name: "LP1", LegNames: []string{"A", "B", "C"}, Legs: []units.Current{10, 4, 7}, Imbalance: 0.25}, nil)
	assert.Equal(t, map[string]float64{"A": 10, "B": 4, "C": 7}, p.LegAmps)
	assert.InDelta(t, 25, *p.ImbalancePercent, 1e-9)
	trip := protection(codes.Protection{Needed: true, Trip: 4 * units.Milliampere}).TripMA
	if assert.NotNil(t, trip) {
		assert.InDelta(t, 4, *trip, 1e-9)
	}
}

// The numbers of a circuit's units end with its own last one.
func TestUnitsAreNumberedToTheLastOne(t *testing.T) {
	for _, x := range []struct {
		first, step, count int
		want               string
	}{{0, 1, 3, ""}, {7, 1, 1, "7"}, {4, 1, 3, "4-6"}, {1, 2, 2, "1, 3"}, {1, 2, 5, "1, 3 to 9"}} {
		assert.Equal(t, x.want, UnitNumbers(x.first, x.step, x.count))
	}
}
