package judge_test

import (
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// The seeded faults: for every rule the smallest inventory that breaks it, the
// same one mended, and where a fact can be left out the same one without it.
//
// The first line of a file says how it is read: "# plan" or "# check". The line
// that a finding must point to carries its own expectation:
//
//	# expect <rule> <severity> [cannot-tell] [needs=<actual>] [has=<limit>]
const faults = "../../testdata/faults"

// expectation is what a fixture says of itself.
type expectation struct {
	rule, severity string
	state          codes.State
	needs, has     string // as written; empty: not asked
	line           int
}

var mark = regexp.MustCompile(`# expect (\S+) (violation|warning|advice)( cannot-tell)?( needs=(\S+))?( has=(\S+))?\s*$`)

func expected(t *testing.T, text string) []expectation {
	var out []expectation
	for i, line := range strings.Split(text, "\n") {
		m := mark.FindStringSubmatch(line)
		require.Equal(t, strings.Contains(line, "# expect"), m != nil, "line %d: a mark that cannot be read: %s", i+1, line)
		if m == nil {
			continue
		}
		e := expectation{rule: m[1], severity: m[2], state: codes.Broken, needs: m[5], has: m[7], line: i + 1}
		if m[3] != "" {
			e.state = codes.CannotTell
		}
		out = append(out, e)
	}
	return out
}

// pending are rules whose fixture cannot be read yet, each with the reason.
func pending() map[string]string { return map[string]string{} }

// site is a fixture as it stands before it is judged.
type site struct {
	inv  *inventory.Inventory
	set  loads.Set
	plan circuits.Plan
}

// judged reads a fixture under a profile and returns what is found.
func judged(t *testing.T, name, text string, p *codes.Profile) (*inventory.Inventory, []codes.Finding) {
	s := planned(t, name, text, p)
	return s.inv, judge.Plan(s.inv, s.set, p, &s.plan)
}

// planned reads a fixture and plans it, or takes it as built.
func planned(t *testing.T, name, text string, p *codes.Profile) site {
	words := inventory.Vocabulary{Sizes: p.Wires.Sizes, Raceways: p.Wires.Raceways}
	for m := range p.Wires.Ampacity {
		words.Materials = append(words.Materials, m)
	}
	sort.Strings(words.Materials)
	for _, i := range p.Wires.Insulations {
		words.Insulations = append(words.Insulations, i.Name)
	}
	for _, r := range p.Receptacles {
		words.Receptacles = append(words.Receptacles, r.Name)
	}
	inv, problems := inventory.Read(name, []byte(text), words)
	require.Empty(t, problems, "the inventory is refused")
	set := loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})
	decide := assign.Plan
	switch first, _, _ := strings.Cut(text, "\n"); first {
	case "# plan":
	case "# check":
		decide = assign.AsBuilt
	default:
		t.Fatalf("the first line is %q, not # plan or # check", first)
	}
	plan, err := decide(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan), "the plan does not hold when it is worked out by another road")
	return site{inv, set, plan}
}

func of(rule string, list []codes.Finding) []codes.Finding {
	var out []codes.Finding
	for _, f := range list {
		if f.Names(rule) {
			out = append(out, f)
		}
	}
	return out
}

// read returns a fixture; ok is false where there is none.
func read(t *testing.T, rule, file string) (string, bool) {
	b, err := os.ReadFile(filepath.Join(faults, rule, file))
	if os.IsNotExist(err) {
		return "", false
	}
	require.NoError(t, err)
	return string(b), true
}

func TestEveryRuleFindsItsSeededFaultAndNothingInTheMendedOne(t *testing.T) {
	p, ok := book.Profile(book.Default)
	require.True(t, ok)
	for _, r := range p.Rules {
		if _, in := r.In(p.Edition); !in {
			continue
		}
		t.Run(r.ID, func(t *testing.T) {
			if why, wait := pending()[r.ID]; wait {
				t.Skip(why)
			}
			broken, ok := read(t, r.ID, "broken.toml")
			require.True(t, ok, "no testdata/faults/%s/broken.toml", r.ID)
			want := expected(t, broken)
			require.Len(t, want, 1, "one line says what is expected")
			e := want[0]
			require.Equal(t, r.ID, e.rule)
			inv, findings := judged(t, "broken.toml", broken, p)
			found := of(r.ID, findings)
			require.Len(t, found, 1, "findings: %s", said(findings))
			f := found[0]
			assert.Equal(t, e.severity, f.Severity.String())
			assert.Equal(t, e.state, f.State, f.Message)
			place, ok := inv.Place(f.At)
			require.True(t, ok, "no place for %s", f.At)
			assert.Equal(t, e.line, place.Line, "%s points to another line: %s", f.At, f.Message)
			figure(t, e.needs, f.Actual.Value, f.Message)
			figure(t, e.has, f.Limit.Value, f.Message)
			speaks(t, f)

			sound, ok := read(t, r.ID, "sound.toml")
			require.True(t, ok, "no testdata/faults/%s/sound.toml", r.ID)
			_, findings = judged(t, "sound.toml", sound, p)
			assert.Empty(t, said(of(r.ID, findings)), "the mended inventory is found at fault")
			assert.Equal(t, 1, differing(broken, sound), "broken and sound differ in one line")
		})
	}
}

