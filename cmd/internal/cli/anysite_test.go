package cli

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
	"branchwork/codes"
	"branchwork/loads/anysite"
)

// enough sites among which some must be of every kind that a property is about: one
// in ten is.
const enough = 100

// ran runs a command on a site given on standard input.
func ran(site string, args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = Run(args, strings.NewReader(site), &o, &e)
	return status, o.String(), e.String()
}

// answered is ran where the answer must be one: the file is read, and nothing in
// it brings the program to contradict itself.
func answered(t require.TestingT, site string, args ...string) string {
	status, out, errs := ran(site, args...)
	require.Contains(t, []int{statusHolds, statusBroken}, status, "%s\n%s\n%s", strings.Join(args, " "), errs, site)
	return out
}

// planned is what these properties read of the answer of plan and check.
type planned struct {
	Circuits []struct {
		Name, Panel  string
		Spaces       []int
		Legs         []string
		Poles        int
		Volts        float64
		BreakerAmps  *float64         `json:"breaker_amps"`
		RequiredAmps *float64         `json:"required_amps"`
		Limits       []document.Limit `json:"limits"`
	}
	Findings []document.Finding
	Verdict  document.Verdict
}

func planOf(t require.TestingT, out string) planned {
	var d planned
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	return d
}

// What holds of every site:
//
//   - it is planned: each unit once, every limit in every state, legs and working
//     derived anew by the verifier, which runs inside plan and check and ends them
//     with status 3 where anything differs;
//   - the order of its tables and keys decides nothing, nor does the unit system
//     of what is printed: the same bytes but for the lines of findings;
//   - the limit that binds is named, and what is not known is never a pass;
//   - a plan that breaks nothing, written into the file, is found by check as it
//     was planned.
func TestAnySite(t *testing.T) {
	tried, written := 0, 0
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		site := anysite.Any(t)
		name := filepath.Join(dir, "new.toml")
		defer os.Remove(name)
		tried++
		out := answered(t, site.Text(), "plan", "-", "--json", "--write", name)
		other := site.Shuffled(t).Text()
		require.Equal(t, withoutLines(out), withoutLines(answered(t, other, "plan", "-", "--json", "--units", "metric")), other)
		d := planOf(t, out)
		bindsAndKnows(t, d, site.Text())
		if d.Verdict.Violations > 0 || len(d.Circuits) == 0 {
			return
		}
		written++
		built, err := os.ReadFile(name)
		require.NoError(t, err, site.Text())
		c := planOf(t, answered(t, string(built), "check", "-", "--json"))
		bindsAndKnows(t, c, string(built))
		foundAsPlanned(t, d, c, string(built))
	})
	if tried >= enough {
		require.Positive(t, written)
	}
}

var lineOfFinding = regexp.MustCompile(`,\n *"line": \d+`)

func withoutLines(out string) string { return lineOfFinding.ReplaceAllString(out, "") }

// bindsAndKnows: the limit that binds is named and is the one used most; one that
// is passed is found; what cannot be told names what is missing, and counts as
// not met.
func bindsAndKnows(t require.TestingT, d planned, site string) {
	for _, c := range d.Circuits {
		if len(c.Limits) == 0 { // nothing is known of its conductor or of a load's current, which a limit hangs on
			require.True(t, slices.ContainsFunc(d.Findings, func(f document.Finding) bool {
				here := f.Subject == "circuits."+c.Name || slices.Contains(f.Missing, string(codes.UnitAmps))
				return here && f.Severity == "violation" && f.Verdict == "cannot tell"
			}), "circuit %s\n%s", c.Name, site)
		}
		for _, l := range c.Limits {
			require.NotEmpty(t, l.Title)
			require.InDelta(t, l.UsedPercent, 100*l.Actual/l.Limit, 1e-6, "%s of %s", l.Rule, c.Name)
			if l.Rule != "voltage-drop-branch" || c.Limits[0].UsedPercent < 100 { // what is advised stands behind limits that are passed
				require.LessOrEqual(t, l.UsedPercent, c.Limits[0].UsedPercent, "%s of %s\n%s", l.Rule, c.Name, site)
			}
			if l.UsedPercent > 100*(1+1e-9) {
				require.True(t, slices.ContainsFunc(d.Findings, func(f document.Finding) bool { return f.Rule == l.Rule }),
					"%s of %s is over and no finding says so\n%s", l.Rule, c.Name, site)
			}
		}
	}
	open := 0
	for _, f := range d.Findings {
		require.NotEmpty(t, f.Clause, f.Rule)
		if f.Severity == "violation" {
			open++
		}
		if f.Verdict == "cannot tell" {
			require.NotEmpty(t, f.Missing, "%s of %s\n%s", f.Rule, f.Subject, site)
		}
	}
	require.Equal(t, open, d.Verdict.Violations+d.Verdict.CannotTell)
	require.Equal(t, open > 0, d.Verdict.ExitStatus != statusHolds)
}

