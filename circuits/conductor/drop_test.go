package conductor_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
	"branchwork/codes/book"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// lineOf returns the line of a case: its resistance, that of a constant K over
// the area of a size, or the dc resistance of a size.
func (r row) lineOf() conductor.Line {
	if r.has("k") {
		area, ok := r.p.Wires.Area(r.text("size", ""))
		require.True(r.t, ok)
		return conductor.Line{R: units.Resistance(r.number("k", 0) * 1000 / area)}
	}
	if r.has("dc") {
		ohm, _, ok := r.p.Wires.Resistance("copper", r.text("dc", ""))
		require.True(r.t, ok)
		return conductor.Line{R: ohm}
	}
	return conductor.Line{R: in[units.Resistance](r, "resistance")}
}

// runOf returns the run of a case with its loads at unity power factor.
func (r row) runOf(volts units.Voltage) conductor.Run {
	run := conductor.Run{ToFirst: known[units.Length](r, "length"), Spacing: known[units.Length](r, "spacing")}
	tap := conductor.Tap{VA: units.VA(volts, in[units.Current](r, "current")), PF: 1}
	if r.has("va") {
		tap.VA = in[units.Apparent](r, "va")
	}
	if r.has("power") {
		tap = conductor.Tap{VA: in[units.Power](r, "power").VA(1), PF: 1, ConstantPower: true}
	}
	for range r.count("loads", 1) {
		run.Loads = append(run.Loads, tap)
	}
	return run
}

// Eight loads of 1.2 A on 12 AWG at 120 V, 60 ft to the first and 8 ft apart.
// By hand: 8 × 1.2 × (60 + 8 × 7 / 2) = 844.8 A·ft; 2 × 1.98 × 844.8 / 1,000 = 3.345 V.
func ExampleDrop() {
	run := conductor.Run{ToFirst: units.Is(60 * units.Foot), Spacing: units.Is(8 * units.Foot)}
	for range 8 {
		run.Loads = append(run.Loads, conductor.Tap{VA: 144 * units.VoltAmpere, PF: 1})
	}
	known, _ := conductor.Drop(run, 120*units.Volt, 1, conductor.Line{R: 1.98}, nil)
	fall, _ := known.Get()
	fmt.Printf("%.3f V, %.2f %%\n", float64(fall.Volts), 100*float64(fall.Share))
	// Output: 3.345 V, 2.79 %
}

func TestPublishedDrop(t *testing.T) {
	rows(t, "drop.toml", func(r row) {
		volts := units.Voltage(120)
		if r.has("volts") {
			volts = in[units.Voltage](r, "volts")
		}
		if r.want("least") {
			assert.Equal(r.t, r.p.Drop.Total, units.Ratio(r.number("share", 0)))
			near(r, "least", units.Times(volts, 1-float64(r.p.Drop.Total)))
			return
		}
		run := r.runOf(volts)
		if r.want("feet") {
			run.ToFirst = units.Is(units.Length(must(r, func() (float64, error) { return r.Want.Number("feet") })))
		}
		if r.want("conductor") {
			c, err := conductor.Select(conductor.Request{Other: 1, Device: 20, SmallLimits: true, Volts: volts, Run: run,
				DropLimit: units.Ratio(r.number("limit", 0))}, r.p, nil)
			require.NoError(r.t, err)
			named(r, "conductor", c.Size)
			return
		}
		k, err := conductor.Drop(run, volts, r.count("phases", 1), r.lineOf(), nil)
		require.NoError(r.t, err)
		f, ok := k.Get()
		require.True(r.t, ok)
		near(r, "drop", f.Volts)
		near(r, "first", f.AtFirst)
		near(r, "last", f.AtEnd)
		near(r, "source", f.Source)
		bare(r, "share", float64(f.Share))
		if r.want("feet") {
			feet, _ := run.ToFirst.Get()
			bare(r, "feet", float64(feet)*r.number("limit", 0)/float64(f.Share))
		}
	})
}

