package codes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"branchwork/codes"
	"branchwork/loads/units"
)

// A limit is exact to the milliampere: at it the rule holds, a milliampere
// beyond it is broken, and neither rounding noise nor a printed "16 A" hides it.
func TestALimitIsExactToTheMilliampere(t *testing.T) {
	for _, limit := range []units.Current{0.3, 12, 16, 20, 24, 400, 4000} {
		assert.Equal(t, codes.Holds, codes.Within(limit, limit, "A").State, "at %v", limit)
		assert.Equal(t, codes.Broken, codes.Within(limit+units.Milliampere, limit, "A").State, "a milliampere above %v", limit)
		assert.Equal(t, codes.Holds, codes.Within(limit-units.Milliampere, limit, "A").State, "a milliampere below %v", limit)
		assert.Equal(t, codes.Holds, codes.Least(limit, limit, "A").State, "at least %v", limit)
		assert.Equal(t, codes.Broken, codes.Least(limit-units.Milliampere, limit, "A").State, "a milliampere below %v", limit)
		actual, most := codes.Within(limit+units.Milliampere, limit, "A").Figures()
		assert.NotEqual(t, actual, most, "the figures show what is wrong")
	}
	sum := units.Current(0)
	for range 9 {
		sum += 16.0 / 9
	}
	assert.NotEqual(t, 16*units.Ampere, sum, "sixteen with its rounding noise")
	assert.Equal(t, codes.Holds, codes.Within(sum, 16, "A").State)
}

// An unknown fact is neither yes nor no, so that turning a question round does
// not turn unknown into an answer.
func TestUnknownIsNeitherYesNorNo(t *testing.T) {
	f := codes.NewFacts("circuits.x", "circuit x")
	for _, set := range []func(){
		func() {},
		func() { codes.PutKnown(f, codes.Corded, units.Unknown[bool]("nobody looked")) },
		func() { codes.Put(f, codes.Corded, true); f.Miss(codes.Corded, "worn", "") },
		func() { codes.Put(f, codes.Corded, false); f.Forget(codes.Corded) },
	} {
		set()
		assert.False(t, f.Yes(codes.Corded))
		assert.False(t, f.No(codes.Corded))
		assert.False(t, f.Has(codes.Corded))
	}
	codes.Put(f, codes.Corded, true)
	assert.True(t, f.Yes(codes.Corded) && !f.No(codes.Corded))
	codes.Put(f, codes.Corded, false)
	assert.True(t, f.No(codes.Corded) && !f.Yes(codes.Corded))
}

// Whatever a rule's function makes of facts that are not there, holds or broken,
// asked straight or turned round, the answer is that it cannot be told.
func TestNoVerdictRestsOnAnUnknownFact(t *testing.T) {
	needs := []codes.Fact{codes.LoadAmps, codes.BreakerAmps, codes.Corded}
	checks := map[string]func(*codes.Facts) codes.Verdict{
		"holds":  func(*codes.Facts) codes.Verdict { return codes.Whether(true) },
		"broken": func(*codes.Facts) codes.Verdict { return codes.Whether(false) },
		"yes":    func(f *codes.Facts) codes.Verdict { return codes.Whether(f.Yes(codes.Corded)) },
		"no":     func(f *codes.Facts) codes.Verdict { return codes.Whether(!f.Yes(codes.Corded)) },
		"zero": func(f *codes.Facts) codes.Verdict {
			return codes.Within(codes.Of[units.Current](f, codes.LoadAmps), codes.Of[units.Current](f, codes.BreakerAmps), "A")
		},
	}
	rapid.Check(t, func(t *rapid.T) {
		f := codes.NewFacts("circuits.x", "circuit x")
		var missing []codes.Fact
		for _, n := range needs {
			if rapid.Bool().Draw(t, string(n)) {
				missing = append(missing, n)
				continue
			}
			if n == codes.Corded {
				codes.Put(f, n, true)
			} else {
				codes.Put(f, n, 10*units.Ampere)
			}
		}
		for name, check := range checks {
			v := codes.Rule{ID: name, Needs: needs, Check: check}.Judge(f)
			if len(missing) == 0 {
				assert.NotEqual(t, codes.CannotTell, v.State, name)
			} else {
				assert.Equal(t, codes.CannotTell, v.State, name)
				assert.Equal(t, missing, v.Missing, name)
			}
		}
	})
}

// The zero value of a verdict is no answer: a rule that forgot to decide has not
// passed, and is not found sound by its absence.
func TestAVerdictThatWasForgottenShows(t *testing.T) {
	var forgotten codes.Verdict
	assert.Equal(t, "invalid", forgotten.State.String())
	assert.NotEqual(t, codes.Holds, forgotten.State)
	assert.Equal(t, "invalid", codes.Severity(0).String())
	r := codes.Rule{ID: "forgetful", Clauses: codes.PracticeClause()}
	assert.NotNil(t, r.Report(codes.NewFacts("circuits.x", "circuit x"), forgotten, "2023"), "it is reported")
	words := map[string]bool{}
	for _, s := range []codes.State{codes.Holds, codes.Broken, codes.CannotTell, codes.NotAsked} {
		words[s.String()] = true
	}
	assert.Len(t, words, 4)
}

// The order of findings does not depend on the order in which rules were asked:
// severity first, the gravest last, then subject as people count, then rule.
func TestFindingsHaveOneOrder(t *testing.T) {
	var all []codes.Finding
	for _, s := range []codes.Severity{codes.Advice, codes.Warning, codes.Violation} {
		for _, subject := range []string{"circuits.LP1-2", "circuits.LP1-10", "panels.LP1"} {
			for _, rule := range []string{"a", "b"} {
				all = append(all, codes.Finding{Rule: rule, Severity: s, Subject: subject})
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		mixed := rapid.Permutation(all).Draw(t, "findings")
		codes.SortFindings(mixed)
		assert.Equal(t, all, mixed)
	})
}
