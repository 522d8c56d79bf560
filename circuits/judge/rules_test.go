package judge_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/steps"
)

// asked gathers the questions that the fixtures of a rule raise for that rule.
func asked(t *testing.T, r codes.Rule, p *codes.Profile) []judge.Asked {
	var out []judge.Asked
	for _, file := range []string{"broken.toml", "sound.toml"} {
		text, ok := read(t, p, r.ID, file)
		require.True(t, ok, "%s %s", r.ID, file)
		s := planned(t, file, text, p)
		for _, a := range judge.Ask(s.inv, s.set, p, &s.plan) {
			if a.Rule.ID == r.ID {
				out = append(out, a)
			}
		}
	}
	return out
}

// No rule of any edition answers Holds or Broken, or turns itself away, while a
// fact that it needs is missing: forgotten one at a time from the facts of its
// own fixtures, each leaves it open and is named.
func TestNoRuleAnswersWithoutAFactItNeeds(t *testing.T) {
	for _, p := range book.All() {
		for _, r := range p.Rules {
			if _, in := r.In(p.Edition); !in {
				continue
			}
			t.Run(p.Name+"/"+r.ID, func(t *testing.T) {
				answered := 0
				for _, a := range asked(t, r, p) {
					if a.Verdict.State != codes.Holds && a.Verdict.State != codes.Broken {
						continue
					}
					answered++
					for _, need := range r.Needs {
						f := a.Facts.Beside(a.Facts.Subject, a.Facts.Label)
						f.Forget(need)
						v := r.Judge(f)
						assert.Equal(t, codes.CannotTell.String(), v.State.String(), "without %q on %s", need, f.Label)
						assert.Contains(t, v.Missing, need)
					}
				}
				broken, _ := read(t, p, r.ID, "broken.toml")
				held := expected(t, broken).state == codes.Broken // or nothing of the rule is
				assert.True(t, answered > 0 || !held, "no fixture of the rule puts a question that it answers")
			})
		}
	}
}

// With nothing known but the code, no rule finds anything within or beyond its
// limit.
func TestNoRuleAnswersFromNothing(t *testing.T) {
	for _, p := range book.All() {
		for _, r := range p.Rules {
			f := codes.NewFacts("circuits.x", "circuit x")
			codes.Put(f, codes.Profiled, p)
			v := r.Judge(f)
			assert.NotEqual(t, codes.Holds, v.State, "%s %s", p.Name, r.ID)
			assert.NotEqual(t, codes.Broken, v.State, "%s %s", p.Name, r.ID)
		}
	}
}

var (
	kebab       = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9A]+)*$`)
	placeholder = regexp.MustCompile(`(?i)\b(todo|tbd|fixme|xxx|lorem|placeholder|fill in)\b`)
	future      = regexp.MustCompile(`(?i)\b(shall|should|must not|will|was|were|has been)\b`)
)

// A rule's record is complete: everything that is printed from it is there.
func TestRuleRecordsAreComplete(t *testing.T) {
	for _, p := range book.All() {
		seen := map[string]bool{}
		for _, r := range p.Rules {
			assert.False(t, seen[r.ID], "%s: %s stands twice", p.Name, r.ID)
			seen[r.ID] = true
			t.Run(p.Name+"/"+r.ID, func(t *testing.T) {
				assert.Regexp(t, kebab, r.ID)
				assert.NotRegexp(t, future, r.Title, "a title says what holds, in the present")
				assert.NotRegexp(t, `^[A-Z]|\.$`, r.Title)
				assert.NotEmpty(t, r.Title)
				assert.Greater(t, len(strings.Fields(r.Why)), 12, "why it exists")
				assert.Regexp(t, `^[A-Z0-9].*\.$`, r.Why)
				for _, text := range []string{r.Title, r.Why} {
					assert.NotRegexp(t, placeholder, text)
				}
				assert.NotZero(t, r.Severity)
				assert.NotEmpty(t, r.Subject)
				assert.NotEmpty(t, r.Remedies)
				assert.NotNil(t, r.Check)
				assert.Equal(t, len(r.Needs), len(slices.Compact(slices.Sorted(slices.Values(r.Needs)))), "a need named twice")
				for _, need := range r.Needs {
					assert.NotEmpty(t, string(need))
				}
				cited(t, r, p)
			})
		}
	}
}

func cited(t *testing.T, r codes.Rule, p *codes.Profile) {
	require.NotEmpty(t, r.Clauses)
	for edition, cites := range r.Clauses {
		require.NotEmpty(t, cites)
		for _, c := range cites {
			_, ok := steps.Lookup(c.Ref)
			assert.True(t, ok, "no reference %q", c.Ref)
			assert.NotEmpty(t, c.How, "how the clause was checked")
			if edition != "" && c.Ref == p.Ref {
				assert.Equal(t, edition, c.Edition)
				assert.NotEmpty(t, c.At)
			}
			if c.Ref == "practice" {
				assert.Equal(t, steps.Practice, c.How)
			}
		}
	}
}

// One rule, one file, named after it: whoever reads a finding finds the rule.
func TestEveryRuleStandsInAFileOfItsName(t *testing.T) {
	for _, p := range book.All() {
		for _, r := range p.Rules {
			name := strings.ReplaceAll(r.ID, "-", "_") + ".go"
			path := filepath.Join("../../codes", family(p), name)
			if _, err := os.Stat(path); err != nil {
				path = filepath.Join("../../codes/practice", name)
			}
			text, err := os.ReadFile(path)
			if assert.NoError(t, err, "no file for %s", r.ID) {
				assert.Regexp(t, fmt.Sprintf(`ID:\s+%q`, r.ID), string(text), path)
			}
		}
	}
}
