package conductor_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/circuits/conductor"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func nec(t *testing.T) *codes.Profile {
	t.Helper()
	p, ok := book.Profile("nec-2023")
	require.True(t, ok)
	return p
}

// Five 640 W bars on a 20 A two-pole circuit at 240 V, power factor 0.98.
// By hand: 13.61 A continuous, × 1.25 = 17.01 A; 12 AWG has 20 A at 60 C and is
// protected by 20 A.
func ExampleSelect() {
	p, _ := book.Profile("nec-2023")
	c, _ := conductor.Select(conductor.Request{Continuous: 13.605, Device: 20, SmallLimits: true, Carrying: 2}, p, nil)
	fmt.Println(c.Size, c.Required, c.Governs, "ground", c.Ground)
	// Output: 12 AWG 17.01 A protection of the conductor ground 12 AWG
}

func TestTestThatGovernsIsNamed(t *testing.T) {
	p := nec(t)
	for _, x := range []struct {
		why     string
		r       conductor.Request
		size    string
		governs string
	}{
		{"125 A is asked for and 3 AWG would carry the load", conductor.Request{Continuous: 95, Device: 125, RoundUp: true, SmallLimits: true}, "1 AWG", conductor.AtTerminations},
		{"nine conductors at 40 C: 30 · 0.91 · 0.70 = 19.1 A of 12 AWG are below 19.5 A", conductor.Request{Other: 19.5, Device: 20, RoundUp: true, SmallLimits: true, Carrying: 9, Ambient: 40}, "10 AWG", conductor.Corrected},
		{"a 30 A device on a light load: 10 AWG by the small-conductor limit", conductor.Request{Continuous: 5, Device: 30, RoundUp: true, SmallLimits: true}, "10 AWG", conductor.Protection},
		{"the smallest size allowed", conductor.Request{Continuous: 5, Device: 15, SmallLimits: true, Minimum: "12 AWG"}, "12 AWG", conductor.Smallest},
	} {
		c, err := conductor.Select(x.r, p, nil)
		require.NoError(t, err, x.why)
		assert.Equal(t, x.size, c.Size, x.why)
		assert.Equal(t, x.governs, c.Governs, x.why)
		require.Len(t, c.Tests, 3)
		for _, test := range c.Tests {
			assert.False(t, test.Short, "%s: %s", x.why, test.Name)
		}
	}
}

// 240.4(B): twelve current-carrying conductors of 10 AWG have 40 · 0.50 = 20 A;
// of 8 AWG 27.5 A. On 30 A the next size up is allowed for 27.5 A, but not where
// the circuit has several receptacles.
func TestRoundingUpChangesTheSize(t *testing.T) {
	p := nec(t)
	r := conductor.Request{Other: 20, Device: 30, RoundUp: true, SmallLimits: true, Carrying: 12}
	c, err := conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "8 AWG", c.Size)
	assert.Equal(t, 30*units.Ampere, c.ProtectedAt)
	r.RoundUp = false
	c, err = conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "6 AWG", c.Size)
}

// The allowance for continuous load is asked of the terminations only: nine
// conductors of 12 AWG at 45 C have 30 · 0.87 · 0.70 = 18.27 A, enough for 15 A
// though not for 18.75 A; 20 A protects them by the next size up.
func TestAllowanceIsNotAskedAfterCorrection(t *testing.T) {
	c, err := conductor.Select(conductor.Request{Continuous: 15, Device: 20, RoundUp: true, SmallLimits: true, Carrying: 9, Ambient: 45}, nec(t), nil)
	require.NoError(t, err)
	assert.Equal(t, "12 AWG", c.Size)
	assert.InDelta(t, 18.27, float64(c.CorrectedAmps), 1e-9)
	assert.Equal(t, 18.75*units.Ampere, c.Required)
}

