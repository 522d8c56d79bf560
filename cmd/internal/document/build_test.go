package document

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// printed returns the document as a reader of the JSON sees it.
func printed(t *testing.T, d any) map[string]any {
	b, err := json.Marshal(d)
	require.NoError(t, err)
	var m map[string]any
	require.NoError(t, json.Unmarshal(b, &m))
	return m
}

func circuitNamed(t *testing.T, doc map[string]any, name string) map[string]any {
	for _, c := range doc["circuits"].([]any) {
		if m := c.(map[string]any); m["name"] == name {
			return m
		}
	}
	require.Fail(t, "no circuit "+name)
	return nil
}

func TestKeysAreNullWhereNotKnownAndAbsentWhereTheyHaveNoMeaning(t *testing.T) {
	doc := printed(t, NewPlan(sampleResults(t)))
	full, old, wired := circuitNamed(t, doc, "LP1-1"), circuitNamed(t, doc, "old"), circuitNamed(t, doc, "wired")

	require.Equal(t, "NEMA 6-20R", full["receptacle"])
	require.Contains(t, old, "receptacle", "a receptacle that nobody has read yet is there")
	require.Nil(t, old["receptacle"])
	require.NotContains(t, wired, "receptacle", "a wired circuit has none")

	for _, key := range []string{"breaker_amps", "gfci", "last_outlet_ft"} {
		require.Contains(t, old, key)
		require.Nil(t, old[key], key)
	}
	wire := old["conductor"].(map[string]any)
	for _, key := range []string{"size", "material", "ampacity_amps", "length_ft", "drop_percent"} {
		require.Contains(t, wire, key)
		require.Nil(t, wire[key], key)
	}
	require.NotContains(t, full, "measured_amps")
	require.NotContains(t, doc["panels"].([]any)[0], "feeder", "the service panel has no feeder")
}

func TestNoListIsNull(t *testing.T) {
	for _, key := range []string{"circuits", "panels", "heat", "voltage_choices", "unfed", "findings", "assumptions"} {
		require.NotNil(t, printed(t, NewPlan(Results{Profile: sampleResults(t).Profile}))[key], key)
	}
}

func TestNumbersAreNotRounded(t *testing.T) {
	load := circuitNamed(t, printed(t, NewPlan(sampleResults(t))), "LP1-1")["loads"].([]any)[0].(map[string]any)
	require.InDelta(t, 640/(240*0.98), load["amps_each"], 1e-12)
}

func TestFindingsComeGravestLastWithTheirLines(t *testing.T) {
	d := NewPlan(sampleResults(t))
	require.Len(t, d.Findings, 3)
	require.Equal(t, "advice", d.Findings[0].Severity)
	require.Equal(t, "violation", d.Findings[2].Severity)
	for _, f := range d.Findings {
		switch f.Subject {
		case "circuits.old.breaker":
			require.Equal(t, 26, f.Line, "the line of the breaker")
			require.Equal(t, 16.0, *f.Actual)
			require.Equal(t, 15.0, *f.Limit)
		case "circuits.old":
			require.Equal(t, 23, f.Line, "the line of the table")
			require.Equal(t, "cannot tell", f.Verdict)
			require.Nil(t, f.Actual)
			require.Equal(t, []string{"conductor size"}, f.Missing)
		}
	}
}

func TestVerdictCountsAndNeverCountsTheUntoldAsMet(t *testing.T) {
	d := NewPlan(sampleResults(t))
	require.Equal(t, Verdict{ExitStatus: 1, Violations: 1, CannotTell: 1, Advice: 1,
		Says: "1 rule of NEC 2023 is broken; 1 fact is missing: 1 rule cannot be told and counts as not met; 1 piece of advice"}, d.Verdict)

	r := sampleResults(t)
	r.Findings = r.Findings[1:2]
	require.Equal(t, 1, NewPlan(r).Verdict.ExitStatus)

	r.Findings = r.Findings[:0]
	v := NewPlan(r).Verdict
	require.Equal(t, 0, v.ExitStatus)
	require.Equal(t, "no rule of NEC 2023 that was checked is broken", v.Says)
}

// TestARuleOfPracticeIsNoRuleOfTheCode: nobody finds its section in the book.
func TestARuleOfPracticeIsNoRuleOfTheCode(t *testing.T) {
	r := sampleResults(t)
	r.Profile.Rules = append(r.Profile.Rules, codes.Rule{ID: "unfed-load", Severity: codes.Violation, Clauses: codes.PracticeClause()})
	unfed := codes.Finding{Rule: "unfed-load", Severity: codes.Violation, State: codes.Broken, Cites: []steps.Cite{steps.CommonPractice}, Subject: "fixtures.bar-640"}
	r.Findings = []codes.Finding{unfed}
	d := NewPlan(r)
	require.Equal(t, Verdict{ExitStatus: 1, Violations: 1, Practice: 1, Says: "1 rule of good practice is broken"}, d.Verdict)
	require.Equal(t, []int{2, 1}, []int{d.Checked.Rules, d.Checked.Practice})
	r.Findings = append(r.Findings, sampleResults(t).Findings[0])
	require.Equal(t, "1 rule of NEC 2023 is broken; 1 rule of good practice is broken", NewPlan(r).Verdict.Says)
}

