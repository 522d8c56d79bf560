package document

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// TestLoadSheetTellsMotorsFromContinuousLoad: two motors of 1,000 VA, one marked
// with a minimum circuit of 6 A at 4 A, and continuous lighting.
func TestLoadSheetTellsMotorsFromContinuousLoad(t *testing.T) {
	const lamps = 5 * 653.06
	s := reported(t, func(r *Results) {
		r.Profile.Motors = codes.Motors{Conductor: 1.25, SeveralCite: steps.Cite{Ref: "nfpa70", Edition: "2023", At: "430.24", How: steps.Seen}}
		water := func(count int, draw loads.Draw) circuits.Load {
			return circuits.Load{Item: "pump", Category: loads.Water, Count: count, Continuous: true, Draw: draw}
		}
		c := &r.Plan.Circuits[0]
		c.Loads = append(c.Loads, water(2, loads.Draw{Amps: 4, VA: 1000, Motor: true}), water(1, loads.Draw{Amps: 4, VA: 1000, MinCircuit: units.Is(6 * units.Ampere)}))
		r.Plan.Panels[0].DemandVA = lamps*1.25 + 2250 + 1500
	}).Services[0]
	light, water := s.Groups[0], s.Groups[1]
	require.InDelta(t, lamps, light.Continuous, 0.01)
	require.Zero(t, light.Individual)
	require.Zero(t, water.Continuous)
	require.InDelta(t, 3000, water.Individual, 0.01)
	require.InDelta(t, 250+250+500, water.AllowanceVA, 0.01)
	require.InDelta(t, 250, s.NotAddedVA, 0.01, "of the two motors one has its allowance")
	require.Equal(t, []string{"25 % of the motors other than the largest (NEC 2023 430.24)"}, s.NotAdded)
	require.Contains(t, s.Clauses, "NEC 2023 430.24")
}

func TestLoadFactorIsOfAStatedPeak(t *testing.T) {
	s := reported(t, nil).Services[0]
	require.InDelta(t, 100*s.KWhPerDay*1000/24/s.PeakWatts, *s.LoadFactor, 0.01)
	require.InDelta(t, 100*s.KWhPerDay*1000/24/s.DemandWatts, *s.DemandFactor, 0.01)
}

func TestCompressorsAreAskedForBesideMotors(t *testing.T) {
	s := reported(t, func(r *Results) {
		r.Inventory.Items[0].Kind = "chiller"
		r.Set = loads.Build(r.Inventory, loads.CodeValues{})
	}).Services[0]
	require.Nil(t, s.LargestMotor)
	require.Equal(t, []string{"bar-640"}, s.Compressors)
}

func TestMotorsAreMarkedWhereTheirRulesAreNotHeld(t *testing.T) {
	marked := func(table, kind string, wired bool, rule string) string {
		return reported(t, func(r *Results) {
			i := &r.Inventory.Items[0]
			i.Table, i.Kind, i.Wired = table, kind, units.Is(wired)
			r.Set = loads.Build(r.Inventory, loads.CodeValues{})
			r.Profile.Motors.NotApplied = rule
		}).Plan.Circuits[0].NotApplied
	}
	const rule = "Section 28 not applied"
	require.Equal(t, "motor: "+rule, marked("equipment", "pump", true, rule))
	require.Equal(t, "motor: "+rule, marked("fans", "", true, rule))
	require.Equal(t, "if a motor: "+rule, marked("equipment", "other", true, rule))
	require.Empty(t, marked("fixtures", "", true, rule))
	require.Empty(t, marked("fans", "", false, rule), "on a cord")
	require.Empty(t, marked("fans", "", true, ""), "where they are held")
}
