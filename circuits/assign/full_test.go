package assign_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// A panel that is beyond its main already, or whose main nobody knows, takes no
// more load, though nothing new is broken by it.
func TestNoMoreLoadBehindAMainThatIsFullOrUnknown(t *testing.T) {
	p := profile()
	ask := func(main units.Known[units.Current]) assign.Added {
		inv := room(t, "120/240 V 1ph")
		inv.Panels[0].Main = main
		a := at120(inventory.Fixtures, "a", 1, 240, 1, units.Unknown[bool](""))
		b := at120(inventory.Fixtures, "b", 2, 600, 1, units.Unknown[bool](""))
		a.Room, b.Room = "flower", "flower"
		inv.Items = []inventory.Item{a, b}
		for i, item := range []string{"b", "a", "b"} { // spaces 1, 3 and 5: legs A, B, A
			c := wired(fmt.Sprintf("LP1-%d", 2*i+1), 2*i+1, 15, "14 AWG")
			c.Feeds = []inventory.Fed{{Item: item, Count: 1}}
			inv.Circuits = append(inv.Circuits, c)
		}
		got, err := assign.Add(inv, build(inv, p), p, assign.Request{Item: "a", Count: 1, On: "LP1-3"})
		require.NoError(t, err)
		return got
	}
	// Leg A asks 2 · 5 A · 1.25 = 12.5 A. The unit asked for goes on leg B beside
	// one of 2 A, which makes 5 A there.
	assert.True(t, ask(units.Is(units.Current(15))).Fits)
	full := ask(units.Is(units.Current(10)))
	assert.False(t, full.Fits)
	assert.Empty(t, full.Placed)
	assert.Contains(t, full.Needs, "12.5 A")
	unknown := ask(units.Unknown[units.Current]("the main's rating is not given"))
	assert.False(t, unknown.Fits)
	assert.Empty(t, unknown.Placed)
	assert.Contains(t, unknown.Needs, "first what is not known")
}
