package cec_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/units"
)

// set changes one fact.
func set[T any](name codes.Fact, v T) func(*codes.Facts) {
	return func(f *codes.Facts) { codes.Put(f, name, v) }
}

// trial is a rule with the facts on which it holds, at the limit where there is
// one, and the smallest change that breaks it.
type trial struct {
	of     func(*codes.Profile) *codes.Facts
	sound  []func(*codes.Facts) // beside the facts of a sound subject
	breaks []func(*codes.Facts)
	says   string // what the finding names
}

func trials(p *codes.Profile) map[string]trial {
	type changes = []func(*codes.Facts)
	const more = 1.001 // the smallest step beyond a limit that is tried
	kind := func(name string) func(*codes.Facts) { return set(codes.ReceptacleKind, receptacle(p, name)) }
	wired := set(codes.Corded, false)
	outlets := changes{set(codes.UnitVA, units.Apparent(120)), set(codes.UnitCount, 16), set(codes.IsLuminaire, false)}
	classA := set(codes.Protected, p.Protection(codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Corded: true, Wet: true}))
	return map[string]trial{
		"load-current":              {circuit, nil, nil, ""},
		"continuous-load":           {circuit, nil, changes{set(codes.ContinuousAmps, units.Current(16*more))}, "80 %"},
		"load-voltage":              {circuit, nil, changes{set(codes.Accepts, false)}, "240 V"},
		"dwelling-voltage":          {circuit, changes{set(codes.Dwelling, true)}, changes{set(codes.Volts, units.Voltage(347)), set(codes.ToNeutral, true)}, "347 V"},
		"standard-rating":           {circuit, nil, changes{set(codes.BreakerAmps, units.Current(21))}, "20 A and 25 A"},
		"device-protects-conductor": {circuit, nil, changes{set(codes.BreakerAmps, units.Current(25))}, "25 A"},
		"small-conductor":           {circuit, nil, changes{set(codes.BreakerAmps, units.Current(25))}, "12 AWG"},
		"maker-max-breaker":         {circuit, changes{set(codes.MakerBreaker, units.Current(20))}, changes{set(codes.BreakerAmps, units.Current(25))}, "20 A"},
		"nameplate-device":          {circuit, changes{set(codes.MaxDevice, units.Current(20))}, changes{set(codes.BreakerAmps, units.Current(25))}, "20 A"},
		"luminaire-device":          {circuit, changes{wired}, changes{set(codes.BreakerAmps, units.Current(25))}, "20 A"},
		"lighting-over-20A":         {circuit, nil, changes{set(codes.BreakerAmps, units.Current(25))}, "20 A"},
		"outlet-count":              {circuit, outlets, changes{set(codes.UnitCount, 17)}, "16"},
		"dedicated-equipment":       {circuit, changes{set(codes.AskedAlone, true), set(codes.Individual, true)}, changes{set(codes.Individual, false)}, "shares"},
		"conductor-ampacity":        {circuit, nil, changes{set(codes.WireTableAmps, units.Current(20/more))}, "terminations"},
		"nameplate-conductor":       {circuit, changes{set(codes.MinCircuit, units.Current(20))}, changes{set(codes.MinCircuit, units.Current(20*more))}, "20 A"},
		"insulation-temperature":    {circuit, changes{set(codes.AmbientTemp, units.Temperature(70))}, changes{set(codes.AmbientTemp, units.Temperature(71))}, "T90"},
		"terminal-column":           {board, nil, changes{set(codes.Terminals, units.Temperature(90))}, "90 C"},
		"ground-size":               {circuit, nil, changes{set(codes.BreakerAmps, units.Current(25))}, "12 AWG"},
		"voltage-drop-branch":       {circuit, nil, changes{set(codes.DropShare, units.Ratio(0.03*more))}, "3 %"},
		"voltage-drop-total":        {circuit, nil, changes{set(codes.FeederDrop, units.Ratio(0.02*more))}, "5 %"},
		"voltage-drop-feeder":       {board, nil, changes{set(codes.DropShare, units.Ratio(0.03*more))}, "3 %"},
		"receptacle-rating":         {circuit, nil, changes{kind("6-15")}, "6-15R"},
		"receptacle-configuration":  {circuit, nil, changes{kind("5-20")}, "5-20R"},
		"locking-receptacle":        {circuit, nil, changes{kind("6-30")}, "30 A"},
		"ground-fault-receptacle":   {circuit, changes{classA, set(codes.GroundFault, true)}, changes{set(codes.GroundFault, false)}, "Class A"},
		"controller-outlets":        {board, nil, changes{set(codes.OutletsUsed, 9)}, "9 units"},
		"controller-outlet-rating":  {board, nil, changes{set(codes.LargestUnit, units.Current(16*more))}, "16 A"},
		"controller-feed":           {board, nil, changes{set(codes.FeedDemand, units.Current(20*more))}, "20 A"},
		"controller-branches":       {board, nil, nil, ""},
		"panel-spaces":              {board, nil, changes{set(codes.SpacesUsed, 13)}, "13"},
		"panel-main":                {board, nil, changes{set(codes.RequiredAmps, units.Current(100*more))}, "100 A"},
		"panel-bus":                 {board, nil, changes{set(codes.AheadAmps, units.Current(110))}, "110 A"},
		"feeder-device":             {board, nil, changes{set(codes.RequiredAmps, units.Current(100*more))}, "100 A"},
		"feeder-conductor":          {board, nil, changes{set(codes.WireCorrected, units.Current(80/more))}, "along the run"},
		"feeder-protection":         {board, nil, changes{set(codes.BreakerAmps, units.Current(110))}, "110 A"},
		"transformer-capacity":      {board, nil, changes{set(codes.ThroughVA, units.Apparent(30000*more))}, "30 kVA"},
		"noncoincident-interlock":   {board, nil, changes{set(codes.Alternating, []string{"a and b"})}, "a and b"},
	}
}