// One missing fact leaves several rules open; a warning that cannot be told is not
// one that was found.
func TestVerdictSaysWhatMissingFactsLeaveOpen(t *testing.T) {
	p := &codes.Profile{Title: "NEC 2023", Rules: []codes.Rule{{ID: "a", Severity: codes.Violation}, {ID: "b", Severity: codes.Violation}, {ID: "c", Severity: codes.Advice}}}
	grave := codes.Finding{Rule: "a", Also: []string{"b", "c"}, Severity: codes.Violation, State: codes.CannotTell}
	require.Equal(t, "1 fact is missing: 2 rules cannot be told and count as not met", NewVerdict([]codes.Finding{grave}, p).Says)
	open := codes.Finding{Rule: "w", Severity: codes.Warning, State: codes.CannotTell}
	found := codes.Finding{Rule: "w", Severity: codes.Warning, State: codes.Broken}
	const none = "no rule of NEC 2023 that was checked is broken; "
	require.Equal(t, none+"1 warning that cannot be told: a fact is missing", NewVerdict([]codes.Finding{open}, p).Says)
	require.Equal(t, none+"2 warnings that cannot be told: facts are missing", NewVerdict([]codes.Finding{open, open}, p).Says)
	require.Equal(t, none+"2 warnings, 1 of them cannot be told", NewVerdict([]codes.Finding{open, found}, p).Says)
	require.Equal(t, none+"1 warning", NewVerdict([]codes.Finding{found}, p).Says)
}

func TestOnlyRulesOfTheEditionAreCounted(t *testing.T) {
	require.Equal(t, 1, NewPlan(sampleResults(t)).Checked.Rules)
}

func TestAsBuiltDecidesNothing(t *testing.T) {
	r := sampleResults(t)
	require.Contains(t, printed(t, NewPlan(r)), "optimality")
	r.AsBuilt = true
	require.NotContains(t, printed(t, NewPlan(r)), "optimality")
}

func TestStepsReadAsAnEngineerWritesThem(t *testing.T) {
	cite := steps.CommonPractice
	for _, c := range []struct {
		why  string
		step steps.Step
		want string
	}{
		{"numbers take the place of symbols", steps.Result("current", "P / (V · pf)", 2.7210884353741496, "A", cite,
			steps.In("P", 640.0, "W"), steps.In("V", 240.0, "V"), steps.In("pf", 0.98, "")),
			"current: P / (V · pf) = 640 W / (240 V · 0.98) = 2.72109 A"},
		{"a longer symbol is not eaten by a shorter one", steps.Result("sum", "I + Ic", 3.0, "A", cite, steps.In("I", 1.0, "A"), steps.In("Ic", 2.0, "A")),
			"sum: I + Ic = 1 A + 2 A = 3 A"},
		{"a function's name stays", steps.Result("least", "min(a, b)", 1.0, "A", cite, steps.In("a", 1.0, "A"), steps.In("b", 2.0, "A")),
			"least: min(a, b) = min(1 A, 2 A) = 1 A"},
		{"a sum over many stays in symbols", steps.Result("sum", "Σ k · I", 9.0, "A", cite, steps.In("k", 1.25, "")),
			"sum: Σ k · I = 9 A, with k = 1.25"},
		{"a symbol put in twice stays", steps.Result("sum", "Σ I", 3.0, "A", cite, steps.In("I", 1.0, "A"), steps.In("I", 2.0, "A")),
			"sum: Σ I = 3 A, with I = 1 A, I = 2 A"},
		{"a choice gives its name", steps.Choice("conductor", "12 AWG", "the smallest", cite, steps.In("I", 16.0, "A")),
			"conductor: 12 AWG, with I = 16 A"},
		{"small figures keep their digits", steps.Result("share", "a / b", 0.00123456789, "", cite, steps.In("a", 1.0, ""), steps.In("b", 810.0, "")),
			"share: a / b = 1 / 810 = 0.00123457"},
		{"a result of nothing", steps.Result("sum", "a", 0.0, "A", cite, steps.In("a", 0.0, "A")), "sum: a = 0 A = 0 A"},
	} {
		t.Run(c.why, func(t *testing.T) { require.Equal(t, c.want, worked(c.step).Line) })
	}
}

func TestExplanationFindsByNameAndByPath(t *testing.T) {
	d := NewExplanation(sampleResults(t))
	require.Equal(t, []string{"LP1", "LP1-1", "old", "wired"}, d.Names())
	require.Len(t, d.About("LP1").Subjects, 1)
	require.Equal(t, "panel", d.About("panels.LP1").Subjects[0].Kind)
	require.Len(t, d.About("old").Subjects[0].Findings, 2, "its own and that of its breaker")
	require.Empty(t, d.About("nothing").Subjects)
}

func TestUnitsOnABreakerAreWholeAndExact(t *testing.T) {
	c := codes125()
	for _, x := range []struct {
		why     string
		each, b units.Current
		want    int
	}{
		{"five of 2.7211 A need 17.01 A", 2.7210884, 20, 5},
		{"nine of 16/9 A are exactly 16 A, 125 % of it 20 A", 16.0 / 9, 20, 9},
		{"a milliampere more is one less", 16.0/9 + 0.001, 20, 8},
		{"too large for any", 16.1, 20, 0},
		{"one exactly", 12, 15, 1},
	} {
		require.Equal(t, x.want, fit(x.each, x.b, c), x.why)
	}
}
