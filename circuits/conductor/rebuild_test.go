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
