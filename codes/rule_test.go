package codes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// within is an invented rule: 10 A at most, of things that are asked about.
func within() Rule {
	return Rule{
		ID: "ten", Title: "the load is 10 A at most", Why: "invented", Severity: Violation, Subject: OfCircuit, Key: "feeds",
		Clauses: map[string][]steps.Cite{"2023": {{Ref: "nfpa70", Edition: "2023", At: "1.1", How: steps.Seen}}},
		Needs:   []Fact{LoadAmps, Existing},
		Check: func(f *Facts) Verdict {
			if f.No(Existing) {
				return NotConcerned()
			}
			v := Within(Of[units.Current](f, LoadAmps), 10*units.Ampere, "A")
			a, l := v.Figures()
			return v.Saying("take something off", "it carries %s of %s", a, l)
		},
	}
}

func subject() *Facts {
	f := NewFacts("circuits.x", "circuit x")
	Put(f, LoadAmps, 8*units.Ampere)
	Put(f, Existing, true)
	return f
}

func TestARuleAnswersInThreeWays(t *testing.T) {
	r, f := within(), subject()
	assert.Equal(t, Holds, r.Judge(f).State)
	Put(f, LoadAmps, 10*units.Ampere+1e-6)
	v := r.Judge(f)
	assert.Equal(t, Broken, v.State)
	assert.Equal(t, "it carries 10.000001 A of 10 A", v.Says)
	assert.Equal(t, "take something off", v.Remedy)
	f.Forget(LoadAmps)
	v = r.Judge(f)
	assert.Equal(t, CannotTell, v.State)
	assert.Equal(t, []Fact{LoadAmps}, v.Missing)
	assert.Empty(t, v.Says)
	Put(f, Existing, false)
	assert.Equal(t, NotAsked, r.Judge(f).State, "a rule that is not concerned does not ask for facts")
	f.Forget(Existing)
	assert.Equal(t, CannotTell, r.Judge(f).State, "not known to be false is not false")
}

func TestAnOwnCannotTellIsKept(t *testing.T) {
	r := within()
	r.Check = func(*Facts) Verdict { return Unsettled("the box is closed", "open it", InnerDevices) }
	v := r.Judge(NewFacts("x", "x"))
	assert.Equal(t, []Fact{InnerDevices}, v.Missing)
	f := r.Report(subject(), v, "2023")
	require.NotNil(t, f)
	assert.Equal(t, "circuit x: cannot tell whether the load is 10 A at most: the box is closed", f.Message)
	assert.Equal(t, "open it", f.Remedy)
}

func TestWithinAndLeastHoldAtTheLimit(t *testing.T) {
	assert.Equal(t, Holds, Within(10.0, 10.0, "A").State)
	assert.Equal(t, Broken, Within(10.0001, 10.0, "A").State)
	assert.Equal(t, Holds, Least(10.0, 10.0, "A").State)
	low := Least(9.0, 10.0, "A")
	assert.Equal(t, Broken, low.State)
	assert.Equal(t, 9.0, low.Actual.Value)
	assert.Equal(t, 10.0, low.Limit.Value)
	assert.Equal(t, Holds, Whether(true).State)
	assert.Equal(t, Broken, Whether(false).State)
}

func TestOnlyABrokenVerdictSpeaks(t *testing.T) {
	v := Within(1.0, 2.0, "A").Saying("remedy", "says")
	assert.Empty(t, v.Says)
	assert.Empty(t, v.Remedy)
}

func TestTheShareUsedRestsOnALimit(t *testing.T) {
	share, ok := Within(5.0, 20.0, "A").Share()
	assert.True(t, ok)
	assert.InDelta(t, 0.25, share, 1e-12)
	_, ok = Within(5.0, 0.0, "A").Share()
	assert.False(t, ok)
	_, ok = NotConcerned().Share()
	assert.False(t, ok)
	_, ok = Unsettled("", "", LoadAmps).Share()
	assert.False(t, ok)
}

