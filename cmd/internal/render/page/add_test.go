package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
)

func sampleAdd() document.Add {
	panel := document.AddedPanel{Panel: "LP1", Legs: []string{"A", "B"}, LegBeforeAmps: []float64{10.11, 20.22}, LegAfterAmps: []float64{15.33, 20.22},
		RequiredBeforeAmps: 31.415, RequiredAfterAmps: 38.217, MainAmps: known(60), Feeder: &document.AddedFeeder{From: "MDP", RequiredBeforeAmps: 31.415, RequiredAfterAmps: 38.217, BreakerAmps: known(60)}}
	return document.Add{
		Item: "bar", Count: 2, HeatAddedBTUH: known(2183.77), Panels: []document.AddedPanel{panel},
		Placed: []document.Placed{{Circuit: "LP1-1", Count: 1, LoadBeforeAmps: 5.442, LoadAmps: 10.884, LimitAmps: known(16), AfterPercent: known(68.03), Binds: "continuous-load",
			RequiredBeforeAmps: 6.803, RequiredAfterAmps: 13.605, BreakerAmps: known(20)}},
		Refused: []document.Refused{
			{Circuit: "LP1-2", Rule: "continuous-load", Reason: "circuit LP1-2: needs 20.41 A", ShortAmps: known(0.408)},
			{Circuit: "LP1-3", Rule: "continuous-load", Reason: "circuit LP1-3: needs 20.41 A", ShortAmps: known(0.408)},
			{Circuit: "LP1-4", Reason: "it supplies 240 V"},
		},
		Heat: &document.AddedHeat{Room: "flower", BeforeBTUH: 15279, AfterBTUH: 17463, Covered: "no", CoveredBefore: "yes", Cooling: []document.AddedCooling{{What: "total cooling", NeededBTUH: 17463, InstalledBTUH: known(17827), Covers: "yes"}}},
	}
}

func TestEveryNumberOfAnAdditionIsOneOfTheDocument(t *testing.T) {
	d := sampleAdd()
	numbersOf(t, d, Add(d, System{}))
}

func TestRefusalsForOneReasonStandTogether(t *testing.T) {
	var shown, data Table
	for _, b := range refusedBlocks(sampleAdd()) {
		if table, ok := b.(Table); ok && table.ReadOnly {
			shown = table
		} else if ok {
			data = table
		}
	}
	require.Len(t, data.Rows, 3)
	require.Len(t, shown.Rows, 2)
	require.Equal(t, "LP1-2, LP1-3", shown.Rows[0][0].Shown())
	require.Equal(t, "needs 20.41 A", shown.Rows[0][3].Shown())
	require.Equal(t, "no place for it", shown.Rows[1][2].Shown())
}

func TestTheAnswerOfAddStandsLast(t *testing.T) {
	d := sampleAdd()
	d.Verdict.Says, d.Needs, d.Caution = "no: not all go on", "a new circuit", "a planning aid"
	blocks := Add(d, System{}).Blocks
	var ids []string
	for _, b := range blocks[len(blocks)-5:] {
		if x, ok := b.(Text); ok {
			ids = append(ids, x.ID)
		}
	}
	require.Equal(t, []string{"answer", "needs", "proof", "caution"}, ids)
}

func TestUnitsOfARowAreNumbered(t *testing.T) {
	for want, l := range map[string]document.Load{
		"":       {Count: 3},
		" (7)":   {Count: 1, FirstUnit: 7},
		" (4-6)": {Count: 3, FirstUnit: 4},
	} {
		require.Equal(t, want, unitRange(l))
	}
}

func TestRoomLeftIsGroupedByWhatStops(t *testing.T) {
	d := document.Plan{RoomLeft: []document.RoomLeft{{Circuit: "1", Item: "bar", More: 0, Rule: "r"}, {Circuit: "1", Item: "fan", More: 7, Rule: "r"},
		{Circuit: "1", Item: "pump", More: 2, Rule: "r"}, {Circuit: "2", Item: "bar", More: 0, Rule: "q"}, {Circuit: "2", Item: "pump", More: 0, Rule: "q"}}}
	for _, b := range roomLeftBlocks(d) {
		if table, ok := b.(Table); ok && table.ReadOnly {
			require.Len(t, table.Rows, 3)
			require.Equal(t, "no bar", table.Rows[0][1].Shown())
			require.Equal(t, "7 x fan, or 2 x pump", table.Rows[1][1].Shown())
			require.Equal(t, "no bar, pump", table.Rows[2][1].Shown())
		}
	}
}
