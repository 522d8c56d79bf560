package panel_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
	"branchwork/circuits/panel"
	"branchwork/codes/outside"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// drawnPanel is a system with loads between legs and neutral, between legs and on
// three phases, at mixed power factors.
type drawnPanel struct {
	sys      inventory.System
	branches []panel.Branch
}

func drawPanel(t *testing.T, r *rand.Rand) drawnPanel {
	names := []string{"120/240 V 1ph", "208Y/120 V 3ph", "480Y/277 V 3ph", "240/120 V 3ph high-leg"}
	sys, ok := inventory.SystemNamed(names[r.Intn(len(names))])
	require.True(t, ok)
	d := drawnPanel{sys: sys}
	legs := len(panel.Potentials(sys))
	lopsided := r.Intn(3) == 0
	for range 1 + r.Intn(8) {
		b := panel.Branch{Amps: units.Current(1 + 40*r.Float64()), PF: 1}
		if r.Intn(3) > 0 {
			b.PF = units.Ratio(0.7 + 0.3*r.Float64())
		}
		first := r.Intn(legs)
		if lopsided {
			first = 0
		}
		switch poles := 1 + r.Intn(legs); {
		case poles == 3:
			b.Legs = []int{0, 1, 2}
		case poles == 2:
			b.Legs = []int{first, (first + 1) % legs}
		case sys.Form == inventory.HighLeg && first == 1:
			b.Legs = []int{0} // the high leg serves nothing to neutral
		default:
			b.Legs = []int{first}
		}
		d.branches = append(d.branches, b)
	}
	return d
}

// sources are the panel's supply as ideal sources against the neutral.
func (d drawnPanel) sources(b *strings.Builder, id int, node string) {
	for x, v := range panel.Potentials(d.sys) {
		fmt.Fprintf(b, "V%d_%d %s%d_%d g%d AC %.15g %.15g\n", id, x, node, id, x, id, cmplx.Abs(v), cmplx.Phase(v)*180/math.Pi)
	}
	fmt.Fprintf(b, "VG%d g%d 0 AC 0\n", id, id)
}

// impedances writes each load as a resistor and a coil that draw its current at
// the nominal voltage; a load on three phases as three of them between the legs.
func (d drawnPanel) impedances(b *strings.Builder, id int) {
	v := panel.Potentials(d.sys)
	for k, load := range d.branches {
		between := func(x, y string, volts, amps float64, part int) {
			z, pf := volts/amps, float64(load.PF)
			mid := fmt.Sprintf("z%d_%d_%d", id, k, part)
			fmt.Fprintf(b, "R%s %s %s %.15g\n", mid, x, mid, z*pf)
			fmt.Fprintf(b, "L%s %s %s %.15g\n", mid, mid, y, math.Max(z*math.Sqrt(1-pf*pf)/(2*math.Pi*60), 1e-15))
		}
		leg := func(x int) string { return fmt.Sprintf("p%d_%d", id, x) }
		amps := float64(load.Amps)
		switch len(load.Legs) {
		case 1:
			x := load.Legs[0]
			between(leg(x), fmt.Sprintf("n%d", id), cmplx.Abs(v[x]), amps, 0)
		case 2:
			x, y := load.Legs[0], load.Legs[1]
			between(leg(x), leg(y), cmplx.Abs(v[x]-v[y]), amps, 0)
		case 3:
			for part := range 3 {
				between(leg(part), leg((part+1)%3), cmplx.Abs(v[part]-v[(part+1)%3]), amps/math.Sqrt(3), part)
			}
		}
	}
}

// Currents of drawn panels beside a circuit of resistors and coils. Amperes added
// without their angles, or a neutral of all legs, are off by amperes.
func TestCurrentsAgreeWithCircuitSimulation(t *testing.T) {
	ngspice := outside.Command(t, "ngspice")
	seed := outside.Seed(t)
	r := rand.New(rand.NewSource(seed))
	lines := outside.Compare(t, ngspice, "panel currents", "current of every line of unbalanced panels", 1e-6, "A", seed)
	neutrals := outside.Compare(t, ngspice, "panel currents", "current of their neutral", 1e-6, "A", seed)
	var elements strings.Builder
	var panels []drawnPanel
	print := map[string]string{}
	for id := range 200 {
		d := drawPanel(t, r)
		panels = append(panels, d)
		d.sources(&elements, id, "p")
		d.impedances(&elements, id)
		fmt.Fprintf(&elements, "VN%d n%d g%d AC 0\n", id, id, id)
		print[fmt.Sprintf("n%d", id)] = fmt.Sprintf("mag(i(vn%d))", id)
		for x := range panel.Potentials(d.sys) {
			print[fmt.Sprintf("l%d_%d", id, x)] = fmt.Sprintf("mag(i(v%d_%d))", id, x)
		}
	}
	got := outside.Spice(t, ngspice, elements.String(), ".ac lin 1 60 60", print)
	for id, d := range panels {
		legs, neutral := panel.Currents(d.sys, d.branches)
		for x, i := range legs {
			lines.Case(math.Abs(got[fmt.Sprintf("l%d_%d", id, x)]-float64(i)), "%s, leg %d of %+v", d.sys.Name, x, d.branches)
		}
		neutrals.Case(math.Abs(got[fmt.Sprintf("n%d", id)]-float64(neutral)), "%s, %+v", d.sys.Name, d.branches)
	}
}

