package cec_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// american returns the American profile that the Canadian one is set beside.
func american(t *testing.T) *codes.Profile {
	p, ok := book.Profile("nec-2023")
	require.True(t, ok)
	return p
}

// both asks a rule of each profile about the same facts and returns the states.
func both(t *testing.T, rule string, change ...func(*codes.Facts)) (canadian, american_ codes.State) {
	ask := func(p *codes.Profile) codes.State {
		f := circuit(p)
		for _, c := range change {
			c(f)
		}
		return named(t, p, rule).Judge(f).State
	}
	return ask(profile(t)), ask(american(t))
}

func window(t *testing.T, list ...string) units.Known[clock.Windows] {
	var w clock.Windows
	for _, s := range list {
		one, err := clock.Parse(s)
		require.NoError(t, err)
		w = w.Union(one)
	}
	return units.Is(w)
}

// Three hours without a break in one book; in the other more than an hour in any
// two, added up, up to 225 A, and more than three in any six above.
func TestDifferenceContinuousTest(t *testing.T) {
	ca, us := profile(t), american(t)
	pump := []string{}
	for h := clock.Minute(0); h < clock.Day; h += clock.Hour {
		pump = append(pump, h.String()+"-"+(h+15).String())
	}
	for _, x := range []struct {
		why                string
		hours              []string
		load               units.Current
		canadian, american bool
	}{
		{"lights on 12 h", []string{"18:00-06:00"}, 10, true, true},
		{"a pump 15 min in each hour: 30 min in any 2 h", pump, 10, false, false},
		{"one hour, twice a day", []string{"06:00-07:00", "18:00-19:00"}, 10, false, false},
		{"two hours: continuous in Canada only", []string{"06:00-08:00"}, 10, true, false},
		{"an hour and a minute", []string{"06:00-07:01"}, 10, true, false},
		{"two halves of 40 min an hour apart", []string{"06:00-06:40", "07:20-08:00"}, 10, true, false},
		{"an hour, midnight in it", []string{"23:30-00:30"}, 10, false, false},
		{"the same across midnight", []string{"23:20-00:00", "00:40-01:20"}, 10, true, false},
		{"two hours at 226 A: within 3 h in any 6", []string{"06:00-08:00"}, 226, false, false},
		{"four of six hours at 226 A, in two parts", []string{"06:00-08:00", "10:00-12:00"}, 226, true, false},
		{"always", []string{"always"}, 10, true, true},
	} {
		got, says, cite := ca.IsContinuousIn(window(t, x.hours...), x.load, false)
		assert.Equal(t, x.canadian, got, "Canada: %s: %s", x.why, says)
		assert.NotEmpty(t, says)
		assert.Equal(t, "CEC 2024 Rule 8-104(3)", cite.String())
		got, says, _ = us.IsContinuousIn(window(t, x.hours...), x.load, false)
		assert.Equal(t, x.american, got, "United States: %s: %s", x.why, says)
	}
	assert.Equal(t, []codes.Span{{Most: 60, Within: 120, UpTo: 225}, {Most: 180, Within: 360}}, ca.Continuous.Spans)

	// Continuous unless the hours show otherwise: hours that are not known do not,
	// nor does a longest run alone, nor those of a heater, which a thermostat sets.
	on, _, _ := ca.IsContinuousIn(units.Unknown[clock.Windows]("not given"), 10, false)
	assert.True(t, on)
	on, _, _ = ca.IsContinuous(units.Is(clock.Minute(15)), false)
	assert.True(t, on)
	on, _, _ = us.IsContinuous(units.Is(clock.Minute(15)), false)
	assert.False(t, on)
	on, _, cite := ca.IsContinuousIn(window(t, "06:00-06:10"), 10, true)
	assert.True(t, on)
	assert.Equal(t, steps.Derived, cite.How)
}

