package conductor_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/circuits/conductor"
	"branchwork/codes/book"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// What is printed as working is what was computed: each numeric result with a
// formula follows from the formula and the inputs printed beside it.
func TestEachResultFollowsFromItsStep(t *testing.T) {
	p, _ := book.Profile("nec-2023")
	var again steps.Reworker
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		w := &steps.Work{}
		if _, err := conductor.Select(r, p, w); err != nil {
			t.Skip(err)
		}
		for _, s := range w.Steps() {
			if s.Formula == "" {
				continue
			}
			got, err := again.Evaluate(s)
			require.NoError(t, err, s.Formula)
			assert.InDelta(t, s.Result, got, 1e-9*math.Max(1, math.Abs(s.Result)), "%s: %s", s.Name, s.Formula)
		}
	})
}

// anyRequest draws a request that a branch circuit or a feeder might make.
func anyRequest(t *rapid.T) conductor.Request {
	amps := func(name string, most int) units.Current {
		return units.Current(rapid.IntRange(0, most*10).Draw(t, name)) / 10
	}
	r := conductor.Request{
		Continuous: amps("continuous", 300), Other: amps("other", 60), FullRated: rapid.Bool().Draw(t, "full"),
		RoundUp: rapid.Bool().Draw(t, "round up"), SmallLimits: rapid.Bool().Draw(t, "small limits"),
		Material: rapid.SampledFrom([]string{"copper", "aluminum"}).Draw(t, "material"), Insulation: "THWN-2",
		Raceway:  rapid.SampledFrom([]string{"EMT", "PVC", "steel", "aluminum"}).Draw(t, "raceway"),
		Ambient:  units.Temperature(rapid.IntRange(5, 60).Draw(t, "ambient")),
		Carrying: rapid.IntRange(2, 12).Draw(t, "carrying"), Volts: 240, Phases: rapid.SampledFrom([]int{1, 3}).Draw(t, "phases"),
		DropLimit: units.Ratio(rapid.SampledFrom([]float64{0, 0.02, 0.03}).Draw(t, "limit")),
	}
	if rapid.Bool().Draw(t, "by nameplate") {
		r.Least = amps("least", 100)
	}
	p, _ := book.Profile("nec-2023")
	r.Device, _ = p.Devices.Next(p.Continuous.Required(r.Continuous, r.Other, r.FullRated))
	n := rapid.IntRange(1, 6).Draw(t, "loads")
	r.Run = conductor.Run{ToFirst: units.Is(units.Length(rapid.IntRange(0, 300).Draw(t, "run"))), Spacing: units.Is(units.Length(rapid.IntRange(0, 20).Draw(t, "spacing")))}
	for i := range n {
		r.Run.Loads = append(r.Run.Loads, conductor.Tap{VA: units.Apparent(rapid.IntRange(0, 2000).Draw(t, fmt.Sprint("va", i))),
			PF: units.Ratio(rapid.SampledFrom([]float64{1, 0.98, 0.9}).Draw(t, fmt.Sprint("pf", i))), ConstantPower: rapid.Bool().Draw(t, fmt.Sprint("constant", i))})
	}
	return r
}

// The working of a long run is written by stretches of loads alike, however many
// units it has, and leads to the same drop as the closed form for equal loads.
func TestALongRunIsWrittenByKinds(t *testing.T) {
	p, _ := book.Profile("nec-2023")
	line, err := conductor.LineOf(p.Wires, "copper", "EMT", "12 AWG", 1, nil)
	require.NoError(t, err)
	for _, n := range []int{60, 61, 200} {
		run := conductor.Run{ToFirst: units.Is(50 * units.Foot), Spacing: units.Is(units.Foot / 2)}
		var moment float64 // Σ I · d by hand, at unity power factor
		for k := range n {
			va := units.Apparent(10)
			if k >= n/2 {
				va = 15
			}
			run.Loads = append(run.Loads, conductor.Tap{VA: va, PF: 1})
			moment += float64(va) / 277 * (50 + 0.5*float64(k))
		}
		w := &steps.Work{}
		fall, err := conductor.Drop(run, 277, 1, line, w)
		require.NoError(t, err)
		got, ok := fall.Get()
		require.True(t, ok)
		along, across := 2*moment*float64(line.R)/1000, 2*moment*float64(line.X)/1000
		assert.InDelta(t, 277-math.Hypot(277-along, across), float64(got.Volts), 1e-4, n) // each current turns by a hair with the voltage at its load
		var again steps.Reworker
		for _, s := range w.Steps() {
			_, ok, err := again.Agrees(s)
			require.NoError(t, err, s.Formula)
			assert.True(t, ok, "%d loads: %s", n, s.Name)
		}
		inputs := len(w.Steps()[0].Inputs)
		assert.Equal(t, map[int]int{60: 120, 61: 2, 200: 2}[n], inputs, "%d loads", n)
	}
}