// The feeder of a drawn panel, with currents that keep the angle of the nominal
// voltage: the largest fall of voltage that any load sees, leg to neutral or leg
// to leg, beside a circuit with four wires of the same impedance.
func TestFeederDropAgreesWithCircuitSimulation(t *testing.T) {
	ngspice := outside.Command(t, "ngspice")
	seed := outside.Seed(t)
	r := rand.New(rand.NewSource(seed))
	low := outside.Compare(t, ngspice, "voltage drop", "drop of feeders to unbalanced panels up to 6 %, understated", 0.01, "% of the supply", seed)
	high := outside.Compare(t, ngspice, "voltage drop", "drop of feeders to unbalanced panels up to 6 %, overstated", 3, "% of the supply", seed)
	var elements strings.Builder
	var panels []drawnPanel
	var ours []units.Ratio
	print := map[string]string{}
	for id := range 150 {
		d := drawPanel(t, r)
		line := conductor.Line{R: units.Resistance(0.03 + 0.3*r.Float64()), X: units.Resistance(0.04 + 0.02*r.Float64())}
		feet := 6 * r.Float64() / 100 / float64(d.share(t, line, 1))
		panels, ours = append(panels, d), append(ours, d.share(t, line, feet))
		d.sources(&elements, id, "s")
		z := func(from, to, name string) {
			fmt.Fprintf(&elements, "R%s %s m%s %.15g\nL%s m%s %s %.15g\n", name, from, name, float64(line.R)*feet/1000, name, name, to, float64(line.X)*feet/1000/(2*math.Pi*60))
		}
		z(fmt.Sprintf("n%d", id), fmt.Sprintf("g%d", id), fmt.Sprintf("wn%d", id))
		for x := range panel.Potentials(d.sys) {
			z(fmt.Sprintf("s%d_%d", id, x), fmt.Sprintf("p%d_%d", id, x), fmt.Sprintf("w%d_%d", id, x))
		}
		d.drawn(&elements, id, print)
	}
	got := outside.Spice(t, ngspice, elements.String(), ".ac lin 1 60 60", print)
	for id, d := range panels {
		worst := 0.0
		for _, p := range d.pairs() {
			worst = math.Max(worst, 1-got[fmt.Sprintf("u%d_%d_%d", id, p[0], p[1])]/cmplx.Abs(d.across(p)))
		}
		about := fmt.Sprintf("%s %+v: %.4f %% by simulation, %.4f %% by us", d.sys.Name, d.branches, 100*worst, 100*ours[id])
		low.Case(100*(worst-float64(ours[id])), "%s", about)
		high.Case(100*(float64(ours[id])-worst), "%s", about)
	}
}

// drawn writes the loads as sources of current and asks for the voltage of every
// pair that one is connected to.
func (d drawnPanel) drawn(b *strings.Builder, id int, print map[string]string) {
	node := func(x int) string {
		if x == len(panel.Potentials(d.sys)) {
			return fmt.Sprintf("n%d", id)
		}
		return fmt.Sprintf("p%d_%d", id, x)
	}
	for k, load := range d.branches {
		pairs, amps := d.pairsOf(load), float64(load.Amps)
		if len(pairs) == 3 {
			amps /= math.Sqrt(3)
		}
		for part, p := range pairs {
			angle := cmplx.Phase(d.across(p)) - math.Acos(float64(load.PF))
			fmt.Fprintf(b, "I%d_%d_%d %s %s AC %.15g %.15g\n", id, k, part, node(p[0]), node(p[1]), amps, angle*180/math.Pi)
		}
	}
	for _, p := range d.pairs() {
		print[fmt.Sprintf("u%d_%d_%d", id, p[0], p[1])] = fmt.Sprintf("mag(v(%s)-v(%s))", node(p[0]), node(p[1]))
	}
}

// pairsOf lists the conductors that a load is connected between; the last one is
// the neutral.
func (d drawnPanel) pairsOf(b panel.Branch) [][2]int {
	switch len(b.Legs) {
	case 1:
		return [][2]int{{b.Legs[0], len(panel.Potentials(d.sys))}}
	case 2:
		return [][2]int{{b.Legs[0], b.Legs[1]}}
	}
	return [][2]int{{0, 1}, {1, 2}, {2, 0}}
}

func (d drawnPanel) pairs() [][2]int {
	var out [][2]int
	for _, b := range d.branches {
		out = append(out, d.pairsOf(b)...)
	}
	return out
}

func (d drawnPanel) across(p [2]int) complex128 {
	v := append(panel.Potentials(d.sys), 0)
	return v[p[0]] - v[p[1]]
}

// share is our own figure: the worst of the pulls over so many feet.
func (d drawnPanel) share(t *testing.T, line conductor.Line, feet float64) units.Ratio {
	worst := units.Ratio(0)
	for _, p := range panel.Pulls(d.sys, d.branches) {
		tap := conductor.Tap{VA: units.VA(p.Volts, p.Amps) / 2, PF: p.PF}
		k, err := conductor.Drop(conductor.Run{ToFirst: units.Is(units.Length(feet)), Loads: []conductor.Tap{tap}}, p.Volts, 1, line, nil)
		require.NoError(t, err)
		f, _ := k.Get()
		worst = max(worst, f.Share)
	}
	return worst
}
