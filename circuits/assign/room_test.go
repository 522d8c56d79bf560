package assign_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/codes/book"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// What is asked once for items that are alike holds for each of them: where something
// that decides nothing tells them apart, each is asked for itself and says the same.
func TestRoomIsThatOfEachAlikeItem(t *testing.T) {
	p, _ := book.Profile(book.Default)
	site := func(apart bool) []assign.Room {
		inv := room(t, "120/240 V 1ph")
		circuits := []inventory.Circuit{wired("LP1-1", 1, 20, "12 AWG"), wired("LP1-2", 2, 15, "14 AWG"), wired("LP1-3", 3, 20, "12 AWG")}
		for i := range 12 {
			light := at120(inventory.Fixtures, fmt.Sprintf("bar-%d", i+1), 1, 100+units.Power(50*(i%2)), 0.95, units.Unknown[bool](""))
			light.Room, light.Hours = "flower", hours(t, "06:00-18:00")
			if apart {
				light.Basis = units.Is(fmt.Sprintf("label %d", i))
			}
			inv.Items = append(inv.Items, light)
			c := &circuits[i%2]
			c.Feeds = append(c.Feeds, inventory.Fed{Item: light.Name, Count: 1})
		}
		inv.Circuits = circuits
		set := build(inv, p)
		built, err := assign.AsBuilt(inv, set, p)
		require.NoError(t, err)
		return assign.Rooms(inv, set, p, built)
	}
	alike, apart := site(false), site(true)
	require.Len(t, alike, 3*12)
	require.Equal(t, apart, alike)
	more := map[int]bool{}
	for _, r := range alike {
		more[r.More] = true
	}
	require.Greater(t, len(more), 2, "circuits and kinds differ")
}
