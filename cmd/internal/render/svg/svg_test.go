package svg

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
)

const nasty = `<script>"&'` + "\u202e"

func number(x float64) *float64 { return &x }

// sound parses a drawing as XML and returns its identifiers; each is there once,
// and each reference leads to one.
func sound(t *testing.T, f Figure) map[string]bool {
	t.Helper()
	ids := map[string]bool{}
	var refs []string
	d := xml.NewDecoder(strings.NewReader(f.Markup))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		require.NotContains(t, []string{"script", "image", "foreignObject", "a", "style"}, e.Name.Local)
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "id":
				require.False(t, ids[a.Value], "%s twice", a.Value)
				ids[a.Value] = true
			case "href":
				refs = append(refs, strings.TrimPrefix(a.Value, "#"))
			case "aria-labelledby":
				refs = append(refs, strings.Fields(a.Value)...)
			}
		}
	}
	for _, r := range refs {
		require.True(t, ids[r], "%q leads nowhere", r)
	}
	require.NotContains(t, f.Markup, "NaN")
	require.NotContains(t, f.Markup, "Inf")
	require.NotContains(t, f.Markup, "url(")
	require.NotContains(t, f.Markup, "\u202e")
	has(t, f.Markup, `role="img"`)
	require.NotEmpty(t, f.Title)
	require.NotEmpty(t, f.Desc)
	return ids
}

// has demands that a drawing holds a text, without printing the drawing.
func has(t *testing.T, markup, want string, why ...string) {
	t.Helper()
	require.True(t, strings.Contains(markup, want), "no %q in the drawing; %v", want, why)
}

// inside demands that every coordinate of rectangles and texts lies in the frame.
func inside(t *testing.T, f Figure) {
	t.Helper()
	box := regexp.MustCompile(`viewBox="0 0 ([\d.]+) ([\d.]+)"`).FindStringSubmatch(f.Markup)
	require.NotNil(t, box)
	w, _ := strconv.ParseFloat(box[1], 64)
	h, _ := strconv.ParseFloat(box[2], 64)
	for _, m := range regexp.MustCompile(`<(?:text|use)[^>]* x="([-\d.]+)" y="([-\d.]+)"`).FindAllStringSubmatch(f.Markup, -1) {
		x, _ := strconv.ParseFloat(m[1], 64)
		y, _ := strconv.ParseFloat(m[2], 64)
		require.True(t, x >= 0 && x <= w && y >= -1 && y <= h, "%s in %v × %v", m[0], w, h)
	}
}

func placed(units, perRow int) document.Floor {
	f := document.Floor{Room: "r" + nasty, Item: "bar" + nasty, Count: units, Placed: true, LongFeet: number(20), WideFeet: number(12), SpacingFeet: number(5), PerRow: perRow}
	f.Rows = (units + perRow - 1) / perRow
	f.PitchFeet = number(12 / float64(f.Rows))
	for i := range units {
		row, at := i/perRow, i%perRow
		if row%2 == 1 {
			at = perRow - 1 - at
		}
		f.Units = append(f.Units, document.FloorUnit{Number: i + 1, Row: row + 1, Place: at + 1, AlongFeet: number(2.5 + 5*float64(at)), AcrossFeet: number((float64(row) + 0.5) * *f.PitchFeet),
			Circuit: fmt.Sprintf("c%d", i/3)})
	}
	return f
}

func marks(n int) []Mark {
	var out []Mark
	for i := range n {
		out = append(out, Mark{Circuit: fmt.Sprintf("c%d", i), Label: fmt.Sprint(2*i + 1), Hatch: i})
	}
	return out
}

func TestFloorPlanShowsEachUnitWithItsCircuit(t *testing.T) {
	f := Floor("f0", "floors.0", placed(12, 4), marks(4), Measure{})
	sound(t, f)
	inside(t, f)
	require.Equal(t, 12, strings.Count(f.Markup, "<use "), "one for each unit")
	for k := range 4 {
		require.Equal(t, 3, strings.Count(f.Markup, fmt.Sprintf(`href="#f0-h%d"`, k)), "hatch %d", k)
		require.Equal(t, 3, strings.Count(f.Markup, fmt.Sprintf(`">%d</text>`, 2*k+1)), "label of circuit %d", k)
	}
	require.Equal(t, 4, strings.Count(f.Markup, `class="start`), "each home run arrives once")
	has(t, f.Markup, `<tspan data-key="floors.0.long_ft">20</tspan> ft`)
	require.Contains(t, f.Desc, "circuit c1 feeds units 4-6")
	has(t, Floor("f0", "floors.0", placed(12, 4), marks(4), Measure{Metric: true}).Markup, `>6.1</tspan> m`)
}