func TestAFactOfAnotherTypeIsOurOwnFault(t *testing.T) {
	f := subject()
	assert.Panics(t, func() { Of[string](f, LoadAmps) })
	assert.Equal(t, units.Current(0), Of[units.Current](f, BreakerAmps), "unknown: the zero value, which no verdict rests on")
	_, ok := Get[string](f, LoadAmps)
	assert.False(t, ok)
}

func TestFactsBesideOthersAreTheirOwn(t *testing.T) {
	f := subject()
	f.Miss(WireSize, "nobody looked", "circuits.x")
	g := f.Beside("circuits.x", "bar on circuit x")
	Put(g, UnitAmps, 2*units.Ampere)
	g.Forget(LoadAmps)
	assert.False(t, f.Has(UnitAmps))
	assert.True(t, f.Has(LoadAmps))
	assert.Equal(t, "nobody looked", g.Why(WireSize))
	assert.Equal(t, "circuits.x", g.At(WireSize))
}

func TestAKnownThatIsMissingKeepsItsReason(t *testing.T) {
	f := subject()
	PutKnown(f, BreakerAmps, units.Unknown[units.Current]("the handle is worn"))
	says, at := f.Missing([]Fact{BreakerAmps, WireSize})
	assert.Equal(t, "the handle is worn, the conductor size is not known", says)
	assert.Empty(t, at)
	PutKnown(f, BreakerAmps, units.Is(20*units.Ampere))
	assert.True(t, f.Has(BreakerAmps))
}

func TestReliefNamesTheFewestUnits(t *testing.T) {
	bars := Piece{Item: "bar-640", Count: 6, Each: 3.4}
	fans := Piece{Item: "fan", Count: 2, Each: 0.5}
	for _, row := range []struct {
		why    string
		pieces []Piece
		excess units.Current
		want   string
	}{
		{"one is enough", []Piece{fans, bars}, 0.41, "move 1 of 2 fan to another circuit, which frees 0.5 A of the rating"},
		{"of kinds that need equally few the first", []Piece{bars, fans}, 0.41, "move 1 of 6 bar-640 to another circuit, which frees 3.4 A of the rating"},
		{"fewest units, not the first kind", []Piece{fans, bars}, 0.9, "move 1 of 6 bar-640 to another circuit, which frees 3.4 A of the rating"},
		{"several", []Piece{bars}, 7, "move 3 of 6 bar-640 to another circuit, which frees 10.2 A of the rating"},
		{"all of a kind", []Piece{bars, {Item: "dry", Count: 1, Each: 6}}, 5, "move dry to another circuit, which frees 6 A of the rating"},
		{"every unit of a kind", []Piece{fans}, 0.9, "move all 2 fan to another circuit, which frees 1 A of the rating"},
		{"no one kind suffices", []Piece{fans, {Item: "pump", Count: 1, Each: 2}}, 2.5, "move loads of 2.5 A to other circuits"},
		{"nothing is listed", nil, 2.5, "move loads of 2.5 A to other circuits"},
	} {
		assert.Equal(t, row.want, Relief(row.pieces, row.excess), row.why)
	}
	alone := Relief([]Piece{{Item: "heater", Count: 1, Each: 30}}, 10)
	assert.Contains(t, alone, "a circuit of its own", "one unit cannot be moved off itself")
	assert.NotContains(t, alone, "supply it at", "no higher voltage is offered that it does not accept")
	assert.Contains(t, Relief([]Piece{{Item: "heater", Count: 1, Each: 30, Higher: 240}}, 10), "supply it at 240 V", "one that it accepts")
}

// A sum that is known at the least may be beyond a limit; within it, nobody can tell.
func TestWhatIsKnownAtTheLeastNeverHolds(t *testing.T) {
	for amps, want := range map[units.Current]State{8: CannotTell, 12: Broken} {
		f := subject()
		PutLeast(f, LoadAmps, amps, "what pump draws is not known", "equipment.pump")
		for _, f := range []*Facts{f, f.Beside("circuits.x", "pump on circuit x")} {
			assert.Equal(t, want, within().Judge(f).State)
			assert.Equal(t, "equipment.pump", f.At(LoadAmps))
		}
		Put(f, LoadAmps, 8*units.Ampere)
		assert.Equal(t, Holds, within().Judge(f).State, "and known after all")
	}
}
