package circuits_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Rows of four, there and back: unit 4 stands above unit 3, unit 7 above unit 0,
// unit 8 above that.
func TestEveryOtherRowIsWalkedBack(t *testing.T) {
	for n, want := range map[int][2]int{0: {0, 0}, 3: {0, 3}, 4: {1, 3}, 7: {1, 0}, 8: {2, 0}} {
		row, at := circuits.Place(n, 4)
		assert.Equal(t, want, [2]int{row, at}, "unit %d", n)
	}
	g, ok := circuits.GridOf(inventory.Room{Length: units.Is(16 * units.Foot), Width: units.Is(12 * units.Foot), Spacing: units.Is(4 * units.Foot)}, 12)
	require.True(t, ok)
	assert.Equal(t, 4, g.PerRow)
	assert.Equal(t, 3, g.Rows)
	assert.Equal(t, 4*units.Foot, g.From(7), "one pitch of 4 ft above the first")
	assert.Equal(t, 16*units.Foot, g.From(4), "three spacings along, one pitch across")
}
