package cli

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/loads/anysite"
)

// metric converts a figure of a US unit, with the factors of NIST SP 811 that are
// exact by definition, written out here once more.
func metric(us, si string) (func(float64) float64, bool) {
	times := func(k float64) func(float64) float64 { return func(x float64) float64 { return x * k } }
	f, ok := map[string]func(float64) float64{
		"pint L":          times(0.473176473),
		"gal L":           times(3.785411784),
		"ft m":            times(0.3048),
		"ft2 m2":          times(0.3048 * 0.3048),
		"BTU/h kW":        times(1055.05585262 / 3600 / 1000),
		"BTU/h W":         times(1055.05585262 / 3600),
		"pint/day L/day":  times(0.473176473),
		"gal/day L/day":   times(3.785411784),
		"CFM m3/h":        times(1.699010795520),
		"°F °C":           func(x float64) float64 { return (x - 32) / 1.8 },
		"lb kg":           times(0.45359237),
		"grains/lb g/kg":  times(1.0 / 7),
		"W/ft² W/m²":      times(1 / (0.3048 * 0.3048)),
		"g/day/ft2 g/day": times(1),
	}[us+" "+si]
	return f, ok
}

// sameCell compares two cells of the same place: the same text, or the same
// figure in another unit, each as far as it is rounded.
func sameCell(t require.TestingT, us, si page.Cell, unitUS, unitSI, where string) {
	if unitUS == unitSI {
		sameText(t, us.Data(), si.Data(), where)
		return
	}
	x, errUS := strconv.ParseFloat(us.Data(), 64)
	y, errSI := strconv.ParseFloat(si.Data(), 64)
	if errUS != nil || errSI != nil {
		require.Equal(t, us.Data(), si.Data(), where)
		return
	}
	convert, ok := metric(unitUS, unitSI)
	require.True(t, ok, "%s: %s and %s", where, unitUS, unitSI)
	slack := half(us.Data())*(convert(1)-convert(0)) + half(si.Data())
	require.InDelta(t, convert(x), y, slack*(1+1e-9), "%s: %s %s and %s %s", where, us.Data(), unitUS, si.Data(), unitSI)
}

// half is half of the last place that a figure is printed to.
func half(s string) float64 {
	_, after, _ := strings.Cut(s, ".")
	return 0.5 * math.Pow10(-len(after))
}

var measure = regexp.MustCompile(`(-?[\d,]+(?:\.\d+)?) (BTU/h|pint/day|gal/day|L/day|pint|gal|L|CFM|m3/h|kW|W|ft2|m2|ft|m|grains/lb|g/kg|lb|kg|°F|°C)`)

// sameText compares two texts that differ in measures only.
func sameText(t require.TestingT, us, si, where string) {
	si = strings.TrimSuffix(si, "; notes keep the units that they were worked in")
	if us == si {
		return
	}
	require.Equal(t, measure.ReplaceAllString(us, "#"), measure.ReplaceAllString(si, "#"), where)
	a, b := measure.FindAllStringSubmatch(us, -1), measure.FindAllStringSubmatch(si, -1)
	require.Len(t, b, len(a), where)
	for i := range a {
		x, _ := strconv.ParseFloat(strings.ReplaceAll(a[i][1], ",", ""), 64)
		y, _ := strconv.ParseFloat(strings.ReplaceAll(b[i][1], ",", ""), 64)
		if a[i][2] == b[i][2] {
			require.Equal(t, x, y, where)
			continue
		}
		convert, ok := metric(a[i][2], b[i][2])
		require.True(t, ok, "%s: %s and %s", where, a[i][0], b[i][0])
		slack := half(a[i][1])*(convert(1)-convert(0)) + half(b[i][1])
		require.InDelta(t, convert(x), y, slack*(1+1e-9), "%s: %s and %s", where, a[i][0], b[i][0])
	}
}

// samePage compares two pages block by block.
func samePage(t require.TestingT, us, si page.Page) {
	require.Len(t, si.Blocks, len(us.Blocks))
	for i := range us.Blocks {
		switch a := us.Blocks[i].(type) {
		case page.Table:
			b, ok := si.Blocks[i].(page.Table)
			require.True(t, ok && a.ID == b.ID && len(a.Columns) == len(b.Columns) && len(a.Rows) == len(b.Rows), "table %s", a.ID)
			// a column of units says what the figures of its row are in
			unit := slices.IndexFunc(a.Columns, func(c page.Column) bool { return c.Name == "unit" })
			for r := range a.Rows {
				for c := range a.Columns {
					require.Equal(t, a.Columns[c].Name, b.Columns[c].Name)
					unitUS, unitSI := a.Columns[c].Unit, b.Columns[c].Unit
					if unit == c {
						continue
					}
					if unit >= 0 && unitUS == "" {
						unitUS, unitSI = a.Rows[r][unit].Data(), b.Rows[r][unit].Data()
					}
					sameCell(t, a.Rows[r][c], b.Rows[r][c], unitUS, unitSI, a.ID+": "+a.Columns[c].Name)
				}
			}
		case page.Text:
			sameText(t, a.Text, si.Blocks[i].(page.Text).Text, "text")
		case page.List:
			b := si.Blocks[i].(page.List)
			require.Len(t, b.Items, len(a.Items))
			for k := range a.Items {
				sameText(t, a.Items[k], b.Items[k], "list")
			}
		case page.Fields:
			b := si.Blocks[i].(page.Fields)
			require.Len(t, b.Rows, len(a.Rows))
			for k := range a.Rows {
				require.Equal(t, a.Rows[k].Name, b.Rows[k].Name)
				sameText(t, a.Rows[k].Value, b.Rows[k].Value, a.Rows[k].Name)
			}
		default:
			require.Equal(t, us.Blocks[i], si.Blocks[i])
		}
	}
}

// Metric and US output are one plan: every figure that readers see in one system
// is that of the other, converted.
func TestBothUnitSystemsShowTheSamePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site := anysite.Any(t).Text()
		s := silent()
		inv, p, err := parseSite(s, "any.toml", []byte(site), "", defaultWidth)
		require.NoError(t, err)
		r, err := silent().work(inv, p, false)
		require.NoError(t, err)
		d := document.NewPlan(r)
		samePage(t, page.Plan(d, page.System{}), page.Plan(d, page.System{Metric: true}))
		h := document.NewHeat(r, true)
		samePage(t, page.Heat(h, page.System{}), page.Heat(h, page.System{Metric: true}))
	})
}