// foundAsPlanned: check has no violation that the plan had not, and the same
// circuits with what they need.
func foundAsPlanned(t require.TestingT, d, c planned, built string) {
	was := map[string]bool{}
	for _, f := range d.Findings {
		for _, rule := range append(f.Also, f.Rule) {
			was[rule+" "+f.Subject] = true
		}
	}
	for _, f := range c.Findings {
		if f.Severity == "violation" {
			require.True(t, was[f.Rule+" "+f.Subject], "%s of %s: %s\n%s", f.Rule, f.Subject, f.Message, built)
		}
	}
	require.Len(t, c.Circuits, len(d.Circuits), "%s", built)
	for i, k := range c.Circuits {
		p := d.Circuits[i]
		require.Equal(t, []any{p.Name, p.Panel, p.Spaces, p.Legs, p.Volts, p.BreakerAmps, p.Poles}, []any{k.Name, k.Panel, k.Spaces, k.Legs, k.Volts, k.BreakerAmps, k.Poles})
		require.Equal(t, p.RequiredAmps == nil, k.RequiredAmps == nil, "circuit %s\n%s", k.Name, built)
		if p.RequiredAmps != nil {
			require.InDelta(t, *p.RequiredAmps, *k.RequiredAmps, 1e-6, "circuit %s\n%s", k.Name, built)
		}
	}
}

// added is what is read of the answer of add.
type added struct {
	Fits, Proved bool
	Placed       []document.Placed
	Refused      []document.Refused
}

func (a added) total() int {
	n := 0
	for _, p := range a.Placed {
		n += p.Count
	}
	return n
}

// ofPanels reports whether a panel or feeder has a part in a no.
func (a added) ofPanels() bool {
	return slices.ContainsFunc(a.Refused, func(r document.Refused) bool {
		return strings.HasPrefix(r.Rule, "panel-") || strings.HasPrefix(r.Rule, "feeder-") || strings.HasPrefix(r.Rule, "transformer-") ||
			strings.HasPrefix(r.Rule, "measured-peak") || r.Rule == "voltage-drop-total" || r.Rule == "voltage-drop-feeder"
	})
}

// add N and then add M of what was written is add N + M. What add promises is an
// answer that holds and, where it says proved, the most units that fit. Hence
//
//   - yes to N, and to M in the file written then, is a yes to N + M;
//   - a no to N is a no to N + M, with as many placed;
//   - where circuits alone decide, a yes to N + M is a yes to N and then to M,
//     and of a no as many are placed in all.
//
// Where a panel or a feeder has a part in it the last need not hold: units that
// are there already stay on their legs, and those of N + M may be dealt otherwise.
func TestAddingTwiceIsAddingTheSum(t *testing.T) {
	dir := t.TempDir()
	tried, twice, short := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tried++
		site := anysite.Built(t)
		name := filepath.Join(dir, "grown.toml")
		defer os.Remove(name)
		if len(site.Fed) == 0 {
			return
		}
		item := rapid.SampledFrom(site.Fed).Draw(t, "item")
		n, m := rapid.IntRange(1, 3).Draw(t, "n"), rapid.IntRange(1, 20).Draw(t, "m")
		ask := func(text string, count int, more ...string) (a added, ok bool) {
			status, out, errs := ran(text, append([]string{"add", "-", item, "--json", "--count", strconv.Itoa(count)}, more...)...)
			if status == statusInput {
				require.Regexp(t, cannotBeAsked, errs, text)
				return a, false
			}
			require.Contains(t, []int{statusHolds, statusBroken}, status, "%s\n%s", errs, text)
			require.NoError(t, json.Unmarshal([]byte(out), &a))
			return a, true
		}
		first, ok := ask(site.Text(), n, "--write", name)
		if !ok {
			return
		}
		both, _ := ask(site.Text(), n+m)
		if !first.Fits {
			require.False(t, both.Fits && first.Proved, "%s", site.Text())
			if first.Proved && both.Proved {
				require.Equal(t, first.total(), both.total(), "%s", site.Text())
			}
			return
		}
		grown, err := os.ReadFile(name)
		require.NoError(t, err)
		second, ok := ask(string(grown), m)
		require.True(t, ok)
		if second.Fits {
			twice++
			require.True(t, both.Fits || !both.Proved, "%s of %d and %d\n%s", item, n, m, site.Text())
			return
		}
		if !second.Proved || !both.Proved || second.ofPanels() || both.ofPanels() {
			return
		}
		short++
		require.False(t, both.Fits, "%s of %d and %d\n%s", item, n, m, site.Text())
		require.Equal(t, both.total(), n+second.total(), "%s of %d and %d\n%s", item, n, m, site.Text())
	})
	if tried >= enough {
		require.Positive(t, twice+short)
	}
}
