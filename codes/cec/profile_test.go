package cec_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/units"
)

func TestProfileIsComplete(t *testing.T) {
	p := profile(t)
	assert.Equal(t, "CEC 2024", p.Title)
	assert.Equal(t, "csa-c22-1", p.Ref)
	assert.Len(t, p.Legs, 3)
	assert.NotEmpty(t, p.NotCovered)
	for _, line := range p.NotCovered {
		assert.NotRegexp(t, `\.$|^[A-Z]`, line)
	}
	for _, about := range []string{"motor", "transformer", "province", "purchased copy", "reactance", "demand"} {
		assert.Contains(t, strings.Join(p.NotCovered, "; "), about)
	}
	for _, r := range p.Rules {
		cites, ok := r.In(p.Edition)
		require.True(t, ok, r.ID)
		for _, c := range cites {
			assert.NotEqual(t, "nfpa70", c.Ref, "%s cites another code", r.ID)
			if c.Ref == p.Ref {
				assert.NotEmpty(t, c.At, r.ID)
			}
		}
	}
}

// What is not held plans nothing: no motor has a current or a device, and no
// transformer has a rating or one.
func TestWhatIsNotHeldPlansNothing(t *testing.T) {
	p := profile(t)
	_, _, ok := p.FullLoadCurrent(5, 600, 3)
	assert.False(t, ok)
	_, _, ok = p.Transformers.Next(10000, 3)
	assert.False(t, ok)
	for _, share := range []units.Ratio{p.Motors.Breaker, p.Transformers.Primary} {
		assert.True(t, math.IsInf(float64(share), 1))
		_, ok = p.Devices.Next(units.Times(10*units.Ampere, float64(share)))
		assert.False(t, ok)
	}
	assert.Empty(t, p.Wires.Trade)
	assert.Empty(t, p.Wires.Reactance.Rows)
}

func TestTerminationsThatAreNotMarked(t *testing.T) {
	w := profile(t).Wires
	assert.Equal(t, units.Temperature(60), w.Terminals(100))
	assert.Equal(t, units.Temperature(75), w.Terminals(101))
	for name, rating := range map[string]units.Temperature{"T90": 90, "rw90": 90, "TW75": 75, "TECK90": 90} {
		i, ok := w.InsulationNamed(name)
		require.True(t, ok, name)
		assert.Equal(t, rating, i.Rating, name)
	}
	_, ok := w.InsulationNamed(w.Insulation)
	assert.True(t, ok)
}

// What the American code keeps free of a circuit the Canadian one does not: a
// share for one plug-in load or beside equipment fastened in place, and 120 V in a
// dwelling.
func TestNothingAmericanIsKeptFree(t *testing.T) {
	b := profile(t).Branch
	assert.Equal(t, units.Ratio(1), b.OnePlug)
	assert.Equal(t, units.Ratio(1), b.Fastened)
	assert.Zero(t, b.DwellingVolts)
	ids := map[string]bool{}
	for _, r := range profile(t).Rules {
		ids[r.ID] = true
	}
	for _, id := range []string{"one-plug-load", "fastened-in-place", "receptacle-load", "permitted-loads", "branch-rating", "ground-fault-lighting", "peak-record"} {
		assert.False(t, ids[id], id)
	}
}

// Nothing is rounded up above the ampacity: 10 AWG derated to 28 A is behind 25 A.
func TestNothingIsRoundedUp(t *testing.T) {
	d := profile(t).Devices
	down, ok := d.Down(28)
	require.True(t, ok)
	assert.Equal(t, 25*units.Ampere, down)
	assert.Zero(t, d.RoundUpTo)
}

func TestGroundFaultProtection(t *testing.T) {
	p := profile(t)
	wet := codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Corded: true, Wet: true}
	with := func(change func(*codes.Outlet)) codes.Outlet { o := wet; change(&o); return o }
	for _, x := range []struct {
		o    codes.Outlet
		want bool
		why  string
	}{
		{wet, true, "5-20R exposed to moisture"},
		{with(func(o *codes.Outlet) { o.Rating = 15 }), true, "5-15R"},
		{with(func(o *codes.Outlet) { o.Lighting = true }), true, "a luminaire on such a receptacle"},
		{with(func(o *codes.Outlet) { o.Wet = false }), false, "a dry place"},
		{with(func(o *codes.Outlet) { o.Corded = false }), false, "wired permanently"},
		{with(func(o *codes.Outlet) { o.Volts = 240 }), false, "no requirement is known at 240 V"},
		{with(func(o *codes.Outlet) { o.Volts, o.ToGround, o.Lighting = 347, 347, true }), false, "nor at 347 V"},
		{with(func(o *codes.Outlet) { o.Rating = 30 }), false, "a larger receptacle"},
	} {
		got := p.Protection(x.o)
		assert.Equal(t, x.want, got.Needed, x.why)
		if x.want {
			assert.Equal(t, "Class A GFCI", got.Class)
			assert.Equal(t, 4*units.Milliampere, got.Trip)
			assert.Equal(t, "CEC 2024 Rule 26-704 (from memory)", got.Cite.String())
		}
	}
}

// Receptacles by circuit, and what each carries for long at 80 %.
func TestReceptaclesByCircuit(t *testing.T) {
	p := profile(t)
	for _, x := range []struct {
		amps    units.Current
		volts   units.Voltage
		neutral bool
		want    string
		long    units.Current
	}{
		{15, 120, true, "5-15R", 12}, {20, 120, true, "5-20R", 16}, {15, 240, false, "6-15R", 12}, {20, 208, false, "6-20R", 16},
		{30, 240, false, "6-30R", 24}, {50, 208, false, "6-50R", 40}, {30, 240, true, "14-30R", 24}, {50, 240, true, "14-50R", 40}, {20, 347, true, "L24-20R", 16},
	} {
		r, ok := p.ReceptacleFor(x.amps, x.volts, 1, x.neutral)
		require.True(t, ok, x.want)
		assert.Equal(t, x.want, r.Name)
		assert.Equal(t, x.long, units.Times(r.Amps, 1/p.Continuous.Factor()), x.want)
		assert.Equal(t, strings.HasPrefix(r.Name, "L"), r.Locking)
	}
	for _, x := range []struct {
		amps  units.Current
		volts units.Voltage
	}{{40, 240}, {15, 347}, {20, 600}} {
		_, ok := p.ReceptacleFor(x.amps, x.volts, 1, x.volts == 347)
		assert.False(t, ok, "%v at %v", x.amps, x.volts)
	}
}