// 25 % more load in one book, 80 % of the circuit's rating in the other, which is
// the lesser of device and conductor. The planning sum is the same number; what is
// within the rule is not.
func TestDifferenceFormOfTheLimit(t *testing.T) {
	ca, us := profile(t), american(t)
	assert.Equal(t, us.Continuous.Factor(), ca.Continuous.Factor())
	mixed := []func(*codes.Facts){set(codes.ContinuousAmps, units.Current(16)), set(codes.OtherAmps, units.Current(4))}
	c, a := both(t, "continuous-load", mixed...)
	assert.Equal(t, codes.Holds, c, "16 A of 16, and 20 A of 20")
	assert.Equal(t, codes.Broken, a, "1.25 · 16 A + 4 A = 24 A")
	c, a = both(t, "continuous-load", set(codes.WireAmps, units.Current(15)))
	assert.Equal(t, codes.Broken, c, "80 % of the conductor's 15 A is 12 A")
	assert.Equal(t, codes.Holds, a, "the breaker's 20 A alone is asked")
	share := table(t, "continuous-share")
	for _, x := range []struct {
		marking, conductors string
		want                float64
	}{{"100 %", "raceway or cable", 1}, {"80 %", "raceway or cable", 0.8}, {"100 %", "free air", 0.85}, {"80 %", "free air", 0.7}} {
		v, _, ok := share.Value(x.marking, x.conductors)
		assert.True(t, ok)
		assert.Equal(t, x.want, v, "%s, %s", x.marking, x.conductors)
	}
	v, _, _ := share.Value("80 %", "raceway or cable")
	assert.InDelta(t, float64(ca.Continuous.Rating)/float64(ca.Continuous.Load), v, 1e-12, "the table and the planner's weights are one")
}

// The arrays are harmonised from the 2012 edition on, under their own numbers and
// with their own provenance.
func TestDifferenceAmpacityArrays(t *testing.T) {
	ca, us := profile(t).Wires, american(t).Wires
	cells := 0
	for material, x := range ca.Ampacity {
		for _, r := range x.Rows {
			for _, c := range x.Columns {
				v, how, ok := x.Value(r.Key, c)
				other, _, there := us.Ampacity[material].Value(r.Key, c)
				require.True(t, ok && there)
				assert.Equal(t, other, v, "%s %s %s", material, r.Key, c)
				assert.Equal(t, steps.Recalled, how)
				cells++
			}
		}
	}
	assert.Equal(t, 3*(18+17), cells)
	_, cite, _ := ca.AmpacityOf("copper", "12 AWG", 75)
	assert.Equal(t, "CEC 2024 Table 2 (from memory)", cite.String())
	_, cite, _ = ca.AmpacityOf("aluminum", "12 AWG", 75)
	assert.Equal(t, "CEC 2024 Table 4 (from memory)", cite.String())
}

func TestDifferenceBundling(t *testing.T) {
	ca, us := profile(t).Wires, american(t).Wires
	for _, x := range []struct {
		n        int
		ca_, us_ units.Ratio
	}{{3, 1, 1}, {6, 0.8, 0.8}, {9, 0.7, 0.7}, {10, 0.7, 0.5}, {20, 0.7, 0.5}, {24, 0.7, 0.45}, {25, 0.6, 0.45}, {42, 0.6, 0.35}, {43, 0.5, 0.35}} {
		c, _, _ := ca.BundleFactor(x.n)
		u, _, _ := us.BundleFactor(x.n)
		assert.Equal(t, x.ca_, c, "Canada, %d", x.n)
		assert.Equal(t, x.us_, u, "United States, %d", x.n)
	}
}

func TestDifferenceVoltageDropIsARule(t *testing.T) {
	ca, us := profile(t), american(t)
	assert.True(t, ca.Drop.Mandatory)
	assert.False(t, us.Drop.Mandatory)
	assert.Equal(t, units.Ratio(0.03), ca.Drop.Branch)
	assert.Equal(t, units.Ratio(0.05), ca.Drop.Total)
	for _, id := range []string{"voltage-drop-branch", "voltage-drop-feeder", "voltage-drop-total"} {
		assert.Equal(t, codes.Violation, named(t, ca, id).Severity, id)
		assert.Equal(t, codes.Advice, named(t, us, id).Severity, id)
	}
	// The code's own limit is asked, whatever the plan keeps to.
	c, _ := both(t, "voltage-drop-branch", set(codes.DropShare, units.Ratio(0.04)), set(codes.DropLimit, units.Ratio(0.05)))
	assert.Equal(t, codes.Broken, c)
}

