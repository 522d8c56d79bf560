package document

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// sampleAddition adds one bar-640 to LP1-1 of the sample: six of 2.7211 A are
// 16.3265 A, 125 % of it 20.408 A, which a breaker of 25 A carries.
func sampleAddition(t *testing.T) Addition {
	r := sampleResults(t)
	r.AsBuilt = true
	r.Plan.Circuits[0].Existing = true
	after := r.Plan
	after.Circuits = append([]circuits.Circuit{}, r.Plan.Circuits...)
	c := &after.Circuits[0]
	c.Breaker = units.Is(25 * units.Ampere)
	c.Loads = append([]circuits.Load{}, c.Loads...)
	c.Loads[0].Count, c.Loads[0].Added = 6, 1
	c.Load, c.Required = 16.3265, 20.408
	c.Limits = []circuits.Limit{
		{Rule: "voltage-drop", Title: "advised", Actual: units.Any{Value: 3.3, Unit: "%"}, Limit: units.Any{Value: 3, Unit: "%"}, Share: 1.1},
		{Rule: "continuous-load", Title: "holds", Actual: units.Any{Value: 20.408, Unit: "A"}, Limit: units.Any{Value: 25, Unit: "A"}, Share: 20.408 / 25},
	}
	return Addition{Before: r, After: after, Item: "bar-640", Room: "flower", Path: "fixtures.bar-640", Count: 1, Fits: true, Proved: true}
}

func TestLoadLimitAndShareOfAnAdditionAgree(t *testing.T) {
	d := NewAdd(sampleAddition(t))
	require.Len(t, d.Placed, 1)
	p := d.Placed[0]
	require.Equal(t, "LP1-1", p.Circuit)
	require.Equal(t, 1, p.Count)
	require.Equal(t, "continuous-load", p.Binds, "what is only advised does not bind")
	require.InDelta(t, 81.632, *p.AfterPercent, 1e-9)
	require.InDelta(t, 20.0001, *p.LimitAmps, 1e-3, "25 A / 1.25")
	require.InDelta(t, p.LoadAmps, *p.LimitAmps**p.AfterPercent/100, 1e-9)
	require.InDelta(t, 85, *p.BeforePercent, 1e-9)
	require.Equal(t, 0, d.Verdict.ExitStatus)
	require.NoError(t, check(t, "add", d))
}

func TestANoSaysSoAndMeetsItsSchema(t *testing.T) {
	a := sampleAddition(t)
	a.Fits, a.After, a.Needs, a.On = false, a.Before.Plan, "a new circuit", "old"
	a.Refused = []Refused{{Circuit: "old", Rule: "continuous-load", Reason: "needs more", ShortAmps: number(1.5)}, {Circuit: "wired", Reason: "no place"}}
	a.New = a.Before.Plan.Circuits[:1]
	d := NewAdd(a)
	require.Equal(t, AnswerVerdict{1, "no: circuit old takes no more bar-640"}, d.Verdict)
	require.Empty(t, d.Placed)
	require.Equal(t, "LP1", d.Panel.Panel)
	require.NoError(t, check(t, "add", d))
	m := printed(t, d)
	require.Nil(t, m["refused"].([]any)[1].(map[string]any)["short_amps"])
	require.Contains(t, m, "heat_added_btuh")
	require.Nil(t, m["heat_added_btuh"], "the sample has no room in its heat")
}

func TestCoolingIsAskedForTotalAndDryHeat(t *testing.T) {
	cover := func(what string, a heat.Answer) heat.Cover[units.Heat] {
		return heat.Cover[units.Heat]{What: what, Holds: a}
	}
	for _, c := range []struct {
		why  string
		list []heat.Cover[units.Heat]
		want heat.Answer
	}{
		{"nothing is stated", nil, heat.CannotTell},
		{"both cover", []heat.Cover[units.Heat]{cover("total cooling", heat.Yes), cover("sensible cooling", heat.Yes)}, heat.Yes},
		{"one falls short", []heat.Cover[units.Heat]{cover("total cooling", heat.Yes), cover("sensible cooling", heat.No)}, heat.No},
		{"one is not known", []heat.Cover[units.Heat]{cover("total cooling", heat.CannotTell), cover("sensible cooling", heat.Yes)}, heat.CannotTell},
		{"water has an answer of its own", []heat.Cover[units.Heat]{cover("total cooling", heat.Yes), cover("latent cooling", heat.No)}, heat.Yes},
	} {
		require.Equal(t, c.want, covered(heat.Room{Equipment: heat.Equipment{Cooling: c.list}}), c.why)
	}
}

func TestADiffListsChangesAndNothingElse(t *testing.T) {
	old, now := sampleResults(t), sampleResults(t)
	d := NewDiff(old, now)
	require.Empty(t, d.Changes)
	require.Equal(t, "the two plans are the same: there is nothing to do", d.Says)
	require.NoError(t, check(t, "diff", d))

	now.Plan.Circuits = append([]circuits.Circuit{}, now.Plan.Circuits[:2]...)
	now.Plan.Circuits[0].Breaker = units.Is(25 * units.Ampere)
	d = NewDiff(old, now)
	require.Equal(t, "2 changes: 0 added, 1 changed, 1 freed", d.Says)
	require.NoError(t, check(t, "diff", d))
	require.Equal(t, []string{"breaker: 20 A becomes 25 A"}, d.Changes[0].What)
	require.Equal(t, 20.0, *d.Changes[0].Before.BreakerAmps)
	require.Nil(t, d.Changes[1].After)
}

func TestAProofCanBeWorkedByHand(t *testing.T) {
	// 640 / (120 · 0.98) A is 5,443 mA; · 5 = 27,215 of 20,000 · 4 = 80,000: two in one
	// circuit, six in three.
	d := proofs([]circuits.Proof{{Panel: "LP1", Bound: 3, Used: 3, Choices: []circuits.ProofOfChoice{{Volts: []units.Voltage{120}, Bound: 3, Parts: []circuits.ProofPart{{
		Items: []circuits.ProofItem{{Item: "bar", Count: 6, Volts: 120, Size: 27215, Weight: 1}},
		Bins:  []circuits.ProofBin{{Volts: 120, Rating: 20, Spaces: 1, Room: 80000, Most: []int{-1}}, {Volts: 120, Rating: 30, Spaces: 1, Room: 120000, Most: []int{1}}},
		Z:     2, Bound: 3}}}}}})
	part := d[0].Choices[0].Parts[0]
	require.EqualValues(t, 6, part.Total)
	require.EqualValues(t, 2, part.Circuits[0].Holds)
	require.EqualValues(t, 1, part.Circuits[1].Holds, "its other limit")
	require.Empty(t, part.Circuits[0].Most)
	require.Equal(t, []ProofLimit{{"bar", 1}}, part.Circuits[1].Most)
}

func TestCategoriesAreThoseOfTheTables(t *testing.T) {
	for path, want := range map[string]string{"fixtures.a": "fixture", "fans.a.b": "fan", "controllers.c": "controller", "equipment.d": "equipment"} {
		require.Equal(t, want, tableOf(path))
	}
}

func TestOnlyAReadingHasAPrediction(t *testing.T) {
	c := circuits.Circuit{}
	require.Nil(t, measured(c))
	c.Measured, c.MeasuredIn, c.Predicted = units.Is(units.Current(12)), "lights on", units.Is(units.Current(10))
	require.InDelta(t, 20, *measured(c).OverPercent, 1e-9)
	c.Predicted = units.Unknown[units.Current]("no such state")
	require.Nil(t, measured(c).PredictedAmps)
	require.Nil(t, measured(c).OverPercent)
}
