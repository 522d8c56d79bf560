package assign_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// NFPA 70 430.24: conductors that supply several motors carry 125 % of the
// largest and the others as they are. Table 430.248 at 115 V, the column for a
// nominal 120 V: 1 hp 16 A, 1-1/2 hp 20 A. Nine of 1 hp on leg A ask for
// 9 · 16 + 0.25 · 16 = 148 A of its conductor; that the largest motor of the
// panel stands on leg B takes nothing from that.
func TestEachLegCountsTheLargestOfItsOwnMotors(t *testing.T) {
	motor := func(name string, n int, hp units.Horsepower) inventory.Item {
		return inventory.Item{Table: inventory.Fans, Name: name, Count: n, Motor: units.Is(hp), IsMotor: true, Hours: hours(t, "always"),
			Wired: units.Is(true), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}})}
	}
	inv := room(t, "120/240 V 1ph", motor("a", 9, 1), motor("b", 1, 1.5))
	for i := range 9 {
		inv.Circuits = append(inv.Circuits, wired(fmt.Sprintf("LP1-%d", 1+4*i), 1+4*i, 20, "10 AWG", inventory.Fed{Item: "a", Count: 1}))
	}
	inv.Circuits = append(inv.Circuits, wired("LP1-3", 3, 30, "10 AWG", inventory.Fed{Item: "b", Count: 1}))
	p := profile()
	set := build(inv, p)
	plan, err := assign.AsBuilt(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan))
	assert.InDelta(t, 148, float64(plan.Panels[0].Required), 1e-9)
}

// A panel of one system is fed through a transformer at the voltage of the panel
// that feeds it: 480 V between two legs, and 120 V from one leg to neutral.
func TestAFeederBeforeATransformerStandsAtTheVoltageAbove(t *testing.T) {
	for _, row := range []struct {
		up, down       string
		poles          int
		volts, primary units.Voltage
	}{
		{"480Y/277 V 3ph", "120 V 1ph", 2, 480, 480},
		{"120 V 1ph", "120/240 V 1ph", 1, 120, 120},
		{"208Y/120 V 3ph", "480Y/277 V 3ph", 3, 208, 208},
	} {
		inv := room(t, row.up)
		inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: system(t, row.down), FedBy: "LP1", Spaces: units.Is(12)})
		f := plan(t, inv).Panels[1].Feeder
		assert.Equal(t, row.poles, f.Poles, row.down)
		assert.Equal(t, row.volts, f.Volts, row.down)
		assert.Equal(t, row.primary, f.Transformer.Primary, row.down)
	}
}
