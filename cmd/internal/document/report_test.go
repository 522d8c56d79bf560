package document

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// reported is the report of the sample, its circuits planned on the sample's one
// panel.
func reported(t *testing.T, change func(*Results)) Report {
	r := sampleResults(t)
	r.Set = loads.Build(r.Inventory, loads.CodeValues{})
	r.Day = day.Of(r.Inventory, r.Set)
	r.Heat, r.Profile.Continuous = r.Day.Heat, codes125()
	for i := range r.Plan.Circuits {
		for k := range r.Plan.Circuits[i].Loads {
			l := &r.Plan.Circuits[i].Loads[k]
			l.First, l.Draw.Supply = 1, r.Plan.Circuits[i].Supply
		}
	}
	if change != nil {
		change(&r)
	}
	return NewReport(ReportOf{Results: r, Date: "2026-03-14", Raceways: map[string]Raceway{"circuits.LP1-1": {Kind: "EMT", Trade: "1/2 in", Conductors: 3, FillPercent: 13, AllowedPercent: 40}}})
}

func TestReportMeetsItsSchema(t *testing.T) {
	require.NoError(t, check(t, "report", reported(t, nil)))
}

func TestReportIsForAllReadersUnlessSomeAreNamed(t *testing.T) {
	d := reported(t, nil)
	require.Equal(t, Readers(), d.Parts)
	require.True(t, d.For("utility", "nobody"))
	d.Parts = []string{"hvac"}
	require.False(t, d.For("utility", "grower"))
}

func TestDirectoryHasEverySpaceOnceOddLeftEvenRight(t *testing.T) {
	d := reported(t, nil).Directories[0]
	require.Len(t, d.Rows, 12, "24 spaces")
	for i, r := range d.Rows {
		require.Equal(t, 2*i+1, r.Left.Space)
		require.Equal(t, 2*i+2, r.Right.Space)
		require.Equal(t, []string{"A", "B"}[i%2], r.Leg, "legs take turns down the panel")
	}
	require.Equal(t, "5 bar-640 luminaires, nos. 1-5, flower", d.Rows[0].Left.Description)
	require.True(t, d.Rows[1].Left.Continues, "the second pole of LP1-1")
	require.Equal(t, 20, *d.Vacant, "24 spaces less 1, 3, 2 and 4")
	require.Equal(t, "old", d.Rows[0].Right.Circuit)
	// 5 × 653.06 VA between the legs, in equal parts
	require.InDelta(t, 1632.65, *d.Rows[0].Left.VA, 0.01)
	require.InDelta(t, 1632.65, *d.LegVA[0].VA, 0.01)
}

func TestDirectoryShowsSpacesThatThePanelDoesNotHave(t *testing.T) {
	d := reported(t, func(r *Results) { r.Plan.Panels[0].Spaces = units.Is(2) }).Directories[0]
	require.Equal(t, 2, d.Beyond, "spaces 3 and 4")
	require.Equal(t, 0, *d.Vacant)
	require.Nil(t, reported(t, func(r *Results) { r.Plan.Panels[0].Spaces = units.Unknown[int]("") }).Directories[0].Vacant, "how many there are is not known")
}

// A panel that carries more than the file lists has breakers that nobody told of: which
// spaces are free is not known, and is said to be so wherever it is asked.
func TestSpacesOfAPanelWithOtherLoadAreNotCalledFree(t *testing.T) {
	plain := reported(t, func(r *Results) { r.Plan.Panels[0].OtherLoad = units.Unknown[units.Current]("") })
	require.False(t, plain.Directories[0].Unlisted)
	require.Contains(t, kinds(plain.Plan.Scarce), "spaces")
	for _, of := range []func(p *circuits.Panel){
		func(p *circuits.Panel) { p.OtherLoad = units.Is(10 * units.Ampere) },
		func(p *circuits.Panel) { p.MeasuredPeak = units.Is(10 * units.Ampere) },
	} {
		d := reported(t, func(r *Results) { of(&r.Plan.Panels[0]) })
		require.True(t, d.Directories[0].Unlisted)
		require.True(t, d.Plan.Panels[0].Unlisted)
		require.NotContains(t, kinds(d.Plan.Scarce), "spaces")
		for _, r := range d.Heat.Rooms {
			for _, p := range r.Power {
				require.Nil(t, p.SpareSpaces)
			}
		}
	}
}

func kinds(list []Scarce) []string {
	out := []string{}
	for _, s := range list {
		out = append(out, s.What)
	}
	return out
}

