package cec_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads/units"
)

// example is one published case with its profile.
type example struct {
	t *testing.T
	p *codes.Profile
	c outside.Case
}

func amps(x example, key string) (units.Current, bool) {
	if !x.c.In.Has(key) {
		return 0, false
	}
	i, err := published.Quantity[units.Current](x.c.In, key)
	require.NoError(x.t, err, x.c.ID)
	return i, true
}

func word(x example, key string) string {
	s, err := published.Get[string](x.c.In, key)
	require.NoError(x.t, err, x.c.ID)
	return s
}

func wantAmps(x example, key string, got units.Current) {
	outside.Near(x.t, x.c, key, got)
}

func wantNumber(x example, key string, got float64) {
	x.c.Number(x.t, key, got)
}

func TestPublishedExamples(t *testing.T) {
	list := outside.Cases(t, "cec.toml")
	assert.Len(t, list, 16)
	for _, c := range list {
		x := example{t, profile(t), c}
		switch {
		case c.In.Has("needs"):
			x.smallest()
		case c.In.Has("bundled"):
			x.bundled()
		case c.In.Has("amps"):
			x.drop()
		case c.In.Has("marking"):
			x.marked()
		default:
			x.rated()
		}
		assert.Empty(t, c.Unread(), c.ID)
	}
}

// rated: what a circuit is rated at, and what it carries for long. The figures are
// those of the rule continuous-load.
func (x example) rated() {
	device, ok := amps(x, "device")
	if !ok {
		device, _ = amps(x, "rating")
	}
	wire, ok := amps(x, "ampacity")
	switch {
	case x.c.In.Has("conductor"):
		at, err := units.Parse[units.Temperature](word(x, "column"))
		require.NoError(x.t, err)
		wire, _, ok = x.p.Wires.AmpacityOf("copper", word(x, "conductor"), at)
		require.True(x.t, ok)
		wantAmps(x, "ampacity", wire)
	case !ok:
		wire = device
	}
	f := circuit(x.p)
	codes.Put(f, codes.BreakerAmps, device)
	codes.Put(f, codes.WireAmps, wire)
	rule := named(x.t, x.p, "continuous-load")
	v := rule.Judge(f)
	rating := units.Current(v.Limit.Value)
	wantAmps(x, "rating", rating)

	// the most continuous load that holds, and a milliampere more that does not
	most := units.Times(rating, 1/x.p.Continuous.Factor())
	codes.Put(f, codes.OtherAmps, units.Current(0))
	codes.Put(f, codes.ContinuousAmps, most)
	assert.Equal(x.t, codes.Holds, rule.Judge(f).State, x.c.ID)
	codes.Put(f, codes.ContinuousAmps, most+units.Milliampere)
	assert.Equal(x.t, codes.Broken, rule.Judge(f).State, x.c.ID)
	wantAmps(x, "continuous", most)
	if x.c.Want.Has("va") {
		volts, err := published.Quantity[units.Voltage](x.c.In, "volts")
		require.NoError(x.t, err)
		outside.Near(x.t, x.c, "va", units.VA(volts, most))
	}
}

// marked: the share for continuous load, and the number of outlets, by marking.
func (x example) marked() {
	if x.c.In.Has("conductors") {
		share, _, ok := table(x.t, "continuous-share").Value(word(x, "marking"), word(x, "conductors"))
		require.True(x.t, ok)
		wantNumber(x, "share", share)
		assert.Equal(x.t, 10*units.Ampere, x.p.Continuous.Required(10, 0, true), "and the whole rating is used")
		return
	}
	device, _ := amps(x, "device")
	n, _, ok := table(x.t, "outlet-count").Value(device.String()+", "+word(x, "marking"), "since 2021")
	require.True(x.t, ok)
	wantNumber(x, "outlets", n)
}

// smallest: the smallest copper conductor for a current.
func (x example) smallest() {
	needs, _ := amps(x, "needs")
	at, err := units.Parse[units.Temperature](word(x, "column"))
	require.NoError(x.t, err)
	var below units.Current
	for _, size := range x.p.Wires.Sizes {
		i, _, ok := x.p.Wires.AmpacityOf("copper", size, at)
		if ok && !units.Exceeds(needs, i) {
			x.c.Name(x.t, "conductor", size)
			break
		}
		below = i
	}
	wantAmps(x, "below", below)
}

// bundled: ampacity times the factor for bundled conductors, and what protects it.
func (x example) bundled() {
	at, err := units.Parse[units.Temperature](word(x, "column"))
	require.NoError(x.t, err)
	n, err := x.c.In.Number("bundled")
	require.NoError(x.t, err)
	size := word(x, "conductor")
	i, _, ok := x.p.Wires.AmpacityOf("copper", size, at)
	require.True(x.t, ok)
	factor, _, ok := x.p.Wires.BundleFactor(int(n))
	require.True(x.t, ok)
	corrected := units.Times(i, float64(factor))
	wantAmps(x, "corrected", corrected)
	device, _ := x.p.Devices.Down(corrected)
	if limit, _, small := x.p.Wires.SmallLimit("copper", size); small {
		device = min(device, limit)
	}
	wantAmps(x, "device", device)
}

// drop: the resistance per kilometre that the profile's own implies, and the
// length that loses 1 %. The profile's is at 75 C and of stranded wire; the page's
// figures are of the metal alone.
func (x example) drop() {
	r75, _, ok := x.p.Wires.Resistance("copper", word(x, "conductor"))
	require.True(x.t, ok)
	const alpha, strands, kmPerKft = 0.00393, 1.02, 0.3048
	solid20 := float64(r75) / strands / (1 + 55*alpha) / kmPerKft
	solid60 := solid20 * (1 + 40*alpha)
	wantNumber(x, "ohm-20", solid20)
	wantNumber(x, "ohm-60", solid60)
	i, _ := amps(x, "amps")
	volts, err := published.Quantity[units.Voltage](x.c.In, "volts")
	require.NoError(x.t, err)
	wantNumber(x, "metres", 0.01*float64(volts)/(2*float64(i)*solid60/1000))
}
