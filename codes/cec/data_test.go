package cec_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/cec"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// profile returns the edition.
func profile(t require.TestingT) *codes.Profile {
	all := cec.Profiles()
	require.Len(t, all, 1)
	require.Equal(t, "cec-2024", all[0].Name)
	return all[0]
}

// table returns a table of the profile.
func table(t *testing.T, id string) codes.Table {
	t.Helper()
	for _, x := range profile(t).Tables {
		if x.ID == id {
			return x
		}
	}
	require.Fail(t, "no table "+id)
	return codes.Table{}
}

// column returns the values of a column that are there, in the order of the rows.
func column(x codes.Table, name string) []float64 {
	var out []float64
	for _, r := range x.Rows {
		if v, _, ok := x.Value(r.Key, name); ok {
			out = append(out, v)
		}
	}
	return out
}

func ascends(t *testing.T, values []float64, what string) {
	t.Helper()
	for i := 1; i < len(values); i++ {
		assert.Greater(t, values[i], values[i-1], "%s, place %d", what, i)
	}
}

// leading reads the number a key begins with.
func leading(key string) float64 {
	var x float64
	fmt.Sscanf(key, "%g", &x)
	return x
}

func TestEveryTableSaysWhereItStandsAndHowItWasChecked(t *testing.T) {
	p := profile(t)
	ids := map[string]bool{}
	for _, x := range p.Tables {
		assert.False(t, ids[x.ID], "%s twice", x.ID)
		ids[x.ID] = true
		assert.NotEmpty(t, x.Rows, x.ID)
		if x.Ref == p.Ref {
			assert.NotEmpty(t, x.Cite(p.Edition, steps.Seen).At, x.ID)
		}
		assert.NotEqual(t, "nfpa70", x.Ref, "%s: a table of another code", x.ID)
		keys := map[string]bool{}
		for _, r := range x.Rows {
			assert.NotEmpty(t, r.How, "%s, row %q", x.ID, r.Key)
			assert.False(t, keys[r.Key], "%s: row %q twice", x.ID, r.Key)
			keys[r.Key] = true
			if r.How == steps.Seen {
				assert.NotEmpty(t, r.From, "%s, row %q", x.ID, r.Key)
			}
		}
		if len(x.Units) > 0 {
			assert.Len(t, x.Units, len(x.Columns), x.ID)
		}
	}
}

func TestAmpacityAscendsDownAndAcross(t *testing.T) {
	w := profile(t).Wires
	for material, x := range w.Ampacity {
		for _, c := range x.Columns {
			ascends(t, column(x, c), material+" "+c)
		}
		for _, r := range x.Rows {
			ascends(t, r.Values, material+" "+r.Key)
			_, _, ok := w.Resistance(material, r.Key)
			assert.True(t, ok, "%s %s has an ampacity and no resistance", material, r.Key)
		}
	}
	al := w.Ampacity["aluminum"]
	for _, r := range al.Rows {
		for _, c := range al.Columns {
			a, _, _ := al.Value(r.Key, c)
			cu, _, ok := w.Ampacity["copper"].Value(r.Key, c)
			assert.True(t, ok && a < cu, "%s at %s: aluminum below copper", r.Key, c)
		}
	}
	_, _, ok := al.Value("14 AWG", "60 C")
	assert.False(t, ok, "14 AWG aluminum is not permitted")
}

// The correction factors follow from I' = I · √((Tc − Ta) / (Tc − 30)) to two
// places: every cell. Between two temperatures the higher one counts.
func TestAmbientFactorsFollowFromTheEquation(t *testing.T) {
	w := profile(t).Wires
	cells := 0
	for _, r := range w.Ambient.Rows {
		for _, c := range w.Ambient.Columns {
			v, _, ok := w.Ambient.Value(r.Key, c)
			tc, ta := leading(c), leading(r.Key)
			if !ok {
				assert.GreaterOrEqual(t, ta, tc, "%s at %s: left out only where nothing is left", c, r.Key)
				continue
			}
			cells++
			assert.InDelta(t, math.Sqrt((tc-ta)/(tc-30)), v, 0.005000001, "%s at %s", c, r.Key)
		}
	}
	assert.Equal(t, 22, cells)
	for _, x := range []struct{ ambient, want float64 }{{10, 1}, {30, 1}, {30.1, 0.96}, {36, 0.91}, {61, 0.58}} {
		f, _, ok := w.AmbientFactor(90, units.Temperature(x.ambient))
		assert.True(t, ok)
		assert.Equal(t, units.Ratio(x.want), f, "%g C", x.ambient)
	}
	_, _, ok := w.AmbientFactor(90, 71)
	assert.False(t, ok, "beyond the table")
}

func TestBundleFactorsFall(t *testing.T) {
	w := profile(t).Wires
	for _, x := range []struct {
		n    int
		want units.Ratio
	}{{1, 1}, {3, 1}, {4, 0.8}, {6, 0.8}, {7, 0.7}, {24, 0.7}, {25, 0.6}, {42, 0.6}, {43, 0.5}, {100, 0.5}} {
		f, _, ok := w.BundleFactor(x.n)
		assert.True(t, ok)
		assert.Equal(t, x.want, f, "%d conductors", x.n)
	}
}