func TestDifferenceOutletsPerCircuit(t *testing.T) {
	for _, r := range american(t).Rules {
		assert.NotEqual(t, "outlet-count", r.ID)
	}
	x := table(t, "outlet-count")
	for _, row := range []struct {
		key          string
		until, since float64
	}{{"15 A, 80 %", 12, 12}, {"15 A, 100 %", 12, 15}, {"20 A, 80 %", 12, 16}, {"20 A, 100 %", 12, 20}} {
		until, _, _ := x.Value(row.key, "until 2018")
		since, _, _ := x.Value(row.key, "since 2021")
		assert.Equal(t, row.until, until, row.key)
		assert.Equal(t, row.since, since, row.key)
		// since 2021 the count is 1 A an outlet within the share for continuous load
		p := profile(t)
		device, err := units.Parse[units.Current](row.key[:4])
		require.NoError(t, err)
		need := p.Continuous.Required(units.Times(units.Ampere, since), 0, row.key[6:] == "100 %")
		assert.Equal(t, device, need, row.key)
	}
	assert.Equal(t, 120*units.Apparent(1), profile(t).Branch.OutletVA, "1 A at 120 V")
}

func TestDifferenceSmallReceptacleOnALargerCircuit(t *testing.T) {
	p := profile(t)
	small := func(f *codes.Facts) { codes.Put(f, codes.ReceptacleKind, receptacle(p, "5-15")) }
	c, a := both(t, "receptacle-rating", small)
	assert.Equal(t, codes.Broken, c)
	assert.Equal(t, codes.Holds, a)
	r, ok := p.ReceptacleFor(20, 120, 1, true)
	require.True(t, ok)
	assert.Equal(t, "5-20R", r.Name)
	for _, name := range []string{"5-20RA", "NEMA 5-20R", "l6-20", "14-50"} {
		_, ok := p.ReceptacleNamed(name)
		assert.True(t, ok, name)
	}
}

func TestDifferenceLightingVoltage(t *testing.T) {
	p := profile(t)
	x := table(t, "luminaire-voltage")
	ground, _, _ := x.Value("elsewhere", "to ground")
	legs, _, _ := x.Value("elsewhere", "between legs")
	assert.Equal(t, 347.0, ground)
	assert.Equal(t, 600.0, legs)
	assert.Equal(t, []float64{120, 208, 240, 277, 347, 416, 480, 600}, column(table(t, "calculation-voltages"), "V"))
	r, ok := p.ReceptacleFor(20, 347, 1, true)
	require.True(t, ok)
	assert.Equal(t, "L24-20R", r.Name)
	_, ok = american(t).ReceptacleFor(20, 347, 1, true)
	assert.False(t, ok)

	// A 240 V luminaire in a house is within the Canadian rule; between conductors
	// the American one stops at 120 V.
	c, a := both(t, "dwelling-voltage", set(codes.Dwelling, true))
	assert.Equal(t, codes.Holds, c)
	assert.Equal(t, codes.Broken, a)
}

func TestDifferenceLuminaireBreaker(t *testing.T) {
	for _, x := range []struct {
		dwelling bool
		breaker  units.Current
		want     codes.State
	}{{true, 15, codes.Holds}, {true, 20, codes.Broken}, {false, 20, codes.Holds}, {false, 25, codes.Broken}} {
		f := circuit(profile(t))
		codes.Put(f, codes.Corded, false)
		codes.Put(f, codes.Dwelling, x.dwelling)
		codes.Put(f, codes.BreakerAmps, x.breaker)
		assert.Equal(t, x.want, named(t, profile(t), "luminaire-device").Judge(f).State, "%+v", x)
	}
	assert.Equal(t, 20*units.Ampere, profile(t).Branch.LightingUpTo)
}

func TestDifferenceBondingAt20A(t *testing.T) {
	ca, cite, ok := profile(t).Wires.GroundFor(20, "copper")
	require.True(t, ok)
	assert.Equal(t, "14 AWG", ca)
	assert.Equal(t, "CEC 2024 Table 16 (from memory)", cite.String())
	us, _, _ := american(t).Wires.GroundFor(20, "copper")
	assert.Equal(t, "12 AWG", us)
}
