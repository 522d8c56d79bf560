package conductor_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
	"branchwork/codes/outside"
	"branchwork/loads/units"
)

// drawnRun is a run with its supply and its conductors.
type drawnRun struct {
	conductor.Run
	volts  units.Voltage
	phases int
	line   conductor.Line
}

// drawRun draws a run of up to ten loads along a conductor of the tables, as long
// as it takes to lose the share asked for, about.
func drawRun(t *testing.T, r *rand.Rand, share float64) drawnRun {
	wires := nec(t).Wires
	sizes := []string{"14 AWG", "12 AWG", "10 AWG", "8 AWG", "4 AWG", "1 AWG", "3/0 AWG", "250 kcmil", "500 kcmil"}
	size := r.Intn(len(sizes))
	line, err := conductor.LineOf(wires, []string{"copper", "aluminum"}[min(1, r.Intn(4)*size/8)], []string{"EMT", "PVC"}[r.Intn(2)], sizes[size], 1, nil)
	require.NoError(t, err)
	d := drawnRun{volts: []units.Voltage{120, 208, 240, 277, 480}[r.Intn(5)], phases: 1 + 2*r.Intn(2), line: line}
	alike := r.Intn(3) == 0
	for range 1 + r.Intn(10) {
		tap := conductor.Tap{VA: units.Apparent(100 + r.Intn(1500)*(1+size)), PF: units.Ratio(1 - 0.15*r.Float64()*float64(r.Intn(2))), ConstantPower: r.Intn(3) > 0}
		if alike && len(d.Loads) > 0 {
			tap = d.Loads[0]
		}
		d.Loads = append(d.Loads, tap)
	}
	gap := r.Float64() * 2 // of the way to the first load
	length := func(ft float64) {
		d.ToFirst, d.Spacing = units.Is(units.Length(ft)), units.Is(units.Length(gap*ft))
	}
	length(1)
	for range 8 {
		f := d.fall(t)
		first, _ := d.ToFirst.Get()
		length(float64(first) * math.Min(share/float64(f.Share), 1000))
	}
	return d
}

func (d drawnRun) fall(t *testing.T) conductor.Fall {
	k, err := conductor.Drop(d.Run, d.volts, d.phases, d.line, nil)
	require.NoError(t, err)
	f, ok := k.Get()
	require.True(t, ok)
	return f
}

