package panel

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

const (
	legA = iota
	legB
	legC
)

func neutralLoad(amps units.Current, pf units.Ratio, leg int) Branch {
	return Branch{Legs: []int{leg}, Supply: inventory.Supply{Volts: 120, Poles: 1, Phases: 1, Neutral: true}, Amps: amps, PF: pf}
}

func lineLoad(amps units.Current, x, y int) Branch {
	return Branch{Legs: []int{x, y}, Supply: inventory.Supply{Volts: 208, Poles: 2, Phases: 1}, Amps: amps, PF: 1}
}

func threePhase(amps units.Current, pf units.Ratio) Branch {
	return Branch{Legs: []int{legA, legB, legC}, Supply: inventory.Supply{Volts: 208, Poles: 3, Phases: 3}, Amps: amps, PF: pf}
}

// Three 20 A line-to-line loads on a 208Y/120 V panel. By hand: each line
// carries the difference of two currents 120° apart, √3 × 20 = 34.64 A; half
// the volt-amperes per leg at 120 V would say 34.67 A here by luck, and 17.3
// instead of 20 A for one such load.
func ExampleCurrents() {
	wye, _ := inventory.SystemNamed("208Y/120 V 3ph")
	load := func(x, y int) Branch { return Branch{Legs: []int{x, y}, Amps: 20, PF: 1} }

	legs, _ := Currents(wye, []Branch{load(0, 1), load(1, 2), load(2, 0)})
	fmt.Printf("%.2f %.2f %.2f\n", float64(legs[0]), float64(legs[1]), float64(legs[2]))
	legs, _ = Currents(wye, []Branch{load(0, 1)})
	fmt.Printf("%.2f %.2f %.2f\n", float64(legs[0]), float64(legs[1]), float64(legs[2]))
	// Output:
	// 34.64 34.64 34.64
	// 20.00 20.00 0.00
}

func assertCurrents(t *testing.T, why string, want []float64, wantNeutral, tol float64, sys inventory.System, branches ...Branch) {
	t.Helper()
	legs, neutral := Currents(sys, branches)
	assert.Len(t, legs, len(want), why)
	for i, w := range want {
		assert.InDelta(t, w, float64(legs[i]), tol, "%s: leg %d", why, i)
	}
	assert.InDelta(t, wantNeutral, float64(neutral), tol, "%s: neutral", why)
}

// Vectors derived by hand from Ia = Ian + Iab − Ica and cyclic; rounded to a
// milliampere.
func TestCurrentsOfMixedLoadsOnWye(t *testing.T) {
	for _, c := range []struct {
		an, bn, cn, ab, bc, ca units.Current
		legs                   []float64
		neutral                float64
	}{
		{0, 0, 0, 20, 0, 0, []float64{20, 20, 0}, 0},
		{0, 0, 0, 20, 20, 0, []float64{20, 34.641, 20}, 0},
		{0, 0, 0, 20, 20, 20, []float64{34.641, 34.641, 34.641}, 0},
		{0, 0, 0, 12, 14, 16, []float64{24.331, 22.539, 26}, 0},
		{10, 0, 0, 16, 0, 0, []float64{25.162, 16, 0}, 10},
		{10, 10, 10, 16, 16, 16, []float64{37.713, 37.713, 37.713}, 0},
	} {
		assertCurrents(t, fmt.Sprint(c), c.legs, c.neutral, 0.0005, system(t, wye208),
			neutralLoad(c.an, 1, legA), neutralLoad(c.bn, 1, legB), neutralLoad(c.cn, 1, legC),
			lineLoad(c.ab, legA, legB), lineLoad(c.bc, legB, legC), lineLoad(c.ca, legC, legA))
	}
}

// Published cases; tolerance is half the last digit printed there.
func TestCurrentsOfPublishedCases(t *testing.T) {
	wye := system(t, wye208)

	// F35: 14 A on each pair of a 208 V system gives 24.25 A in each line.
	// industrialmonitordirect.com, "Calculating 3-phase wye leg currents from
	// line-to-line loads".
	assertCurrents(t, "F35", []float64{24.25, 24.25, 24.25}, 0, 0.005, wye,
		lineLoad(14, legA, legB), lineLoad(14, legB, legC), lineLoad(14, legC, legA))

	// F37: legs of 5, 8 and 10 A leave 4.36 A in the neutral. ehow.com, "How to
	// calculate neutral currents".
	assertCurrents(t, "F37", []float64{5, 8, 10}, 4.36, 0.005, wye,
		neutralLoad(5, 1, legA), neutralLoad(8, 1, legB), neutralLoad(10, 1, legC))

	// F38: legs of 10, 8 and 6 A leave √12 = 3.46 A. The 15.1 A that circulates
	// for them has errors of sign.
	assertCurrents(t, "F38", []float64{10, 8, 6}, 3.46, 0.005, wye,
		neutralLoad(10, 1, legA), neutralLoad(8, 1, legB), neutralLoad(6, 1, legC))

	// Two legs and the neutral of a wye at 16 A each carry 16 A in the neutral:
	// In = √(A² + B² − AB).
	assertCurrents(t, "two legs of a wye", []float64{16, 16, 0}, 16, 1e-9, wye,
		neutralLoad(16, 1, legA), neutralLoad(16, 1, legB))
}

