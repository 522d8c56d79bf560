package csv

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

func known(x float64) *float64 { return &x }

func records(t *testing.T, d document.Plan) [][]string {
	var b bytes.Buffer
	require.NoError(t, Render(&b, page.Plan(d, page.System{})))
	out, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	require.NoError(t, err, "all records have the same number of fields")
	return out
}

func TestFormulasAreDisarmed(t *testing.T) {
	for _, evil := range []string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"} {
		d := document.Plan{Circuits: []document.Circuit{{Name: evil, Panel: "LP1"}}, Panels: []document.Panel{{Name: "LP1"}}}
		for _, r := range records(t, d) {
			if r[0] == "circuits" {
				require.NotContains(t, "=+-@\t\r", r[1][:1], "%q", evil)
				require.True(t, strings.HasPrefix(r[1], "'") || strings.HasPrefix(r[1], `\`), "%q became %q", evil, r[1])
			}
		}
	}
}

func TestNegativeNumbersStayNumbers(t *testing.T) {
	d := document.Plan{Heat: []document.RoomHeat{{Room: "dry", PeakTotalBTUH: -1234.5, Tons: -0.1}}}
	for _, r := range records(t, d) {
		if r[0] == "heat" {
			require.Equal(t, "-1234", r[5][:5], "no apostrophe and no thousands separator")
		}
	}
}

func TestEveryFigureOfACircuitIsThere(t *testing.T) {
	c := document.Circuit{Name: "LP1-1", Panel: "LP1", Spaces: []int{1, 3}, Legs: []string{"A", "B"}, Poles: 2, Volts: 240, BreakerAmps: known(20),
		LoadAmps: known(13.6054), RequiredAmps: known(17.0068), FreeAmps: known(2.394), Limits: []document.Limit{{Rule: "r", UsedPercent: 85.034}},
		Conductor: document.Conductor{LengthFeet: known(60), DropPercent: known(1.345)}}
	rows := records(t, document.Plan{Circuits: []document.Circuit{c}, Panels: []document.Panel{{Name: "LP1"}}})
	var heads, values []string
	for i, r := range rows {
		if r[0] == "circuits" {
			heads, values = rows[i-1], r
		}
	}
	got := map[string]string{}
	for i, h := range heads {
		got[h] = values[i]
	}
	for head, want := range map[string]string{"circuit": "LP1-1", "panel": "LP1", "spaces": "1,3", "legs": "A-B", "volts": "240", "breaker A": "20", "poles": "2",
		"load A": "13.61", "required A": "17.01", "free A": "2.39", "run ft": "60", "drop %": "1.34", "used %": "85.0", "governing limit": "r"} {
		require.Equal(t, want, got[head], head)
	}
}