func TestDropOfAnUnknownRunIsUnknown(t *testing.T) {
	line := conductor.Line{R: 2}
	one := []conductor.Tap{{VA: 1000, PF: 1}}
	k, err := conductor.Drop(conductor.Run{Loads: one}, 120, 1, line, nil)
	require.NoError(t, err)
	_, ok := k.Get()
	assert.False(t, ok)
	assert.Equal(t, "the length of the run to the first load is not known", k.Why())

	two := conductor.Run{ToFirst: units.Is(units.Length(10)), Loads: append(one, one...)}
	k, err = conductor.Drop(two, 120, 1, line, nil)
	require.NoError(t, err)
	assert.False(t, k.Known())
	assert.Equal(t, "the spacing of the loads along the run is not known", k.Why())

	p, _ := book.Profile("")
	c, err := conductor.Select(conductor.Request{Continuous: 16, Device: 20, SmallLimits: true, Volts: 120, Run: conductor.Run{Loads: one}, DropLimit: 0.03}, p, nil)
	require.NoError(t, err)
	assert.False(t, c.Drop.Known(), "never zero")
	assert.Equal(t, c.BeforeDrop, c.Size, "nothing is enlarged for a drop that is not known")
}

func TestDropRefusesWhatIsNotARun(t *testing.T) {
	ft := units.Is(units.Length(10))
	for name, r := range map[string]conductor.Run{
		"no loads":     {ToFirst: ft},
		"power factor": {ToFirst: ft, Loads: []conductor.Tap{{VA: 10, PF: 0}}},
		"above one":    {ToFirst: ft, Loads: []conductor.Tap{{VA: 10, PF: 1.1}}},
		"length":       {ToFirst: units.Is(units.Length(-1)), Loads: []conductor.Tap{{VA: 10, PF: 1}}},
	} {
		_, err := conductor.Drop(r, 120, 1, conductor.Line{R: 1}, nil)
		assert.Error(t, err, name)
	}
	_, err := conductor.Drop(conductor.Run{ToFirst: ft, Loads: []conductor.Tap{{VA: 10, PF: 1}}}, 120, 2, conductor.Line{R: 1}, nil)
	assert.Error(t, err)
}

// A run has no steady state where the loads ask for more than V²/4R: 120 V over
// 2 · 0.1 kft · 18 ohm = 3.6 ohm carries 1,000 W at most.
func TestConstantPowerBeyondTheRunIsTold(t *testing.T) {
	run := func(va units.Apparent) conductor.Run {
		return conductor.Run{ToFirst: units.Is(units.Length(100)), Loads: []conductor.Tap{{VA: va, PF: 1, ConstantPower: true}}}
	}
	line := conductor.Line{R: 18}
	k, err := conductor.Drop(run(990), 120, 1, line, nil)
	require.NoError(t, err)
	f, _ := k.Get()
	assert.False(t, f.NoSteady)
	assert.InDelta(t, 990, float64(f.AtEnd)*float64(f.Source), 1e-3, "the load gets its power")
	k, err = conductor.Drop(run(1010), 120, 1, line, nil)
	require.NoError(t, err)
	f, _ = k.Get()
	assert.True(t, f.NoSteady)
	assert.EqualValues(t, 1, f.Share)
}

// The drop is that of complex voltages, also where a run loses much.
func TestDropFormulaAgainstPhasors(t *testing.T) {
	for _, phases := range []int{1, 3} {
		for _, pf := range []units.Ratio{1, 0.98, 0.95, 0.9, 0.85} {
			for _, constant := range []bool{false, true} {
				for _, va := range []units.Apparent{100, 300, 600} {
					run := conductor.Run{ToFirst: units.Is(units.Length(90)), Spacing: units.Is(units.Length(8))}
					for range 8 {
						run.Loads = append(run.Loads, conductor.Tap{VA: va, PF: pf, ConstantPower: constant})
					}
					line := conductor.Line{R: 1.24, X: 0.063}
					k, err := conductor.Drop(run, 208, phases, line, nil)
					require.NoError(t, err)
					f, _ := k.Get()
					exact := phasorDrop(run, 208, phases, line)
					if !f.NoSteady {
						assert.InDelta(t, exact, float64(f.Volts), 1e-6, "phases %d pf %v constant power %v load %v", phases, pf, constant, va)
					}
				}
			}
		}
	}
}