func TestSmallLimitIsAMaximumNotAnAmpacity(t *testing.T) {
	p := nec(t)
	marked := units.Is(units.Temperature(75))
	r := conductor.Request{Other: 24, Device: 25, SmallLimits: true, RoundUp: true, Terminals: marked}
	c, err := conductor.Evaluate("12 AWG", 1, r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, 25*units.Ampere, c.UsableAmps)
	assert.Equal(t, 20*units.Ampere, c.ProtectedAt)
	assert.Equal(t, 20*units.Ampere, c.SmallLimit)
	assert.True(t, c.Tests[0].Short)
	assert.Equal(t, conductor.Protection, c.Tests[0].Name)
	r.SmallLimits, r.Least = false, 24
	c, err = conductor.Evaluate("12 AWG", 1, r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, 25*units.Ampere, c.ProtectedAt, "the device is set by the nameplate")
	assert.True(t, c.ByEquipment)
}

func TestTerminationColumnCapsTheInsulation(t *testing.T) {
	p := nec(t)
	c, err := conductor.Evaluate("10 AWG", 1, conductor.Request{Device: 30, SmallLimits: true}, p, nil)
	require.NoError(t, err)
	assert.EqualValues(t, 60, c.Column)
	assert.Equal(t, 30*units.Ampere, c.UsableAmps)
	assert.Equal(t, 40*units.Ampere, c.InsulationAmps)
	c, err = conductor.Evaluate("1/0 AWG", 1, conductor.Request{Device: 150}, p, nil)
	require.NoError(t, err)
	assert.EqualValues(t, 75, c.Column, "above 100 A")
	assert.Equal(t, 150*units.Ampere, c.UsableAmps)
	c, err = conductor.Evaluate("1/0 AWG", 1, conductor.Request{Device: 150, Insulation: "TW"}, p, nil)
	require.NoError(t, err)
	assert.EqualValues(t, 60, c.Column, "the insulation itself")
	c, err = conductor.Evaluate("6 AWG", 1, conductor.Request{Device: 50, Insulation: "NM-B", Terminals: units.Is(units.Temperature(75))}, p, nil)
	require.NoError(t, err)
	assert.EqualValues(t, 60, c.Column, "334.80")
	assert.Equal(t, 55*units.Ampere, c.UsableAmps)
}

func TestParallelConductorsAreTakenWhereOneIsNotEnough(t *testing.T) {
	p := nec(t)
	c, err := conductor.Select(conductor.Request{Continuous: 480, Device: 600, RoundUp: true, SmallLimits: true}, p, nil)
	require.NoError(t, err)
	assert.Equal(t, 2, c.Sets)
	assert.Equal(t, "350 kcmil", c.Size, "2 · 310 A = 620 A; 2 · 285 A = 570 A is short of 600 A")
	assert.Equal(t, 620*units.Ampere, c.TableAmps)
	assert.Equal(t, "1 AWG", c.Ground, "by the device, in each raceway")
	_, err = conductor.Evaluate("2 AWG", 2, conductor.Request{}, p, nil)
	assert.NoError(t, err, "what is in the wall is described, whatever it is")
	_, err = conductor.Select(conductor.Request{Continuous: 9000, Device: 6000}, p, nil)
	assert.ErrorContains(t, err, "no copper conductor up to 12 × 600 kcmil")
}

// 250.122(B): 16 A at 120 V over 200 ft is enlarged from 12 to 6 AWG; the ground
// grows from 12 AWG in proportion: 6,530 · 26,240 / 6,530 = 26,240.
func TestEnlargementForDropEnlargesTheGround(t *testing.T) {
	p := nec(t)
	run := conductor.Run{ToFirst: units.Is(units.Length(200)), Loads: []conductor.Tap{{VA: 16 * 120, PF: 1}}}
	r := conductor.Request{Continuous: 16, Device: 20, SmallLimits: true, Volts: 120, Run: run, DropLimit: 0.03}
	c, err := conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "6 AWG", c.Size) // 2 · 16 · 0.2 · 0.491 = 3.14 V, 2.6 %
	assert.Equal(t, "12 AWG", c.BeforeDrop)
	assert.Equal(t, conductor.ForDrop, c.Governs)
	assert.Equal(t, "6 AWG", c.Ground)
	share, ok := c.Drop.Get()
	require.True(t, ok)
	assert.InDelta(t, 0.0262, float64(share), 0.0001)
	was, ok := c.DropBefore.Get()
	require.True(t, ok)
	assert.InDelta(t, 0.1067, float64(was), 0.0001) // 2 · 16 · 0.2 · 2.0 = 12.8 V of 12 AWG
	r.DropLimit = 0.00001
	c, err = conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.True(t, c.DropOver)
	assert.Equal(t, "12 AWG", c.Size, "a size that settles nothing is not proposed")
}