func TestAMissingFactIsNeverAPass(t *testing.T) {
	p, ok := book.Profile(book.Default)
	require.True(t, ok)
	n := 0
	for _, r := range p.Rules {
		text, ok := read(t, r.ID, "unknown.toml")
		if !ok {
			continue
		}
		n++
		t.Run(r.ID, func(t *testing.T) {
			want := expected(t, text)
			require.Len(t, want, 1)
			require.Equal(t, codes.CannotTell, want[0].state)
			_, findings := judged(t, "unknown.toml", text, p)
			found := of(r.ID, findings)
			require.NotEmpty(t, found, "findings: %s", said(findings))
			for _, f := range found {
				assert.Equal(t, codes.CannotTell, f.State, f.Message)
				assert.NotEmpty(t, f.Missing)
				if f.Rule == r.ID {
					assert.Equal(t, want[0].severity, f.Severity.String())
				} else {
					assert.LessOrEqual(t, f.Severity, r.WhenUntold(), "a finding is as grave as the gravest of its rules")
				}
				speaks(t, f)
			}
			if r.WhenUntold() == codes.Violation {
				assert.False(t, codes.Passed(findings), "what cannot be told counts as passed")
			}
			sound, _ := read(t, r.ID, "sound.toml")
			assert.Equal(t, 1, differing(text, sound), "unknown and sound differ in one line")
		})
	}
	assert.Greater(t, n, 20, "fixtures with a fact missing")
}

// Every folder of faults belongs to a rule, so that a renamed rule does not leave
// a fixture behind that nothing reads.
func TestEveryFaultBelongsToARule(t *testing.T) {
	ids := map[string]bool{}
	for _, p := range book.All() {
		for _, r := range p.Rules {
			ids[r.ID] = true
		}
	}
	entries, err := os.ReadDir(faults)
	require.NoError(t, err)
	for _, e := range entries {
		assert.True(t, ids[e.Name()], "no rule %s", e.Name())
	}
}

// figure compares a value with a figure as written: within half a unit of its
// last digit.
func figure(t *testing.T, written string, value float64, says string) {
	if written == "" {
		return
	}
	want, err := strconv.ParseFloat(written, 64)
	require.NoError(t, err, written)
	half := 0.5
	if _, decimals, ok := strings.Cut(written, "."); ok {
		for range decimals {
			half /= 10
		}
	}
	assert.InDelta(t, want, value, half*(1+1e-9), says)
}

// speaks checks the form of what a finding says.
func speaks(t *testing.T, f codes.Finding) {
	for _, text := range []string{f.Message, f.Remedy} {
		require.NotEmpty(t, text)
		assert.NotRegexp(t, `\.$`, text, "a full stop")
		assert.NotRegexp(t, `(?i)\b(complies|compliant|is safe|ok)\b`, text)
		assert.NotRegexp(t, `%!|NaN|Inf|  |\(\)`, text)
	}
	assert.NotRegexp(t, `(?i)larger breaker|breaker of a higher rating`, f.Remedy)
	assert.NotEmpty(t, f.Clause())
}

// differing counts the lines in which two inventories differ, comments apart.
func differing(a, b string) int {
	x, y := bare(a), bare(b)
	n := 0
	if len(x) == len(y) {
		for i := range x {
			if x[i] != y[i] {
				n++
			}
		}
		return n
	}
	if len(x) > len(y) {
		x, y = y, x
	}
	i := 0
	for _, line := range y {
		if i < len(x) && x[i] == line {
			i++
		} else {
			n++
		}
	}
	return n + len(x) - i
}

func bare(text string) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		code, _, _ := strings.Cut(line, "#")
		if code = strings.TrimSpace(code); code != "" {
			out = append(out, code)
		}
	}
	return out
}

func said(list []codes.Finding) string {
	var out []string
	for _, f := range list {
		out = append(out, f.Severity.String()+" "+f.State.String()+" ["+f.Rule+"] "+f.Message+" -> "+f.Remedy)
	}
	return strings.Join(out, "\n")
}
