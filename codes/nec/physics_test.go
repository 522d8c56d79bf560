package nec_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/codes"
)

func trim(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// leading reads the number a key begins with.
func leading(key string) float64 {
	var x float64
	fmt.Sscanf(key, "%g", &x)
	return x
}

// The correction factors follow from I' = I · √((Tc − Ta') / (Tc − 30)) at the
// upper end of each band, to two places: every cell.
func TestAmbientFactorsFollowFromTheEquation(t *testing.T) {
	p := profile(t, "nec-2023")
	x := p.Wires.Ambient
	cells := 0
	for _, r := range x.Rows {
		for _, c := range x.Columns {
			v, _, ok := x.Value(r.Key, c)
			tc, ta := leading(c), leading(r.Key)
			if !ok {
				assert.GreaterOrEqual(t, ta, tc, "%s at %s: left out only where nothing is left", c, r.Key)
				continue
			}
			cells++
			assert.InDelta(t, math.Sqrt((tc-ta)/(tc-30)), v, 0.005000001, "%s at %s", c, r.Key)
		}
	}
	assert.Equal(t, 39, cells)
}

// Area times resistance is the resistivity: the same for all sizes of a metal
// within the rounding of the printed digits, three at most.
func TestAreaAndResistanceAgree(t *testing.T) {
	p := profile(t, "nec-2023")
	x := p.Wires.Properties
	for material, k := range map[string]float64{"copper": 12.9, "aluminum": 21.2} {
		for _, r := range x.Rows {
			ohm, _, ok := x.Value(r.Key, material)
			area, _, _ := x.Value(r.Key, "area")
			if ok {
				assert.InDelta(t, k, area*ohm/1000, 0.012*k, "%s %s", material, r.Key)
			}
		}
	}
}

// Solid conductors resist a little less than stranded ones.
func TestSolidIsBelowStranded(t *testing.T) {
	p := profile(t, "nec-2023")
	solid := table(t, p, "properties-solid")
	for _, r := range solid.Rows {
		for _, c := range solid.Columns {
			s, _, _ := solid.Value(r.Key, c)
			str, _, _ := p.Wires.Properties.Value(r.Key, c)
			assert.InDelta(t, 1.02, str/s, 0.01, "%s %s", c, r.Key)
		}
	}
}

// The printed impedance at power factor 0.85 is R · 0.85 + X · 0.527 within the
// rounding of both, which is up to 6 %.
func TestImpedanceFollowsFromResistanceAndReactance(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, material := range []string{"copper", "aluminum"} {
		z := table(t, p, "impedance-"+material)
		for _, r := range z.Rows {
			for _, c := range z.Columns {
				want, _, _ := z.Value(r.Key, c)
				ohm, _, ok := p.Wires.Alternating[material].Value(r.Key, c)
				x, _, ok2 := p.Wires.Reactance.Value(r.Key, c)
				assert.True(t, ok && ok2)
				assert.InDelta(t, want, 0.85*ohm+0.527*x, 0.06*want, "%s %s in %s", r.Key, material, c)
			}
		}
	}
}

// The ac resistance is the dc resistance within its two printed digits up to
// 4/0 AWG, and above it beyond.
func TestAlternatingResistanceAgreesWithDirect(t *testing.T) {
	p := profile(t, "nec-2023")
	for material, x := range p.Wires.Alternating {
		for _, r := range x.Rows {
			dc, _, _ := p.Wires.Properties.Value(r.Key, material)
			for _, c := range x.Columns {
				ac, _, _ := x.Value(r.Key, c)
				assert.Greater(t, ac, 0.96*dc, "%s %s in %s", r.Key, material, c)
				assert.Less(t, ac, 1.5*dc+0.0001, "%s %s in %s", r.Key, material, c)
			}
		}
	}
}

// Reactance falls as conductors grow, apart from single steps where insulation
// gets thicker, and is about a quarter more in steel.
func TestReactanceInSteelIsHigher(t *testing.T) {
	x := profile(t, "nec-2023").Wires.Reactance
	for _, r := range x.Rows {
		steel, _, _ := x.Value(r.Key, "steel")
		pvc, _, _ := x.Value(r.Key, "PVC")
		emt, _, _ := x.Value(r.Key, "EMT")
		assert.InDelta(t, 1.25, steel/pvc, 0.03, r.Key)
		assert.Equal(t, steel, emt, "EMT is a steel raceway")
	}
}

// Inside areas are π/4 · diameter², the shares of them as printed.
func TestRacewayAreasFollowFromDiameters(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, x := range []codes.Table{table(t, p, "raceway-emt"), table(t, p, "raceway-pvc")} {
		for _, r := range x.Rows {
			d, _, _ := x.Value(r.Key, "diameter")
			area := math.Pi / 4 * d * d
			for _, c := range x.Columns[1:] {
				v, _, ok := x.Value(r.Key, c)
				if ok {
					share := leading(strings.TrimSuffix(c, "%")) / 100
					assert.InDelta(t, share*area, v, 0.0011, "%s %s, %s", x.ID, r.Key, c)
				}
			}
		}
	}
	x := table(t, p, "outside-thhn")
	for _, r := range x.Rows {
		d, _, _ := x.Value(r.Key, "diameter")
		a, _, _ := x.Value(r.Key, "area")
		assert.InDelta(t, math.Pi/4*d*d, a, math.Pi/4*d*0.001+0.00005, r.Key)
	}
}