func TestGroundIsNoLargerThanTheConductor(t *testing.T) {
	p := nec(t)
	g, err := conductor.GroundFor(p, 60, "copper", conductor.Conductors{Size: "12 AWG", Sets: 1}, conductor.Conductors{Size: "12 AWG", Sets: 1}, nil)
	require.NoError(t, err)
	assert.Equal(t, "12 AWG", g.Size) // a motor circuit: 10 AWG by the table
	assert.Equal(t, conductor.ByConductor, g.Governs)
	g, err = conductor.GroundFor(p, 20, "aluminum", conductor.Conductors{Size: "10 AWG", Sets: 1}, conductor.Conductors{Size: "10 AWG", Sets: 1}, nil)
	require.NoError(t, err)
	assert.Equal(t, "10 AWG", g.Size)
	_, err = conductor.GroundFor(p, 7000, "copper", conductor.Conductors{Size: "10 AWG", Sets: 1}, conductor.Conductors{Size: "10 AWG", Sets: 1}, nil)
	assert.Error(t, err)
}

// On an ordinary circuit or a feeder the ampacity asked for counts at the
// terminations only: 2/0 AWG corrected by 0.672 has 131 A, below the 136 A asked
// for and above the load. On a motor circuit it counts after correction as well.
func TestLeastAmpacityIsAskedAfterCorrectionOfMotorsOnly(t *testing.T) {
	p := nec(t)
	r := conductor.Request{Other: 119.1, Least: 136.1, Device: 150, RoundUp: true, SmallLimits: true, Carrying: 8, Ambient: 35,
		Terminals: units.Is(units.Temperature(75))}
	c, err := conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "2/0 AWG", c.Size)
	r.SmallLimits = false
	c, err = conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "3/0 AWG", c.Size)
}

func TestHomeRunFillsItsRaceway(t *testing.T) {
	p := nec(t)
	list := conductor.HomeRun(conductor.Choice{Size: "6 AWG", Insulation: "THHN", Ground: "10 AWG"}, 2, true)
	f, err := conductor.Raceway("EMT", list, p, nil)
	require.NoError(t, err)
	assert.Equal(t, 4, f.Conductors)
	assert.InDelta(t, 3*0.0507+0.0211, f.Area, 1e-12)
	assert.Equal(t, "3/4 in", f.Trade) // 0.1732 sq in of 0.213; 1/2 in allows 0.122
}

func TestRefusals(t *testing.T) {
	p := nec(t)
	for says, r := range map[string]conductor.Request{
		`no ampacity table for conductors of "gold"`:    {Material: "gold"},
		`no insulation "RUBBER" in NEC 2023`:            {Insulation: "RUBBER"},
		`has no correction for an ambient of 86 C`:      {Ambient: 86},
		`no conductor size "5 AWG"`:                     {Minimum: "5 AWG"},
		`a current below zero: continuous -1 A`:         {Continuous: -1},
		`TW insulation (60 C) has no correction for an`: {Insulation: "TW", Ambient: 56},
	} {
		_, err := conductor.Select(r, p, nil)
		assert.ErrorContains(t, err, says)
		_, err = conductor.Evaluate("12 AWG", 1, r, p, nil)
		assert.ErrorContains(t, err, says)
	}
	_, err := conductor.Evaluate("5 AWG", 1, conductor.Request{}, p, nil)
	assert.Error(t, err)
	_, err = conductor.Raceway("EMT", []conductor.Wire{{Size: "12 AWG", Insulation: "NM-B", Count: 1}}, p, nil)
	assert.ErrorContains(t, err, `no table of areas for conductors with "NM-B" insulation`)
	_, err = conductor.Raceway("EMT", []conductor.Wire{{Size: "500 kcmil", Insulation: "THHN", Count: 40}}, p, nil)
	assert.ErrorContains(t, err, "do not fit EMT up to 4 in")
}

