package nec_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/nec"
	"branchwork/loads/steps"
)

// profile returns an edition.
func profile(t *testing.T, name string) *codes.Profile {
	t.Helper()
	for _, p := range nec.Profiles() {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no profile "+name)
	return nil
}

// table returns a table of an edition.
func table(t *testing.T, p *codes.Profile, id string) codes.Table {
	t.Helper()
	for _, x := range p.Tables {
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

func TestEveryTableSaysWhereItStandsAndHowItWasChecked(t *testing.T) {
	for _, p := range nec.Profiles() {
		ids := map[string]bool{}
		for _, x := range p.Tables {
			assert.False(t, ids[x.ID], "%s: %s twice", p.Name, x.ID)
			ids[x.ID] = true
			assert.NotEmpty(t, x.Rows, x.ID)
			if x.Ref == "nfpa70" {
				assert.NotEmpty(t, x.Cite(p.Edition, steps.Seen).At, "%s: no place in %s", x.ID, p.Name)
			}
			keys := map[string]bool{}
			for _, r := range x.Rows {
				assert.NotEmpty(t, r.How, "%s, row %q", x.ID, r.Key)
				assert.False(t, keys[r.Key], "%s: row %q twice", x.ID, r.Key)
				keys[r.Key] = true
				for _, f := range r.From {
					_, ok := steps.Lookup(f)
					assert.True(t, ok, "%s, row %q: %s", x.ID, r.Key, f)
				}
				if r.How == steps.Seen {
					assert.NotEmpty(t, r.From, "%s, row %q", x.ID, r.Key)
				}
			}
			if len(x.Units) > 0 {
				assert.Len(t, x.Units, len(x.Columns), x.ID)
			}
		}
	}
}

func TestAmpacityAscendsDownAndAcross(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, material := range []string{"copper", "aluminum"} {
		x := p.Wires.Ampacity[material]
		for _, c := range x.Columns {
			ascends(t, column(x, c), material+" "+c)
		}
		for _, r := range x.Rows {
			for i := 1; i < len(r.Values); i++ {
				if !math.IsNaN(r.Values[i-1]) {
					assert.Greater(t, r.Values[i], r.Values[i-1], "%s %s", material, r.Key)
				}
			}
		}
	}
	al := p.Wires.Ampacity["aluminum"]
	for _, r := range al.Rows {
		for _, c := range al.Columns {
			a, _, _ := al.Value(r.Key, c)
			cu, _, ok := p.Wires.Ampacity["copper"].Value(r.Key, c)
			assert.True(t, ok && a < cu, "%s at %s: aluminum below copper", r.Key, c)
		}
	}
}

func TestSizesAscendByArea(t *testing.T) {
	p := profile(t, "nec-2023")
	x := p.Wires.Properties
	ascends(t, column(x, "area"), "area")
	for _, r := range x.Rows {
		if kcmil, ok := strings.CutSuffix(r.Key, " kcmil"); ok {
			v, _, _ := x.Value(r.Key, "area")
			assert.Equal(t, kcmil+"000", strings.TrimSpace(trim(v)), "kcmil sizes are exact by definition")
		}
	}
	for _, material := range []string{"copper", "aluminum"} {
		for _, r := range p.Wires.Ampacity[material].Rows {
			_, _, ok := x.Value(r.Key, material)
			assert.True(t, ok, "%s %s has an ampacity and no resistance", material, r.Key)
		}
	}
	for _, x := range []codes.Table{p.Wires.Ground} {
		for _, r := range x.Rows {
			for _, size := range r.Text {
				_, ok := p.Wires.Area(size)
				assert.True(t, ok, "%s %s", r.Key, size)
			}
		}
	}
}

func TestFactorsFall(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, c := range p.Wires.Ambient.Columns {
		v := column(p.Wires.Ambient, c)
		for i := 1; i < len(v); i++ {
			assert.Less(t, v[i], v[i-1], "ambient correction, %s", c)
		}
		assert.Greater(t, v[len(v)-1], 0.0)
	}
	v := column(p.Wires.Bundle, "factor")
	assert.Equal(t, 1.0, v[0])
	for i := 1; i < len(v); i++ {
		assert.Less(t, v[i], v[i-1], "adjustment")
	}
	assert.Greater(t, v[len(v)-1], 0.0)
}

// Larger devices never have smaller grounding conductors, aluminum is never
// smaller than copper.
func TestGroundGrowsWithTheDevice(t *testing.T) {
	p := profile(t, "nec-2023")
	area := func(size string) float64 { a, _ := p.Wires.Area(size); return a }
	rows := p.Wires.Ground.Rows
	for i, r := range rows {
		assert.Greater(t, area(r.Text[1]), area(r.Text[0]), r.Key)
		if i > 0 {
			assert.GreaterOrEqual(t, area(r.Text[0]), area(rows[i-1].Text[0]), r.Key)
			assert.GreaterOrEqual(t, area(r.Text[1]), area(rows[i-1].Text[1]), r.Key)
		}
	}
}

func TestStandardRatingsAndRacewaysAscend(t *testing.T) {
	for _, p := range nec.Profiles() {
		for i := 1; i < len(p.Devices.Ratings); i++ {
			assert.Greater(t, p.Devices.Ratings[i], p.Devices.Ratings[i-1])
		}
		for _, r := range p.Branch.Ratings {
			assert.True(t, p.Devices.Standard(r), "%s: %v", p.Name, r)
		}
		for _, x := range p.Wires.Trade {
			for _, c := range x.Columns {
				ascends(t, column(x, c), x.ID+" "+c)
			}
		}
		for _, c := range []string{"area", "diameter"} {
			ascends(t, column(table(t, p, "outside-thhn"), c), c)
		}
	}
}

func TestMotorCurrents(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, x := range []codes.Table{p.Motors.One, p.Motors.Three} {
		for _, c := range x.Columns {
			ascends(t, column(x, c), x.ID+" "+c)
		}
		for _, r := range x.Rows {
			for i := 1; i < len(r.Values); i++ {
				if !math.IsNaN(r.Values[i-1]) {
					assert.Less(t, r.Values[i], r.Values[i-1], "%s %s: a higher voltage takes less", x.ID, r.Key)
				}
			}
		}
	}
}