// neverHold are rules whose substance is not held, so that they can only say that
// they cannot tell.
func neverHold() map[string]codes.Fact {
	return map[string]codes.Fact{"transformer-device": codes.TransformerVA, "measured-peak": codes.PeakAmps}
}

func built(p *codes.Profile, x trial) *codes.Facts {
	f := x.of(p)
	for _, change := range x.sound {
		change(f)
	}
	return f
}

func TestEveryRuleHoldsAtItsLimitAndBreaksBeyondIt(t *testing.T) {
	p := profile(t)
	all := trials(p)
	for _, r := range p.Rules {
		if _, never := neverHold()[r.ID]; never {
			continue
		}
		x, ok := all[r.ID]
		require.True(t, ok, "no trial of %s", r.ID)
		f := built(p, x)
		v := r.Judge(f)
		assert.Equal(t, codes.Holds.String(), v.State.String(), "%s: %s", r.ID, v.Says)
		if x.breaks == nil {
			continue
		}
		for _, change := range x.breaks {
			change(f)
		}
		v = r.Judge(f)
		require.Equal(t, codes.Broken.String(), v.State.String(), r.ID)
		assert.Contains(t, v.Says+"; "+v.Remedy, x.says, r.ID)
		speaks(t, v, r.ID)
		finding := r.Report(f, v, p.Edition)
		require.NotNil(t, finding)
		assert.NotEmpty(t, finding.Clause())
	}
	assert.Equal(t, len(p.Rules), len(all)+len(neverHold()), "a trial without its rule")
}

// Each needed fact is forgotten in turn, from the facts on which the rule holds
// and from those on which it breaks: neither is an answer then.
func TestAMissingFactIsNeverAPass(t *testing.T) {
	p := profile(t)
	for id, x := range trials(p) {
		r := named(t, p, id)
		for _, broken := range []bool{false, true} {
			for _, need := range r.Needs {
				f := built(p, x)
				if broken {
					for _, change := range x.breaks {
						change(f)
					}
				}
				f.Forget(need)
				v := r.Judge(f)
				assert.Equal(t, codes.CannotTell.String(), v.State.String(), "%s without %q", id, need)
				assert.Contains(t, v.Missing, need, id)
			}
		}
	}
}

