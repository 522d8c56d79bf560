package assign_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/circuits"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// TestAPlaceThatIsNotStatedLeavesProtectionOpen: 210.8(B) asks for a GFCI where it
// is damp or wet; a place that the file does not describe is neither that nor dry.
func TestAPlaceThatIsNotStatedLeavesProtectionOpen(t *testing.T) {
	planned := func(place string, wired bool) circuits.Circuit {
		fan := inventory.Item{Table: inventory.Fans, Name: "fan", Power: units.Is(100 * units.Watt), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Wired: units.Is(wired)}
		if place != "" {
			fan.Location = units.Is(place)
		}
		return plan(t, room(t, "120/240 V 1ph", fan)).Circuits[0]
	}
	open := planned("", false)
	assert.False(t, open.Protection.Needed)
	assert.Equal(t, "the location is not stated; where it is damp or wet, a Class A GFCI is called for", open.Protection.Open)
	assert.False(t, open.GFCI.Known(), "nor is it planned without one")
	for _, c := range []circuits.Circuit{planned("dry", false), planned("damp", false), planned("", true)} {
		assert.Empty(t, c.Protection.Open)
		assert.Equal(t, units.Is(c.Protection.Needed), c.GFCI)
	}
	assert.True(t, planned("damp", false).Protection.Needed)
}