func TestFloorPlanMarksWhatNothingFeeds(t *testing.T) {
	f := placed(4, 4)
	f.Units[3].Circuit = ""
	got := Floor("f0", "floors.0", f, marks(1), Measure{})
	sound(t, got)
	require.Equal(t, 1, strings.Count(got.Markup, "unfed"))
}

func TestFloorPlanOfAnUnmeasuredRoomSaysSo(t *testing.T) {
	f := document.Floor{Room: "r", Item: "bar", Count: 14, PerRow: 12, Rows: 2, Why: "the size of the room is not given"}
	for i := range 14 {
		f.Units = append(f.Units, document.FloorUnit{Number: i + 1, Row: i/12 + 1, Place: i%12 + 1, Circuit: "c0"})
	}
	got := Floor("f0", "floors.0", f, marks(1), Measure{})
	sound(t, got)
	inside(t, got)
	has(t, got.Markup, "schematic: the size of the room is not given")
	require.Contains(t, got.Desc, "not to scale")
}

func TestRowsTooCloseAreSpreadAndThePlanSaysSo(t *testing.T) {
	f := placed(96, 4)
	got := Floor("f0", "floors.0", f, marks(32), Measure{})
	sound(t, got)
	inside(t, got)
	has(t, got.Markup, "rows drawn farther apart than they are")
}

func TestHatchesStayInTheirRectangleAndDiffer(t *testing.T) {
	const w, h = 50.0, 24.0
	seen := map[string]bool{}
	for k := range Hatches {
		c := &canvas{id: "x"}
		c.symbols(k+1, w, h)
		all := c.b.String()
		own := all[strings.Index(all, fmt.Sprintf(`"x-h%d"`, k)):]
		own = regexp.MustCompile(`x-h\d|hue\d`).ReplaceAllString(own, "")
		require.False(t, seen[own], "hatch %d is another one's", k)
		seen[own] = true
		for _, m := range regexp.MustCompile(`[ML]([-\d.]+) ([-\d.]+)`).FindAllStringSubmatch(own, -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			require.True(t, math.Abs(x) <= w/2+0.01 && math.Abs(y) <= h/2+0.01, "hatch %d at %v, %v", k, x, y)
		}
	}
}

// plant is a service with a sub-panel behind a transformer and so many groups on it.
func plant(groups int) document.Report {
	d := document.Report{}
	poles, size := 2, "12 AWG"
	n := document.Node{Panel: "SUB" + nasty, From: "MAIN", Depth: 1}
	for i := range groups {
		n.Groups = append(n.Groups, document.Bundle{Room: fmt.Sprint("room ", i), Category: []string{"lighting", "water", "climate"}[i%3], Circuits: []string{"a", "b"}, Spaces: 4, VA: number(1234.6), BreakerAmps: number(20), Poles: &poles, Size: &size})
	}
	d.OneLine = []document.Node{{Panel: "MAIN", Feeds: []string{n.Panel}}, n}
	d.Plan.Panels = []document.Panel{{Name: "MAIN", System: "480Y/277 V 3ph", MainAmps: number(800), BusAmps: number(800), ConnectedVA: 10000, DemandVA: 12000, RequiredAmps: 15},
		{Name: n.Panel, System: "208Y/120 V 3ph", Feeder: &document.Feeder{From: "MAIN", BreakerAmps: number(60), Poles: 3, Conductor: document.Conductor{Size: &size, LengthFeet: number(70), ParallelSets: 1},
			Transformer: &document.Transformer{VA: 45000, Phases: 3, PrimaryVolts: 480, SecondaryVolts: 208}}}}
	return d
}

func TestOneLineShowsServiceFeederTransformerAndLoads(t *testing.T) {
	figures := OneLine("ol", plant(6), Measure{})
	require.Len(t, figures, 1)
	f := figures[0]
	sound(t, f)
	inside(t, f)
	for _, s := range []string{"Utility service, 480Y/277 V 3ph", "main 800 A", "60 A, 3-pole feeder", "12 AWG, 70 ft", "45 kVA, 480–208 V", "2 × 20 A, 2-pole", "2 circuits, 1,235 VA"} {
		has(t, f.Markup, s)
	}
	has(t, OneLine("ol", plant(6), Measure{Metric: true})[0].Markup, "12 AWG, 21.3 m")
}

