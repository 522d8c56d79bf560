package assign_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/verify"
	"branchwork/codes/book"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// heated is a circuit of a lamp by night and a heater by day, both of 6 A at 120 V.
func heated(t *testing.T) *inventory.Inventory {
	lamp := at120(inventory.Fixtures, "bar", 1, 720, 1, units.Unknown[bool](""))
	heater := at120(inventory.Equipment, "heater", 1, 720, 1, units.Unknown[bool](""))
	heater.Kind, heater.Hours = inventory.Heater, hours(t, "06:00-18:00")
	inv := room(t, "120/240 V 1ph", lamp, heater)
	inv.Circuits = []inventory.Circuit{wired("LP1-1", 1, 15, "14 AWG", inventory.Fed{Item: "bar", Count: 1}, inventory.Fed{Item: "heater", Count: 1})}
	return inv
}

// At a changeover lamp and heater overlap for minutes: 6 + 6 = 12 A flow. By the
// NEC the heater has its 125 % all the same, 1.25 · 6 + 6 = 13.5 A; the CEC
// has no such rule beside the one for continuous load.
func TestAHeaterKeepsItsAllowanceWhereItOnlyOverlaps(t *testing.T) {
	for code, want := range map[string]float64{"nec-2017": 13.5, "nec-2020": 13.5, "nec-2023": 13.5, "nec-2026": 13.5, "cec-2024": 12} {
		p, ok := book.Profile(code)
		require.True(t, ok, code)
		inv := heated(t)
		made := planBy(t, inv, p)
		assert.InDelta(t, 12, float64(made.Circuits[0].Load), 1e-9, code)
		assert.InDelta(t, want, float64(made.Circuits[0].Required), 1e-9, code)
		assert.Empty(t, verify.Plan(inv, build(inv, p), p, made), code)
	}
}

// What a code counts as continuous at all times no file marks otherwise, whether
// its hours are known or not. Where a load is continuous unless shown otherwise,
// the file shows it.
func TestAHeaterIsNotMarkedAsNotContinuous(t *testing.T) {
	for code, want := range map[string]bool{"nec-2023": true, "cec-2024": false} {
		p, ok := book.Profile(code)
		require.True(t, ok, code)
		inv := heated(t)
		inv.Items[1].Hours, inv.Items[1].Continuous = units.Unknown[clock.Windows](""), units.Is(false)
		made := planBy(t, inv, p)
		assert.Equal(t, want, made.Circuits[0].Loads[1].Continuous, code)
		assert.Empty(t, verify.Plan(inv, build(inv, p), p, made), code)
	}
}
