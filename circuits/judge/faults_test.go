package judge_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/book"
)

// Every rule of every profile has its pair. The broken inventory is found at
// fault for the rule once, at the line and with the figures that it gives, and
// for nothing beside it but what it names itself; the mended one is one line
// apart and free of violations and warnings but those that it names.
func TestEveryRuleFindsItsSeededFaultAndNothingElse(t *testing.T) {
	for _, p := range book.All() {
		for _, r := range p.Rules {
			if _, in := r.In(p.Edition); in {
				t.Run(p.Name+"/"+r.ID, func(t *testing.T) { pair(t, p, r) })
			}
		}
	}
}

func pair(t *testing.T, p *codes.Profile, r codes.Rule) {
	broken, ok := read(t, p, r.ID, "broken.toml")
	require.True(t, ok, "no testdata/faults/%s/%s/broken.toml", family(p), r.ID)
	sound, ok := read(t, p, r.ID, "sound.toml")
	require.True(t, ok, "no testdata/faults/%s/%s/sound.toml", family(p), r.ID)
	assert.Equal(t, 1, differing(broken, sound), "broken and sound differ in one line")
	_, unknown := read(t, p, r.ID, "unknown.toml")
	assert.NotEqual(t, unknown, always.MatchString(broken), "an unknown.toml, or the reason why no fact can be missing")
	want := expected(t, broken)
	require.Equal(t, r.ID, want.rule)
	if slices.Contains(named(t, broken, "except", except), p.Name) {
		return
	}

	inv, wrong := judged(t, "broken.toml", broken, p)
	found := of(r.ID, wrong)
	require.Len(t, found, 1, "findings: %s", said(wrong))
	f := found[0]
	assert.Equal(t, want.severity, f.Severity.String())
	assert.Equal(t, want.state, f.State, f.Message)
	place, ok := inv.Place(f.At)
	require.True(t, ok, "no place for %s", f.At)
	assert.Equal(t, want.line, place.Line, "%s points to another line: %s", f.At, f.Message)
	figure(t, want.needs, f.Actual.Value, f.Message)
	figure(t, want.has, f.Limit.Value, f.Message)
	edition(t, f, p)

	_, right := judged(t, "sound.toml", sound, p)
	assert.Empty(t, said(of(r.ID, right)), "the mended inventory is found at fault")
	assert.Equal(t, named(t, sound, "also", also), rulesOf(counted(right)), "what else the mended inventory is found at fault for: %s", said(counted(right)))
	further := without(beside(r.ID, wrong), right)
	assert.Equal(t, named(t, broken, "also", also), rulesOf(further), "what else the fault breaks: %s", said(further))
	for _, f := range append(wrong, right...) {
		speaks(t, f)
	}
}

// edition checks that a finding cites the edition that it was judged by.
func edition(t *testing.T, f codes.Finding, p *codes.Profile) {
	for _, c := range f.Cites {
		if c.Ref == p.Ref {
			assert.Equal(t, p.Edition, c.Edition)
		}
	}
}

// Where an edition does not have a rule of its family, it finds nothing by it.
func TestARuleFindsNothingInAnEditionWithoutIt(t *testing.T) {
	n := 0
	for _, p := range book.All() {
		for _, r := range p.Rules {
			if _, in := r.In(p.Edition); in {
				continue
			}
			n++
			t.Run(p.Name+"/"+r.ID, func(t *testing.T) {
				broken, ok := read(t, p, r.ID, "broken.toml")
				require.True(t, ok)
				_, findings := judged(t, "broken.toml", broken, p)
				assert.Empty(t, said(of(r.ID, findings)))
			})
		}
	}
	assert.Positive(t, n, "rules that an edition does not have")
}

// A fact left out leaves the rule open, never within its limit, and makes nothing
// else broken that was not.
func TestAMissingFactIsNeverAPass(t *testing.T) {
	n := map[string]int{}
	for _, p := range book.All() {
		for _, r := range p.Rules {
			text, ok := read(t, p, r.ID, "unknown.toml")
			if _, in := r.In(p.Edition); !ok || !in {
				continue
			}
			n[p.Name]++
			t.Run(p.Name+"/"+r.ID, func(t *testing.T) {
				sound, _ := read(t, p, r.ID, "sound.toml")
				assert.Equal(t, 1, differing(text, sound), "unknown and sound differ in one line")
				want := expected(t, text)
				require.Equal(t, r.ID, want.rule)
				require.Equal(t, codes.CannotTell, want.state)
				_, findings := judged(t, "unknown.toml", text, p)
				found := of(r.ID, findings)
				require.NotEmpty(t, found, "findings: %s", said(findings))
				for _, f := range found {
					assert.Equal(t, codes.CannotTell, f.State, f.Message)
					assert.NotEmpty(t, f.Missing)
					if f.Rule == r.ID {
						assert.Equal(t, want.severity, f.Severity.String())
					} else {
						assert.LessOrEqual(t, f.Severity, r.WhenUntold(), "a finding is as grave as the gravest of its rules")
					}
				}
				if r.WhenUntold() == codes.Violation {
					assert.False(t, codes.Passed(findings), "what cannot be told counts as passed")
				}
				_, right := judged(t, "sound.toml", sound, p)
				for _, f := range without(counted(findings), right) {
					assert.Equal(t, codes.CannotTell, f.State, said([]codes.Finding{f}))
				}
				for _, f := range findings {
					speaks(t, f)
				}
			})
		}
	}
	for _, p := range book.All() {
		assert.Greater(t, n[p.Name], 20, "%s: fixtures with a fact missing", p.Name)
	}
}

// Every folder of faults belongs to a rule of its family, so that a renamed rule
// does not leave a fixture behind that nothing reads.
func TestEveryFaultBelongsToARule(t *testing.T) {
	ids := map[string]map[string]bool{}
	for _, p := range book.All() {
		if ids[family(p)] == nil {
			ids[family(p)] = map[string]bool{}
		}
		for _, r := range p.Rules {
			ids[family(p)][r.ID] = true
		}
	}
	families, err := os.ReadDir(faults)
	require.NoError(t, err)
	for _, folder := range families {
		rules, err := os.ReadDir(filepath.Join(faults, folder.Name()))
		require.NoError(t, err)
		for _, e := range rules {
			assert.True(t, ids[folder.Name()][e.Name()], "no rule %s in %s", e.Name(), folder.Name())
			files, err := os.ReadDir(filepath.Join(faults, folder.Name(), e.Name()))
			require.NoError(t, err)
			for _, f := range files {
				assert.Contains(t, []string{"broken.toml", "sound.toml", "unknown.toml"}, f.Name(), "nothing reads it")
			}
		}
	}
}