func TestHomeRunCountsItsWires(t *testing.T) {
	runs := reported(t, nil).HomeRuns
	require.Len(t, runs, 3)
	full := runs[0]
	require.Equal(t, []int{2, 1}, []int{full.Wires[0].Count, full.Wires[1].Count}, "two legs and a ground, no neutral at 240 V")
	require.Equal(t, "1/2 in", full.Raceway.Trade)
	require.Equal(t, "neutral", runs[1].Wires[1].Use, "line to neutral")
	require.Nil(t, runs[1].Wires[0].Size, "of an old circuit nobody has read yet")
}

func TestMaterialsAreOfWhatIsNewWithWaste(t *testing.T) {
	m := reported(t, nil).Materials
	require.Equal(t, []BreakerLine{{Amps: 20, Poles: 2, Count: 1, Panels: []string{"LP1"}}}, m.Breakers, "the old circuits have theirs")
	require.Equal(t, "circuit", m.Conductors[0].Use)
	require.InDelta(t, 120, m.Conductors[0].NetFeet, 1e-9, "two legs of 60 ft")
	require.InDelta(t, 132, m.Conductors[0].OrderFeet, 1e-9, "and a tenth")
	require.InDelta(t, 60, m.Conductors[1].NetFeet, 1e-9, "its ground")
	require.InDelta(t, 66, m.Raceways[0].OrderFeet, 1e-9)
	require.Equal(t, []OutletLine{{"NEMA 6-20R", 5}}, m.Receptacles)
	require.Equal(t, 1, m.Protection[0].Count)
}

func TestMaterialsSayWhatTheyDoNotCount(t *testing.T) {
	m := reported(t, func(r *Results) {
		c := &r.Plan.Circuits[0]
		c.Length, c.LastOutlet, c.Controller = units.Unknown[units.Length](""), units.Unknown[units.Length](""), "north"
	}).Materials
	require.Empty(t, m.Conductors)
	require.Empty(t, m.Receptacles)
	require.Len(t, m.NotCounted, 2)
}

func TestTradeSizesSortAsTheyMeasure(t *testing.T) {
	for in, want := range map[string]float64{"1/2 in": 0.5, "3/4 in": 0.75, "1 in": 1, "1 1/4 in": 1.25, "2 in": 2} {
		require.InDelta(t, want, inches(in), 1e-9, in)
	}
}

func TestLoadSheetAddsUpToTheDemand(t *testing.T) {
	s := reported(t, func(r *Results) {
		p := &r.Plan.Panels[0]
		// 5 × 653.06 VA continuous: 1.25 times; 10 A of other load on two legs
		p.OtherLoad, p.DemandVA, p.Required = units.Is(10*units.Ampere), 5*653.06*1.25+10*240, 27.007
	}).Services[0]
	require.InDelta(t, 5*653.06, s.ConnectedVA, 0.01)
	require.InDelta(t, 5*653.06*0.25, s.AllowanceVA, 0.01)
	require.InDelta(t, 2400, *s.OtherVA, 0.01)
	require.Zero(t, s.NotAddedVA)
	require.InDelta(t, (5*653.06*1.25+2400)/240, s.BalancedAmps, 0.01)
	require.InDelta(t, 100-27.007, *s.MarginAmps, 1e-9)
	require.Equal(t, "lighting", s.Classes[0].Class)
	require.Equal(t, []LitHours{{[]string{"flower"}, "06:00-18:00", 12}}, s.LightingHours)
}

func TestInterlockedLoadIsTakenOffInTheOpen(t *testing.T) {
	s := reported(t, func(r *Results) { r.Plan.Panels[0].DemandVA = 1000 }).Services[0]
	require.InDelta(t, s.ConnectedVA+s.AllowanceVA-1000, s.NotAddedVA, 0.01)
}

func TestFloorIsSchematicWhereTheRoomIsNotMeasured(t *testing.T) {
	f := reported(t, nil).Floors[0]
	require.False(t, f.Placed)
	require.Equal(t, "the size of the room is not given", f.Why)
	require.Nil(t, f.Units[0].AlongFeet)
	require.Equal(t, "LP1-1", f.Units[4].Circuit)
}