// netlist writes the run as a circuit of two halves, the real and the imaginary
// part of every phasor, each wire for itself: both wires of a single-phase run,
// three lines with loads between them otherwise. A load draws its power at the
// voltage it has, or its nominal current at that angle.
func (d drawnRun) netlist(id int) (elements string, end, source string) {
	var b strings.Builder
	wires, feed := 2, float64(d.volts)
	if d.phases == 3 {
		wires, feed = 3, float64(d.volts)/math.Sqrt(3)
	}
	node := func(part string, wire, at int) string { return fmt.Sprintf("%s%d_%d_%d", part, id, wire, at) }
	for w := range wires {
		angle := -2 * math.Pi / 3 * float64(w)
		re, im := feed*math.Cos(angle), feed*math.Sin(angle)
		if wires == 2 {
			re, im = feed*float64(1-w), 0
		}
		fmt.Fprintf(&b, "V%s %s 0 DC %.15g\nV%s %s 0 DC %.15g\n", node("sr", w, 0), node("r", w, 0), re, node("si", w, 0), node("i", w, 0), im)
	}
	first, _ := d.ToFirst.Get()
	gap, _ := d.Spacing.Get()
	for k, l := range d.Loads {
		feet := float64(gap)
		if k == 0 {
			feet = float64(first)
		}
		ohm, x := feet*float64(d.line.R)/1000, feet*float64(d.line.X)/1000
		for w := range wires {
			for _, p := range [2][2]string{{"r", "i"}, {"i", "r"}} { // this part and the other
				sign := map[string]float64{"r": -x, "i": x}[p[0]]
				fmt.Fprintf(&b, "V%s %s %s DC 0\nR%s %s %s %.15g\nH%s %s %s V%s %.15g\n",
					node("m"+p[0], w, k), node(p[0], w, k), node("a"+p[0], w, k),
					node("w"+p[0], w, k), node("a"+p[0], w, k), node("b"+p[0], w, k), ohm,
					node("h"+p[0], w, k), node("b"+p[0], w, k), node(p[0], w, k+1), node("m"+p[1], w, k), sign)
			}
		}
		pf := float64(l.PF)
		for w := range wires {
			to := (w + 1) % wires
			if wires == 2 && w == 1 {
				continue
			}
			share := float64(l.VA) / float64(d.phases)
			real := fmt.Sprintf("(V(%s)-V(%s))", node("r", w, k+1), node("r", to, k+1))
			imag := fmt.Sprintf("(V(%s)-V(%s))", node("i", w, k+1), node("i", to, k+1))
			by := fmt.Sprintf("(%s*%s+%s*%s)", real, real, imag, imag)
			if !l.ConstantPower {
				by = fmt.Sprintf("(%.15g*sqrt(%s))", float64(d.volts), by)
			}
			p, q := share*pf, share*math.Sqrt(1-pf*pf)
			fmt.Fprintf(&b, "B%s %s %s I=(%.15g*%s+%.15g*%s)/%s\n", node("lr", w, k), node("r", w, k+1), node("r", to, k+1), p, real, q, imag, by)
			fmt.Fprintf(&b, "B%s %s %s I=(%.15g*%s-%.15g*%s)/%s\n", node("li", w, k), node("i", w, k+1), node("i", to, k+1), p, imag, q, real, by)
		}
	}
	n := len(d.Loads)
	between := func(part string) string { return fmt.Sprintf("(v(%s)-v(%s))", node(part, 0, n), node(part, 1, n)) }
	amps := func(part string) string { return "i(v" + node("m"+part, 0, 0) + ")" }
	size := func(of func(string) string) string { return fmt.Sprintf("sqrt(%s^2+%s^2)", of("r"), of("i")) }
	return b.String(), size(between), size(amps)
}

// Tapped runs with loads of constant power and of constant current, unequal and at
// mixed power factors, on one phase and three, on all conductors of the tables:
// the drop beside a circuit simulation. Without the part of the drop across the
// supply's voltage the largest conductors are off by a tenth of it.
func TestDropAgreesWithCircuitSimulation(t *testing.T) {
	ngspice := outside.Command(t, "ngspice")
	seed := outside.Seed(t)
	r := rand.New(rand.NewSource(seed))
	low := outside.Compare(t, ngspice, "voltage drop", "drop of tapped runs up to 10 %, understated", 1e-6, "% of the supply", seed)
	high := outside.Compare(t, ngspice, "voltage drop", "drop of tapped runs up to 10 %, overstated", 1e-6, "% of the supply", seed)
	amps := outside.Compare(t, ngspice, "voltage drop", "current at the source of such runs", 1e-6, "%", seed)
	for range 3 {
		var runs []drawnRun
		var elements strings.Builder
		print := map[string]string{}
		for i := range 25 {
			d := drawRun(t, r, 0.1*r.Float64())
			part, end, source := d.netlist(i)
			elements.WriteString(part)
			print[fmt.Sprint("end", i)], print[fmt.Sprint("source", i)] = end, source
			runs = append(runs, d)
		}
		got := outside.Spice(t, ngspice, elements.String(), ".op", print)
		for i, d := range runs {
			f := d.fall(t)
			share := 1 - got[fmt.Sprint("end", i)]/float64(d.volts)
			about := fmt.Sprintf("%+v: drop %.4f %% by simulation, %.4f %% by us", d, 100*share, 100*float64(f.Share))
			low.Case(100*(share-float64(f.Share)), "%s", about)
			high.Case(100*(float64(f.Share)-share), "%s", about)
			amps.Case(100*math.Abs(float64(f.Source)/got[fmt.Sprint("source", i)]-1), "%s", about)
		}
	}
}