func TestOneLineOfManyIsDrawnPanelByPanel(t *testing.T) {
	figures := OneLine("ol", plant(40), Measure{})
	require.Len(t, figures, 2, "the panels, and the one that has circuits")
	ids := map[string]bool{}
	for _, f := range figures {
		for id := range sound(t, f) {
			require.False(t, ids[id], "%s in two drawings", id)
			ids[id] = true
		}
		inside(t, f)
	}
	has(t, figures[0].Markup, "80 circuits, drawn below")
	has(t, figures[1].Markup, "from panel MAIN")
}

func day() document.Day {
	var d document.Day
	group := document.DayGroup{Name: "lighting"}
	for h := range 24 {
		w := 0.0
		if h >= 6 && h < 18 {
			w = 4000
		}
		d.Hours = append(d.Hours, document.DayHour{Hour: h, Watts: w, Coincident: w + 500})
		group.Hours = append(group.Hours, document.DayHour{Hour: h, Watts: w})
	}
	d.Categories = []document.DayGroup{group}
	return d
}

func TestDemandIsDrawnInStepsWithItsLayersNamed(t *testing.T) {
	f, layers := Demand("d", day())
	sound(t, f)
	require.Equal(t, []Layer{{"a", "lighting", 0}}, layers)
	// 4 kW of a scale to 5 kW: four fifths up from the foot
	y := n(chartTop + chartHeight*(1-4.0/5))
	has(t, f.Markup, "V"+y+"H", "the lit hours stand at 4 kW")
	has(t, f.Markup, `class="letter m"`)
}

func TestHeatKeepsWhatIsBelowNothing(t *testing.T) {
	r := document.HeatRoom{RoomHeat: document.RoomHeat{Room: nasty, PeakDay: "summer"}}
	_, ok := Heat("h", r, Measure{})
	require.False(t, ok, "no hours, no chart")
	r.Days = []document.HeatDay{{Day: "summer"}}
	for h := range 24 {
		r.Days[0].Hours = append(r.Days[0].Hours, document.HeatHour{Hour: h, LitPercent: 50, HeatCase: document.HeatCase{SensibleBTUH: float64(1000 * (h - 6)), LatentBTUH: 200, TotalBTUH: float64(1000*(h-6)) + 200}})
	}
	f, ok := Heat("h", r, Measure{})
	require.True(t, ok)
	sound(t, f)
	has(t, f.Markup, ">-10,000</text>", "the scale goes below nothing")
}

func TestLegsShowTheMainWhereItIsNear(t *testing.T) {
	p := document.DayPanel{Name: "LP1", Legs: []string{"A", "B"}, MainAmps: number(100), MostAmps: 62}
	for h := range 24 {
		p.Hours = append(p.Hours, document.DayLegHour{Hour: h, Amps: map[string]float64{"A": 62, "B": 40}})
	}
	f, ok := Legs("l", p)
	require.True(t, ok)
	sound(t, f)
	has(t, f.Markup, "main 100 A")
	p.MainAmps = number(400)
	f, _ = Legs("l", p)
	require.NotContains(t, f.Markup, "main 400 A", "it would flatten the lines")
}

func TestAxisHasRoundStepsAndHoldsItsRange(t *testing.T) {
	for _, c := range []struct{ low, high, step, top float64 }{{0, 7, 2, 8}, {0, 63.8, 20, 80}, {-1866, 17463, 5000, 20000}, {0, 0.03, 0.01, 0.03}, {0, 0, 0.2, 1}} {
		a := axisFor(c.low, c.high)
		require.InDelta(t, c.step, a.step, 1e-9, "%v", c)
		require.InDelta(t, c.top, a.high, 1e-9, "%v", c)
		require.LessOrEqual(t, a.low, c.low)
	}
}

func TestEscapeLeavesNothingToOpenOrClose(t *testing.T) {
	require.Equal(t, "&lt;script&gt;&#34;&amp;&#39;\\u202e", escape(nasty))
	require.Equal(t, "abc…", Short("abcdef", 4))
	require.Equal(t, "abc", Short("abc", 4))
}