func TestFloorRunsThereAndBack(t *testing.T) {
	x := inventory.Room{Name: "r", Length: units.Is(20 * units.Foot), Width: units.Is(12 * units.Foot), Spacing: units.Is(5 * units.Foot)}
	f := floor(x, "bar", 6)
	require.True(t, f.Placed)
	require.Equal(t, 4, f.PerRow, "20 ft at 5 ft")
	require.Equal(t, 2, f.Rows)
	require.InDelta(t, 6, *f.PitchFeet, 1e-9)
	require.InDelta(t, 2.5, *f.Units[0].AlongFeet, 1e-9, "the row stands in the middle of the room")
	require.Equal(t, 4, f.Units[4].Place, "the second row is walked back")
	require.InDelta(t, *f.Units[3].AlongFeet, *f.Units[4].AlongFeet, 1e-9)
	require.InDelta(t, 9, *f.Units[5].AcrossFeet, 1e-9)
}

func TestFindingsKnowWhatTheyConcern(t *testing.T) {
	d := reported(t, nil)
	require.Len(t, d.About, len(d.Plan.Findings))
	for i, f := range d.Plan.Findings {
		switch f.Subject {
		case "circuits.old.breaker", "circuits.old":
			require.Equal(t, Place{"circuit", "old"}, d.About[i])
		case "panels.LP1":
			require.Equal(t, Place{"panel", "LP1"}, d.About[i])
		}
	}
	r := sampleResults(t)
	require.Equal(t, Place{"item", "bar-640"}, place(r, "fixtures.bar-640.power"))
	require.Equal(t, Place{"site", "Sample bay"}, place(r, "plan.max_drop"))
	r.Plan.Circuits = append(r.Plan.Circuits, circuits.Circuit{Name: "old.two"})
	require.Equal(t, Place{"circuit", "old.two"}, place(r, "circuits.old.two.breaker"), "the longest name")
}

func TestUnknownFactsAreAskedOnce(t *testing.T) {
	q := reported(t, nil).Unknown
	require.NotEmpty(t, q)
	require.Equal(t, "conductor size", q[0].Ask)
	require.Equal(t, Place{"circuit", "old"}, q[0].Place)
}

func TestScheduleTellsTypesApart(t *testing.T) {
	d := reported(t, nil)
	require.Len(t, d.Equipment, 1)
	e := d.Equipment[0]
	require.Equal(t, "F1", e.Tag)
	require.Equal(t, 5, e.Count)
	require.Equal(t, []string{"LP1-1"}, e.Circuits)
	require.InDelta(t, 240, *e.Volts, 0)
	d = reported(t, func(r *Results) { r.Plan.Circuits[0].Loads[0].Count = 3 })
	require.Len(t, d.Equipment, 2, "what no circuit feeds is a line of its own")
	require.Equal(t, 2, d.Equipment[1].Count)
	require.Nil(t, d.Equipment[1].Volts)
}

// TestNothingReadsAsIfTheSecondaryWereSized: a feeder's conductors end at the
// primary of its transformer.
func TestNothingReadsAsIfTheSecondaryWereSized(t *testing.T) {
	d := reported(t, func(r *Results) {
		through := circuits.Panel{Name: "LP2", Feeder: &circuits.Feeder{From: "LP1", Panel: "LP2", Transformer: &circuits.Transformer{Rating: 45000, Phases: 3, Primary: 480, Secondary: 208}}}
		r.Plan.Panels = append(r.Plan.Panels, through)
	})
	says := "secondary of the transformer of panel LP2: NOT SIZED OR CHECKED"
	require.Contains(t, strings.Join(d.Materials.NotCounted, "\n"), says)
	require.Equal(t, SecondaryOpen, d.Plan.Panels[1].Feeder.Transformer.Secondary)
	last := d.Unknown[len(d.Unknown)-1]
	require.Equal(t, Place{"panel", "LP2"}, last.Place)
	require.Contains(t, last.Ask, "NOT SIZED")
	feeder := d.Working.About("LP2").Subjects[0].Sections[1]
	require.Contains(t, feeder.Notes[0], "secondary NOT SIZED")
}

func TestAPlaceThatIsNotStatedIsAskedFor(t *testing.T) {
	d := reported(t, func(r *Results) {
		r.Plan.Circuits[0].Protection = codes.Protection{Open: "the location is not stated"}
	})
	require.Equal(t, "GFCI ? (location not stated)", d.Plan.Circuits[0].GroundFault())
	require.Contains(t, d.Unknown, Question{Place{"site", "Sample bay"}, "the location, dry, damp or wet, of bar-640", []string{"ground-fault protection of their receptacles"}})
	require.Contains(t, d.Materials.NotCounted, "ground-fault protection of circuits LP1-1: their location is not stated")
}
