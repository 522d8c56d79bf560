package units

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestRoundingNoiseDoesNotExceedAndAMilliampereDoes(t *testing.T) {
	nine := Current(0)
	for range 9 {
		nine += 16.0 / 9
	}
	assert.Greater(t, nine, Current(16), "floating-point addition goes over the limit")
	for _, row := range []struct {
		actual, limit Current
		want          bool
		why           string
	}{
		{16, 16, false, "exactly at the limit"},
		{nine, 16, false, "noise of addition"},
		{16 * (1 + Slack*0.9), 16, false, "within the slack"},
		{16 * (1 + Slack*1.1), 16, true, "beyond the slack"},
		{16.001, 16, true, "a milliampere"},
		{15.999, 16, false, "below"},
		{1e-12, 0, true, "a limit of zero has no slack"},
		{0, 0, false, "nothing at a limit of zero"},
		{-16, -16, false, "at a negative limit"},
		{-15.9, -16, true, "above a negative limit"},
		{-16.1, -16, false, "below a negative limit"},
	} {
		assert.Equal(t, row.want, Exceeds(row.actual, row.limit), row.why)
	}
}

func TestExceedsIsNeverTrueBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64().Draw(t, "a"), rapid.Float64().Draw(t, "b")
		if Exceeds(a, b) && Exceeds(b, a) {
			t.Fatalf("%v and %v exceed each other", a, b)
		}
		if Exceeds(a, b) && a <= b {
			t.Fatalf("%v exceeds %v", a, b)
		}
	})
}

// What is no number is within no limit, and within a limit that is none is nothing.
func TestNoNumberIsWithinNoLimit(t *testing.T) {
	none := Current(math.NaN())
	assert.True(t, Exceeds(none, 20*Ampere))
	assert.True(t, Exceeds(20*Ampere, none))
	assert.True(t, Exceeds(Current(math.Inf(1)), 20*Ampere))
	assert.False(t, Exceeds(20*Ampere, Current(math.Inf(1))))
}

func TestTimesAndPerKeepTheQuantity(t *testing.T) {
	assert.Equal(t, 2560*Watt, Times(640*Watt, 4))
	assert.InDelta(t, 0.85, Per(17*Ampere, 20*Ampere), 1e-12)
}

func TestMissingFactIsNotZero(t *testing.T) {
	var none Known[Current]
	_, ok := none.Get()
	assert.False(t, ok)
	assert.False(t, none.Known())
	assert.Empty(t, none.Why())
	assert.Equal(t, 15*Ampere, none.Or(15))
	assert.Equal(t, "not measured", Unknown[Current]("not measured").Why())

	zero := Is(Current(0))
	v, ok := zero.Get()
	assert.True(t, ok, "a known zero is known")
	assert.Zero(t, v)
	assert.Zero(t, zero.Or(15))
}

func TestNamesComeInNaturalOrder(t *testing.T) {
	for _, row := range []struct{ a, b, why string }{
		{"bar-2", "bar-10", "numbers by value"},
		{"bar-02", "bar-2", "equal numbers by text, so that the order is total"},
		{"LP1-9", "LP2-1", "the first number decides"},
		{"a", "ab", "the shorter first"},
		{"", "a", "nothing first"},
		{"A", "a", "by letter"},
		{"1", "a", "numbers before letters"},
		{"x9y", "x10", "numbers in the middle"},
		{"99999999999999999999", "100000000000000000000", "numbers of any length"},
	} {
		assert.True(t, NaturalLess(row.a, row.b), row.why)
		assert.False(t, NaturalLess(row.b, row.a), row.why)
		assert.False(t, NaturalLess(row.a, row.a), row.why)
	}
}

func TestNaturalOrderIsTotal(t *testing.T) {
	name := rapid.StringMatching(`[a0-2-]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := name.Draw(t, "a"), name.Draw(t, "b"), name.Draw(t, "c")
		if n := count(NaturalLess(a, b), NaturalLess(b, a), a == b); n != 1 {
			t.Fatalf("%q and %q: %d of before, after and equal hold", a, b, n)
		}
		if NaturalLess(a, b) && NaturalLess(b, c) && !NaturalLess(a, c) {
			t.Fatalf("%q < %q < %q, but not the first before the last", a, b, c)
		}
	})
}

func count(is ...bool) int {
	n := 0
	for _, x := range is {
		if x {
			n++
		}
	}
	return n
}