// Values of a circuit simulation: ngspice 39, by netlist file.
func TestCurrentsOfSimulatedCircuits(t *testing.T) {
	wye := system(t, wye208)
	const digits = 2e-5 // relative; what ngspice prints
	root3 := math.Sqrt(3)

	// ngspice 39 netlist, file 01_line_to_line_on_wye.cir: 21.6 Ω from A to B
	// and 14.4 Ω from B to C on exactly √3 × 120 V.
	assertCurrents(t, "01", []float64{9.622504, 20.97176, 14.43376}, 0, 21*digits, wye,
		lineLoad(units.Current(120*root3/21.6), legA, legB), lineLoad(units.Current(120*root3/14.4), legB, legC))

	// ngspice 39 netlist, file 02_mixed_panel_neutral.cir.
	assertCurrents(t, "02", []float64{25.11512, 17.39437, 9.659258}, 6.082763, 25*digits, wye,
		neutralLoad(12, 1, legA), neutralLoad(8, 1, legB), neutralLoad(5, 1, legC),
		lineLoad(10, legA, legB), lineLoad(5, legC, legA))

	// ngspice 39 netlist, file 03_neutral_with_power_factor.cir. Without power
	// factors the neutral would come out as 6.08 A.
	assertCurrents(t, "03", []float64{16, 9, 12}, 3.432819, 16*digits, wye,
		neutralLoad(16, 0.98, legA), neutralLoad(9, 0.85, legB), neutralLoad(12, 1, legC))

	// ngspice 39 netlist, file 07_multiwire_shared_neutral.cir.
	assertCurrents(t, "07", []float64{14, 10, 0}, 12.49, 0.005, wye,
		neutralLoad(14, 1, legA), neutralLoad(10, 1, legB))

	// ngspice 39 netlist, file 08_triplen_neutral.cir: 10 A and 3 A of third
	// harmonic per leg; the transient run gives 9.00028 A.
	var electronic []Branch
	for leg := range 3 {
		b := neutralLoad(10, 1, leg)
		b.Harmonic = 0.3
		electronic = append(electronic, b)
	}
	assertCurrents(t, "08", []float64{10, 10, 10}, 9.00028, 0.0005, wye, electronic...)
}

func TestNeutralAddsHarmonicsInQuadrature(t *testing.T) {
	a, b := neutralLoad(16, 1, legA), neutralLoad(9, 1, legB)
	a.Harmonic, b.Harmonic = 0.25, 0.5
	// In1 = √(16² + 9² − 16·9) = √193; In3 = 4 + 4.5 = 8.5
	_, neutral := Currents(system(t, wye208), []Branch{a, b})
	assert.InDelta(t, math.Sqrt(193+8.5*8.5), float64(neutral), 1e-9)
}

func TestSplitPhaseNeutralCarriesTheDifference(t *testing.T) {
	split := system(t, splitPhase)
	assertCurrents(t, "opposite legs", []float64{27, 23}, 4, 1e-9, split,
		neutralLoad(12, 1, legA), neutralLoad(8, 1, legB), lineLoad(15, legA, legB))
	a, b := neutralLoad(10, 1, legA), neutralLoad(10, 1, legB)
	a.Harmonic, b.Harmonic = 0.3, 0.3
	assertCurrents(t, "third harmonics 540° apart cancel", []float64{10, 10}, 0, 1e-9, split, a, b)
	assertCurrents(t, "on one leg they do not", []float64{20, 0}, math.Hypot(20, 6), 1e-9, split, a, a)
}

func TestTwoWireNeutralCarriesTheLegsCurrent(t *testing.T) {
	two := system(t, twoWire)
	a, b := neutralLoad(10, 1, legA), neutralLoad(5, 0.8, legA)
	a.Harmonic = 0.3
	legs, neutral := Currents(two, []Branch{a, b})
	assert.Len(t, legs, 1)
	assert.Equal(t, legs[0], neutral)
	// 10 + 5∠−36.87° = 14 − 3j
	assert.InDelta(t, math.Hypot(14, 3), float64(neutral), 1e-9)
}

// The high-leg triangle: every side 240 V, B at 208 V to neutral, A and C at
// 120 V and 180° apart.
func TestHighLegGeometry(t *testing.T) {
	v := Potentials(system(t, highLeg240))
	for i := range v {
		assert.InDelta(t, 240, cmplx.Abs(v[i]-v[(i+1)%3]), 1e-9)
	}
	assert.InDelta(t, 120, cmplx.Abs(v[legA]), 1e-9)
	assert.InDelta(t, 120*math.Sqrt(3), cmplx.Abs(v[legB]), 1e-9)
	assert.InDelta(t, 120, cmplx.Abs(v[legC]), 1e-9)
	assert.InDelta(t, 0, cmplx.Abs(v[legA]+v[legC]), 1e-9)
	turn := func(x, y complex128) float64 { return cmplx.Phase(x/y) * 180 / math.Pi }
	assert.InDelta(t, 120, turn(v[legA]-v[legB], v[legB]-v[legC]), 1e-9, "sequence A, B, C")
}