// Areas follow from the definition of the gauge, resistances from the resistivity
// of the metal at 75 °C with 2 % for stranding: every cell.
func TestAreasAndResistancesFollowFromTheirDefinitions(t *testing.T) {
	x := profile(t).Wires.Properties
	four := func(v float64) float64 {
		unit := math.Pow(10, math.Floor(math.Log10(v))-3)
		return math.Round(v/unit) * unit
	}
	for _, r := range x.Rows {
		area, _, _ := x.Value(r.Key, "area")
		if size, gauge := strings.CutSuffix(r.Key, " AWG"); gauge {
			n := leading(size)
			if zeros, ok := strings.CutSuffix(size, "/0"); ok {
				n = 1 - leading(zeros)
			}
			mil := math.Round(50*math.Pow(92, (36-n)/39)) / 10
			assert.InDelta(t, four(mil*mil), area, 1e-6, r.Key)
		} else {
			assert.Equal(t, 1000*leading(r.Key), area, r.Key)
		}
		mm2 := area * math.Pi / 4 * 0.0254 * 0.0254
		for material, m := range map[string]struct{ rho, alpha float64 }{"copper": {0.017241, 0.00393}, "aluminum": {0.028264, 0.00403}} {
			if ohm, _, ok := x.Value(r.Key, material); ok {
				assert.InDelta(t, m.rho*(1+55*m.alpha)*1.02*304.8/mm2, ohm, 0.0005*ohm, "%s %s", material, r.Key)
			}
		}
	}
	ascends(t, column(x, "area"), "area")
}

// Larger devices never have smaller bonding conductors, aluminum is never smaller
// than copper.
func TestBondingGrowsWithTheDevice(t *testing.T) {
	w := profile(t).Wires
	area := func(size string) float64 {
		a, ok := w.Area(size)
		require.True(t, ok, size)
		return a
	}
	for i, r := range w.Ground.Rows {
		assert.Greater(t, area(r.Text[1]), area(r.Text[0]), r.Key)
		if i > 0 {
			before := w.Ground.Rows[i-1]
			assert.GreaterOrEqual(t, area(r.Text[0]), area(before.Text[0]), r.Key)
			assert.GreaterOrEqual(t, area(r.Text[1]), area(before.Text[1]), r.Key)
			assert.Greater(t, leading(r.Key), leading(before.Key))
		}
	}
}

// Conductors that are enlarged for voltage drop alone get a bonding conductor in
// proportion to their area. For every device, column and larger size that is no
// less than column 2 of the table asks for, which goes by their ampacity, but for
// four steps of aluminum, which NotCovered tells.
func TestBondingInProportionIsNoLessThanByAmpacity(t *testing.T) {
	p := profile(t)
	w := p.Wires
	checked, short := 0, []string{}
	for _, material := range []string{"copper", "aluminum"} {
		for _, at := range []units.Temperature{60, 75} {
			for _, device := range p.Devices.Ratings {
				needed := ""
				for _, size := range w.Sizes {
					i, _, ok := w.AmpacityOf(material, size, at)
					limit, _, small := w.SmallLimit(material, size)
					if ok && i >= device && (!small || limit >= device) {
						needed = size
						break
					}
				}
				if needed == "" {
					continue
				}
				table, _, ok := w.GroundFor(device, material)
				require.True(t, ok)
				for _, size := range w.From(needed)[1:] {
					i, _, _ := w.AmpacityOf(material, size, at)
					byAmps, _, _ := w.GroundFor(i, material)
					a, _ := w.Area(byAmps)
					at, _ := w.Area(table)
					ai, _ := w.Area(size)
					am, _ := w.Area(needed)
					share := min(at*ai/am, ai)
					got := 0.0
					for _, s := range w.Sizes {
						if g, _ := w.Area(s); got == 0 && !units.Exceeds(units.Ratio(share), units.Ratio(g)) {
							got = g
						}
					}
					checked++
					if got < a {
						short = append(short, fmt.Sprintf("%s %v %s to %s", material, device, needed, size))
					}
				}
			}
		}
	}
	assert.Greater(t, checked, 800)
	assert.Equal(t, []string{"aluminum 175 A 300 kcmil to 350 kcmil", "aluminum 200 A 350 kcmil to 400 kcmil",
		"aluminum 175 A 4/0 AWG to 250 kcmil", "aluminum 200 A 250 kcmil to 300 kcmil"}, short)
}

func TestRatingsAscendAndServeBranchCircuits(t *testing.T) {
	p := profile(t)
	var values []float64
	for _, r := range p.Devices.Ratings {
		values = append(values, float64(r))
	}
	ascends(t, values, "ratings")
	for i, r := range table(t, "device-ratings").Rows {
		assert.Equal(t, leading(r.Key), values[i], r.Key)
	}
	for _, r := range p.Branch.Ratings {
		assert.True(t, p.Devices.Standard(r), "%v", r)
		made := false
		for _, x := range p.Receptacles {
			made = made || x.Amps == r
		}
		assert.True(t, made, "no receptacle of %v", r)
	}
	for _, x := range []codes.Table{p.Wires.Small["copper"], p.Wires.Small["aluminum"]} {
		ascends(t, column(table(t, x.ID), "device"), x.ID)
	}
}
