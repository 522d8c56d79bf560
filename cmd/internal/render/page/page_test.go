package page

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

func known(x float64) *float64 { return &x }

func TestCellsRoundForReadersOnly(t *testing.T) {
	for _, c := range []struct {
		why         string
		cell        Cell
		shown, data string
	}{
		{"thousands for people, none for programs", number(1234567.891, 1), "1,234,567.9", "1234567.9"},
		{"no minus before nothing", number(-0.001, 2), "0.00", "0.00"},
		{"a small loss keeps its sign", number(-0.006, 2), "-0.01", "-0.01"},
		{"not known", maybe(nil, 2), "?", "?"},
		{"no meaning", absent(nil), "", ""},
	} {
		require.Equal(t, c.shown, c.cell.Shown(), c.why)
		require.Equal(t, c.data, c.cell.Data(), c.why)
	}
}

func TestMetricIsTheRenderersArgument(t *testing.T) {
	us, si := System{}, System{Metric: true}
	require.Equal(t, "60", us.maybeLength(known(60)).Shown())
	require.Equal(t, "18", si.maybeLength(known(60)).Shown(), "60 ft are 18.288 m")
	require.Equal(t, "3,412 BTU/h", us.heatText(units.FromTons(1).BTUPerHour()*3412.142/12000))
	require.Equal(t, "1.00 kW", si.heatText(3412.142))
	require.Equal(t, "473", si.water(known(1000)).Shown(), "1,000 pints are 473.18 L")
	require.Equal(t, "1,699", si.air(known(1000)).Shown(), "1,000 CFM are 1,699.01 m3/h")
}

// TestEveryNumberIsOneOfTheDocument reads the numbers of all tables and demands
// that each is a number of the document, rounded as the cell says: a page
// computes nothing.
func TestEveryNumberIsOneOfTheDocument(t *testing.T) {
	d := document.Plan{
		Panels: []document.Panel{{Name: "LP1", SpacesUsed: 7, MainAmps: known(100), RequiredAmps: 51.017, NeutralAmps: known(4.593), ConnectedVA: 9419.7,
			DemandVA: 11774.2, ImbalancePercent: known(11.27), LegAmps: map[string]float64{}}},
		Circuits: []document.Circuit{{Name: "LP1-1", Panel: "LP1", Poles: 2, Volts: 240, BreakerAmps: known(20), LoadAmps: known(13.6054), RequiredAmps: known(17.0068), FreeAmps: known(2.394),
			Limits: []document.Limit{{UsedPercent: 85.034}, {UsedPercent: 68.027}}, Conductor: document.Conductor{LengthFeet: known(61), DropPercent: known(1.345)}}},
		Heat:           []document.RoomHeat{{WattsInRoom: 8015, PeakHour: 6, PeakTotalBTUH: 27348.2, Tons: 2.279}},
		VoltageChoices: []document.VoltageChoice{{Options: []document.VoltageOption{{Volts: 208, Phases: 1, Spaces: 12, Circuits: 6, AmpsEach: 3.1397}}}},
	}
	numbersOf(t, d, Plan(d, System{}))
}

func collect(x any, into *[]float64) {
	switch x := x.(type) {
	case float64:
		*into = append(*into, x)
	case []any:
		for _, y := range x {
			collect(y, into)
		}
	case map[string]any:
		for _, y := range x {
			collect(y, into)
		}
	}
}

func rounds(c Cell, figures []float64) bool {
	shown, err := strconv.ParseFloat(c.Data(), 64)
	if err != nil {
		return false
	}
	for _, f := range figures {
		if math.Abs(f-shown) <= 0.5*math.Pow10(-c.digits)+1e-9 {
			return true
		}
	}
	return false
}

func TestAssumedAlikeStandsOnce(t *testing.T) {
	items := grouped([]document.Assumption{
		{Subject: "fans.a.power_factor", Value: "0.6", Why: "not given", Source: "s"},
		{Subject: "fans.b.power_factor", Value: "0.6", Why: "not given", Source: "s"},
		{Subject: "fans.c.power_factor", Value: "0.7", Why: "not given", Source: "s"},
		{Subject: "power_factor", Value: "0.9", Why: "not given", Source: "s"},
	})
	require.Equal(t, []string{
		"power_factor of fans.a, fans.b = 0.6: not given [s]",
		"fans.c.power_factor = 0.7: not given [s]",
		"power_factor = 0.9: not given [s]",
	}, items)
}