func TestCurrentsOnHighLeg(t *testing.T) {
	high := system(t, highLeg240)
	assertCurrents(t, "equal line-to-neutral loads", []float64{10, 0, 10}, 0, 1e-9, high,
		neutralLoad(10, 1, legA), neutralLoad(10, 1, legC))
	assertCurrents(t, "balanced three-phase load", []float64{10, 10, 10}, 0, 1e-9, high, threePhase(10, 0.8))
	// Iab∠60° + Ian∠0°: 2 × 10 × cos 30°
	assertCurrents(t, "A to B and A to neutral", []float64{17.3205, 10, 0}, 10, 1e-4, high,
		lineLoad(10, legA, legB), neutralLoad(10, 1, legA))
	// 10∠30° + 10∠0° = 2 × 10 × cos 15°, alike on C
	assertCurrents(t, "three-phase and A to C", []float64{19.3185, 10, 19.3185}, 0, 1e-4, high,
		threePhase(10, 1), lineLoad(10, legA, legC))
}

func TestThreePhaseLoadAddsInStepWithNeutralLoads(t *testing.T) {
	wye := system(t, wye480)
	assertCurrents(t, "same power factor", []float64{25, 10, 10}, 15, 1e-9, wye, threePhase(10, 0.9), neutralLoad(15, 0.9, legA))
}

// At one power factor the closed forms hold: Ia = √(Iab² + Ica² + Iab·Ica) and
// In = √(A² + B² + C² − AB − BC − CA). No conductor carries more than the
// arithmetic sum of its branches.
func TestCurrentsAgreeWithClosedForms(t *testing.T) {
	wye := system(t, wye208)
	rapid.Check(t, func(t *rapid.T) {
		amps := rapid.SliceOfN(rapid.Float64Range(0, 100), 6, 6).Draw(t, "amps")
		pf := units.Ratio(rapid.Float64Range(0.3, 1).Draw(t, "pf"))
		line := func(k, x, y int) Branch {
			b := lineLoad(units.Current(amps[k]), x, y)
			b.PF = pf
			return b
		}
		pairs := []Branch{line(0, legA, legB), line(1, legB, legC), line(2, legC, legA)}
		legs, neutral := Currents(wye, pairs)
		closed := func(x, y float64) float64 { return math.Sqrt(x*x + y*y + x*y) }
		assert.InDelta(t, closed(amps[0], amps[2]), float64(legs[0]), 1e-9)
		assert.InDelta(t, closed(amps[0], amps[1]), float64(legs[1]), 1e-9)
		assert.InDelta(t, closed(amps[1], amps[2]), float64(legs[2]), 1e-9)
		assert.Zero(t, neutral)

		a, b, c := amps[3], amps[4], amps[5]
		single := []Branch{neutralLoad(units.Current(a), pf, legA), neutralLoad(units.Current(b), pf, legB), neutralLoad(units.Current(c), pf, legC)}
		_, neutral = Currents(wye, single)
		assert.InDelta(t, math.Sqrt(max(0, a*a+b*b+c*c-a*b-b*c-c*a)), float64(neutral), 1e-5)

		legs, _ = Currents(wye, append(pairs, single...))
		for i := range legs {
			assert.LessOrEqual(t, float64(legs[i]), amps[3+i]+amps[i]+amps[(i+2)%3]+1e-9)
		}
	})
}

func TestPowerFactorOutsideItsRangeCountsAsOne(t *testing.T) {
	wye := system(t, wye208)
	_, want := Currents(wye, []Branch{neutralLoad(16, 1, legA), neutralLoad(9, 0.85, legB)})
	for _, pf := range []units.Ratio{0, -0.5, 1.2, units.Ratio(math.NaN())} {
		_, got := Currents(wye, []Branch{neutralLoad(16, pf, legA), neutralLoad(9, 0.85, legB)})
		assert.Equal(t, want, got)
	}
}

func TestBalance(t *testing.T) {
	for _, c := range []struct {
		why  string
		legs []units.Current
		want float64
	}{
		{"(12 − 8) / 10", []units.Current{12, 8, 10}, 0.4},
		{"even", []units.Current{7, 7}, 0},
		{"all on one of three: (30 − 0) / 10", []units.Current{0, 30, 0}, 3},
		{"one leg", []units.Current{9}, 0},
		{"nothing flows", []units.Current{0, 0}, 0},
		{"none", nil, 0},
	} {
		assert.InDelta(t, c.want, float64(Balance(c.legs)), 1e-12, c.why)
	}
}