// For any request: the choice meets every test, no smaller conductor meets them
// all, recording changes nothing, and evaluating the choice gives its figures.
func TestSelectIsTheSmallestThatMeetsEveryTest(t *testing.T) {
	p := nec(t)
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		r.DropLimit = 0
		c, err := conductor.Select(r, p, nil)
		if err != nil {
			t.Skip(err)
		}
		assert.False(t, units.Exceeds(c.Required, c.TableAmps))
		assert.False(t, units.Exceeds(c.Load, c.CorrectedAmps))
		assert.False(t, units.Exceeds(r.Device, c.ProtectedAt))
		assert.LessOrEqual(t, c.UsableAmps, c.TableAmps)
		assert.LessOrEqual(t, c.UsableAmps, c.CorrectedAmps)
		if c.Sets == 1 {
			for _, s := range p.Wires.Sizes {
				if s == c.Size {
					break
				}
				if less, err := conductor.Evaluate(s, 1, r, p, nil); err == nil {
					short := false
					for _, x := range less.Tests {
						short = short || x.Short
					}
					assert.True(t, short, "%s meets every test and is smaller than %s", s, c.Size)
				}
			}
		}
		recorded, err := conductor.Select(r, p, &steps.Work{})
		require.NoError(t, err)
		assert.Equal(t, c, recorded)
		again, err := conductor.Evaluate(c.Size, c.Sets, r, p, nil)
		require.NoError(t, err)
		assert.Equal(t, c, again)
	})
}

// More load never gives a smaller conductor, a hotter or fuller raceway neither.
func TestHarderNeverGivesLess(t *testing.T) {
	p := nec(t)
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		easy, err := conductor.Select(r, p, nil)
		if err != nil {
			t.Skip(err)
		}
		r.Ambient += units.Temperature(rapid.IntRange(0, 15).Draw(t, "hotter"))
		r.Carrying += rapid.IntRange(0, 20).Draw(t, "fuller")
		r.Other += units.Current(rapid.IntRange(0, 20).Draw(t, "more"))
		r.DropLimit = 0
		hard, err := conductor.Select(r, p, nil)
		if err != nil {
			t.Skip(err)
		}
		area := func(size string, sets int) float64 { a, _ := p.Wires.Area(size); return a * float64(sets) }
		if easy.Sets == hard.Sets {
			assert.GreaterOrEqual(t, area(hard.NeededSize, hard.NeededSets), area(easy.NeededSize, easy.NeededSets))
		} else {
			assert.Greater(t, hard.Sets, easy.Sets)
		}
	})
}

// A device that a motor or nameplate rule sets is larger than the conductor's ampacity
// on purpose: it does not choose the conductor.
func TestADeviceOfAMotorDoesNotChooseItsConductor(t *testing.T) {
	p, _ := book.Profile("nec-2023")
	r := conductor.Request{Continuous: 8.8, Least: 11, Device: 25, RoundUp: true, Carrying: 2, Volts: 208, Phases: 1}
	c, err := conductor.Select(r, p, nil)
	require.NoError(t, err)
	assert.Equal(t, "14 AWG", c.Size)
	assert.NotEqual(t, conductor.Protection, c.Governs)
	for _, x := range c.Tests {
		assert.NotEqual(t, conductor.Protection, x.Name)
	}
}

// TestAFeedersLoadIsNotCalledNoncontinuous: its panel put the allowances on, and
// nothing of them is put into a formula for continuous load that shows 0 A.
func TestAFeedersLoadIsNotCalledNoncontinuous(t *testing.T) {
	w := &steps.Work{}
	r := conductor.Request{Other: 10.88, Least: 13.6, Device: 20, SmallLimits: true, Carrying: 2}
	plain, err := conductor.Select(r, nec(t), nil)
	require.NoError(t, err)
	r.Feeder = true
	c, err := conductor.Select(r, nec(t), w)
	require.NoError(t, err)
	assert.Equal(t, []units.Current{plain.Required, plain.Load}, []units.Current{c.Required, c.Load})
	for _, s := range w.Steps() {
		for _, in := range s.Inputs {
			assert.NotContains(t, []string{"Ic", "In"}, in.Symbol, s.Name)
		}
	}
}