func TestWhatIsNotHeldCannotBeTold(t *testing.T) {
	p := profile(t)
	for id, fact := range neverHold() {
		f := board(p)
		f.Forget(codes.TransformerVA)
		assert.Equal(t, codes.NotAsked, named(t, p, id).Judge(f).State, id)
		if fact == codes.TransformerVA {
			codes.Put(f, fact, units.Apparent(30000))
		} else {
			codes.Put(f, fact, units.Current(50))
		}
		v := named(t, p, id).Judge(f)
		assert.Equal(t, codes.CannotTell, v.State, id)
		assert.Contains(t, v.Says, "does not hold", id)
		assert.NotEmpty(t, v.Missing)
		speaks(t, v, id)
	}
	f := board(p)
	codes.Put(f, codes.FeedRating, units.Current(50))
	v := named(t, p, "controller-branches").Judge(f)
	assert.Equal(t, codes.CannotTell, v.State, "a box with a larger supply may have breakers inside")
	f = circuit(p)
	f.Forget(codes.UnitAmps)
	assert.Equal(t, codes.CannotTell, named(t, p, "load-current").Judge(f).State)
}

func TestRulesThatAreNotConcerned(t *testing.T) {
	p := profile(t)
	const not = codes.NotAsked
	for _, x := range []struct {
		rule, why string
		change    []func(*codes.Facts)
		want      codes.State
	}{
		{"dwelling-voltage", "outlets of a shop", []func(*codes.Facts){set(codes.FeedsLighting, false)}, not},
		{"dwelling-voltage", "outlets of a dwelling at 347 V", []func(*codes.Facts){set(codes.FeedsLighting, false), set(codes.Dwelling, true),
			set(codes.Volts, units.Voltage(347)), set(codes.ToNeutral, true)}, codes.Broken},
		{"dwelling-voltage", "luminaires of a greenhouse at 347 V", []func(*codes.Facts){set(codes.Volts, units.Voltage(347)), set(codes.ToNeutral, true)}, codes.Holds},
		{"luminaire-device", "on a cord: the warning asks", nil, not},
		{"luminaire-device", "wired, 20 A, in a dwelling", []func(*codes.Facts){set(codes.Corded, false), set(codes.Dwelling, true)}, codes.Broken},
		{"luminaire-device", "wired, 15 A, in a dwelling", []func(*codes.Facts){set(codes.Corded, false), set(codes.Dwelling, true), set(codes.BreakerAmps, units.Current(15))}, codes.Holds},
		{"luminaire-device", "marked for 30 A, perhaps a heavy-duty arrangement", []func(*codes.Facts){set(codes.Corded, false), set(codes.BreakerAmps, units.Current(30)), set(codes.MakerBreaker, units.Current(30))}, not},
		{"lighting-over-20A", "the same, and the warning asks", []func(*codes.Facts){set(codes.Corded, false), set(codes.BreakerAmps, units.Current(30)), set(codes.MakerBreaker, units.Current(30))}, codes.Broken},
		{"lighting-over-20A", "wired and not marked: the violation asks", []func(*codes.Facts){set(codes.Corded, false)}, not},
		{"lighting-over-20A", "on a cord in a dwelling, 20 A", []func(*codes.Facts){set(codes.Dwelling, true)}, codes.Broken},
		{"outlet-count", "a load that is known", []func(*codes.Facts){set(codes.UnitCount, 40)}, not},
		{"outlet-count", "marked for 100 %", []func(*codes.Facts){set(codes.UnitVA, units.Apparent(120)), set(codes.FullRated, true), set(codes.UnitCount, 20)}, codes.Holds},
		{"outlet-count", "a rating that the rule does not name", []func(*codes.Facts){set(codes.UnitVA, units.Apparent(120)), set(codes.BreakerAmps, units.Current(30))}, not},
		{"small-conductor", "a size without a limit", []func(*codes.Facts){set(codes.WireSize, "8 AWG")}, not},
		{"device-protects-conductor", "a nameplate sets the device", []func(*codes.Facts){set(codes.ByEquipment, true)}, not},
		{"conductor-ampacity", "a nameplate sets the conductor", []func(*codes.Facts){set(codes.ByEquipment, true)}, not},
		{"receptacle-rating", "nothing on a plug", []func(*codes.Facts){set(codes.FeedsCorded, false)}, not},
		{"receptacle-rating", "15 A on 20 A, one receptacle alone", []func(*codes.Facts){set(codes.ReceptacleKind, receptacle(p, "6-15")), set(codes.Individual, true)}, codes.Broken},
		{"locking-receptacle", "locks already", []func(*codes.Facts){set(codes.ReceptacleKind, receptacle(p, "L6-30"))}, codes.Holds},
		{"ground-size", "no larger than the circuit's own conductors", []func(*codes.Facts){set(codes.BreakerAmps, units.Current(30)), set(codes.WireSize, "14 AWG")}, codes.Holds},
		{"ground-size", "a size that is not in the book", []func(*codes.Facts){set(codes.GroundSize, "16 AWG")}, codes.CannotTell},
		{"insulation-temperature", "an insulation that is not in the book", []func(*codes.Facts){set(codes.WireInsulation, "XYZ")}, codes.CannotTell},
		{"voltage-drop-total", "no feeder before it", []func(*codes.Facts){set(codes.FedThrough, false)}, not},
		{"ground-fault-receptacle", "no protection called for", nil, not},
	} {
		f := circuit(p)
		for _, change := range x.change {
			change(f)
		}
		v := named(t, p, x.rule).Judge(f)
		assert.Equal(t, x.want.String(), v.State.String(), "%s: %s: %s", x.rule, x.why, v.Says)
	}
}