// phasorDrop solves the run with complex voltages: each load's current lags its
// own voltage by the angle of its power factor.
func phasorDrop(r conductor.Run, volts float64, phases int, line conductor.Line) float64 {
	first, _ := r.ToFirst.Get()
	gap, _ := r.Spacing.Get()
	n := len(r.Loads)
	wires := 2.0
	per := 1.0 // line current of a volt-ampere at one volt between conductors
	if phases == 3 {
		wires, per = math.Sqrt(3), 1/math.Sqrt(3)
	}
	z := complex(float64(line.R), float64(line.X)) / 1000
	v := make([]complex128, n)
	for i := range v {
		v[i] = complex(volts, 0)
	}
	for range 200 {
		i := make([]complex128, n)
		for k, l := range r.Loads {
			at := volts
			if l.ConstantPower {
				at = cmplx.Abs(v[k])
			}
			i[k] = cmplx.Rect(per*float64(l.VA)/at, cmplx.Phase(v[k])-math.Acos(float64(l.PF)))
		}
		at := complex(volts, 0)
		for k := range v {
			length := float64(gap)
			if k == 0 {
				length = float64(first)
			}
			var sum complex128
			for _, x := range i[k:] {
				sum += x
			}
			at -= complex(wires*length, 0) * z * sum
			v[k] = at
		}
	}
	return volts - cmplx.Abs(v[n-1])
}

// The drop walked along the run is the drop by moments, also for unequal loads.
func TestDropByMomentsIsTheDropWalked(t *testing.T) {
	run := conductor.Run{ToFirst: units.Is(units.Length(40)), Spacing: units.Is(units.Length(12)), Loads: []conductor.Tap{
		{VA: 500, PF: 0.95}, {VA: 200, PF: 1, ConstantPower: true}, {VA: 900, PF: 0.9}}}
	w := &steps.Work{}
	k, err := conductor.Drop(run, 240, 1, conductor.Line{R: 1.98, X: 0.054}, w)
	require.NoError(t, err)
	f, _ := k.Get()
	exact := phasorDrop(run, 240, 1, conductor.Line{R: 1.98, X: 0.054})
	assert.InDelta(t, exact, float64(f.Volts), 1e-6)
	assert.InDelta(t, 240-float64(f.Volts), float64(f.AtEnd), 1e-9)
	assert.Greater(t, f.AtFirst, f.AtEnd)
}

func TestLineTakesTheLargerResistanceAndTheNextSmallerRow(t *testing.T) {
	w := nec(t).Wires
	for _, x := range []struct {
		why, size string
		sets      int
		r, x      units.Resistance
	}{
		{"dc 1.24 above the printed ac 1.2", "10 AWG", 1, 1.24, 0.063},
		{"ac 2.0 above dc 1.98", "12 AWG", 1, 2.0, 0.068},
		{"the ac table skips 700 kcmil: the row of 600 kcmil", "700 kcmil", 1, 0.025, 0.048},
		{"two in parallel", "500 kcmil", 2, 0.0145, 0.024},
		{"below the ac table: dc alone", "16 AWG", 1, 4.99, 0},
	} {
		l, err := conductor.LineOf(w, "copper", "EMT", x.size, x.sets, nil)
		require.NoError(t, err)
		assert.InDelta(t, float64(x.r), float64(l.R), 1e-12, x.why)
		assert.InDelta(t, float64(x.x), float64(l.X), 1e-12, x.why)
	}
	_, err := conductor.LineOf(w, "gold", "EMT", "12 AWG", 1, nil)
	assert.Error(t, err)
}

// TestAHandCalculationMeetsTheNominalDrop: 640 W at 240 V and power factor 1, 200 ft
// of a conductor of 2 ohm per 1,000 ft: 2.667 A · 2 · 200 ft · 2 / 1,000 = 2.133 V.
func TestAHandCalculationMeetsTheNominalDrop(t *testing.T) {
	w := &steps.Work{}
	run := conductor.Run{ToFirst: units.Is(units.Length(200)), Spacing: units.Is(units.Length(0)), Loads: []conductor.Tap{{VA: 640, PF: 1, ConstantPower: true}}}
	fall, err := conductor.Drop(run, 240, 1, conductor.Line{R: 2}, w)
	require.NoError(t, err)
	f, _ := fall.Get()
	require.Greater(t, float64(f.Volts), 2.134, "at the load's own voltage it draws more")
	for _, s := range w.Steps() {
		if s.Name == "voltage drop" {
			require.Equal(t, "with the currents at the supply's own voltage 2.133 V", s.Note)
			return
		}
	}
	t.Fatal("no step of the drop")
}