// The two limits of 8-104 stand side by side. A plan's one sum keeps both.
func TestContinuousAndOtherLoadHaveALimitEach(t *testing.T) {
	p := profile(t)
	r := named(t, p, "continuous-load")
	for _, x := range []struct {
		continuous, other, marked units.Current
		full                      bool
		holds                     bool
		why                       string
	}{
		{16, 4, 0, false, true, "16 of 16 A continuous, 20 of 20 A in all; the American sum is 24 A"},
		{16, 4.01, 0, false, false, "more than 20 A in all"},
		{16.01, 0, 0, false, false, "more than 16 A continuous"},
		{0, 20, 0, false, true, "nothing continuous"},
		{20, 0, 0, true, true, "marked for continuous operation at 100 %"},
		{8, 0, 10, false, true, "a nameplate's 10 A, and 80 % of the rest"},
		{8.01, 0, 10, false, false, "and more than that"},
	} {
		f := circuit(p)
		codes.Put(f, codes.ContinuousAmps, x.continuous)
		codes.Put(f, codes.OtherAmps, x.other)
		codes.Put(f, codes.MarkedAmps, x.marked)
		codes.Put(f, codes.FullRated, x.full)
		v := r.Judge(f)
		assert.Equal(t, x.holds, v.State == codes.Holds, x.why)
		if p.Continuous.Required(x.continuous, x.other, x.full)+x.marked <= 20 {
			assert.Equal(t, codes.Holds, v.State, "the sum of a plan fits and the rule is broken")
		}
	}
	f := circuit(p) // the conductor is the lesser
	codes.Put(f, codes.WireAmps, units.Current(15))
	v := r.Judge(f)
	assert.Equal(t, codes.Broken, v.State)
	assert.Equal(t, 15.0, v.Limit.Value)
}

func speaks(t *testing.T, v codes.Verdict, id string) {
	t.Helper()
	for _, text := range []string{v.Says, v.Remedy} {
		require.NotEmpty(t, text, id)
		assert.NotRegexp(t, `\.$`, text, id)
		assert.NotRegexp(t, `(?i)\b(complies|compliant|is safe|ok)\b`, text, id)
		assert.NotRegexp(t, `%!|NaN|Inf|  |\(\)`, text, id)
	}
	assert.NotRegexp(t, `(?i)larger breaker|breaker of a higher rating`, v.Remedy, id)
}
