package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// mutant is a fault that somebody might make in the code: a text of a file and
// what stands in its place.
type mutant struct {
	Kind       string   // of fault: "dropped √3"
	File       string   // from the project's folder
	Old, New   string   // Old stands in File exactly once
	Means      string   // what would be wrong
	Tests      []string // packages that ought to notice, the likeliest first
	Quick      bool     // one of those that CI tries
	Equivalent string   // why no test can tell it from the code; empty: a test must
}

func (m mutant) name() string { return m.File + ": " + m.Means }

func mutants(t *testing.T) []mutant {
	var doc struct{ Mutant []mutant }
	md, err := toml.DecodeFile(filepath.Join(top, "testdata", "mutants.toml"), &doc)
	require.NoError(t, err)
	require.Empty(t, md.Undecoded())
	return doc.Mutant
}

// A list of mutants that no longer apply would prove nothing.
func TestEveryMutantApplies(t *testing.T) {
	list := mutants(t)
	require.GreaterOrEqual(t, len(list), 60)
	seen := map[string]bool{}
	for _, m := range list {
		src, err := os.ReadFile(filepath.Join(top, filepath.FromSlash(m.File)))
		require.NoError(t, err, m.name())
		require.Equal(t, 1, strings.Count(string(src), m.Old), "%s: its old text stands there so often", m.name())
		require.NotEqual(t, m.Old, m.New, m.name())
		require.NotEmpty(t, m.Means)
		require.NotEmpty(t, m.Tests, m.name())
		require.False(t, seen[m.File+m.New+m.Old], m.name())
		seen[m.File+m.New+m.Old] = true
	}
}

// TestTheTestsNoticeEveryMutant runs the tests on one mutant after the other and
// prints which test noticed it first. The tree is never touched: go test gets the
// changed file as an overlay. Of a mutant that its own packages do not notice all
// the others are asked.
//
//	BRANCHWORK_MUTATE=quick   those that CI tries
//	BRANCHWORK_MUTATE=all     all of them
//	BRANCHWORK_MUTATE=REGEXP  those whose file, kind or meaning match
func TestTheTestsNoticeEveryMutant(t *testing.T) {
	which := os.Getenv("BRANCHWORK_MUTATE")
	if which == "" {
		t.Skip("BRANCHWORK_MUTATE is not set")
	}
	pattern := regexp.MustCompile(which)
	kinds, packages := map[string]int{}, map[string]int{}
	tried, healthy := 0, map[string]bool{} // packages that pass without a mutant
	for _, m := range mutants(t) {
		if m.Equivalent != "" || which == "quick" && !m.Quick || which != "quick" && which != "all" && !pattern.MatchString(m.File+" "+m.Kind+" "+m.Means) {
			continue
		}
		tried++
		began := time.Now()
		by, in := m.noticed(t, healthy)
		if by == "" {
			t.Errorf("not noticed: %s\n\t%s\n\t%s", m.name(), m.Old, m.New)
			continue
		}
		kinds[m.Kind]++
		packages[in]++
		t.Logf("%5.1f s  %-24s %-60s %s", time.Since(began).Seconds(), in, by, m.name())
	}
	require.Positive(t, tried, "no mutant matches %q", which)
	t.Logf("%d mutants\n%s\n%s", tried, tally(kinds), tally(packages))
}

func tally(of map[string]int) string {
	var names []string
	for n := range of {
		names = append(names, n)
	}
	sort.Strings(names)
	var b strings.Builder
	for _, n := range names {
		fmt.Fprintf(&b, "%4d  %s\n", of[n], n)
	}
	return b.String()
}

// noticed returns the first test that fails with the mutant, and its package.
func (m mutant) noticed(t *testing.T, healthy map[string]bool) (test, in string) {
	root, err := filepath.Abs(top)
	require.NoError(t, err)
	file := filepath.Join(root, filepath.FromSlash(m.File))
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	dir := t.TempDir()
	changed := filepath.Join(dir, filepath.Base(file))
	require.NoError(t, os.WriteFile(changed, bytes.Replace(src, []byte(m.Old), []byte(m.New), 1), 0o644))
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {file: changed}})
	require.NoError(t, err)
	list := filepath.Join(dir, "overlay.json")
	require.NoError(t, os.WriteFile(list, overlay, 0o644))
	for _, p := range m.Tests {
		if test := failing(t, root, list, "./"+p, healthy); test != "" {
			return test, p
		}
	}
	all, err := exec.Command("go", "list", "branchwork/...").Output()
	require.NoError(t, err)
	for _, p := range strings.Fields(string(all)) {
		p = strings.TrimPrefix(p, "branchwork/")
		if slices.Contains(m.Tests, p) {
			continue
		}
		if test := failing(t, root, list, "./"+p, healthy); test != "" {
			return test, p
		}
	}
	return "", ""
}

var failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)

// tested runs the tests of a package. Random cases are the same in every run, so
// that what fails with a mutant and not without it fails because of it.
func tested(root, pkg string, flags ...string) ([]byte, error) {
	cmd := exec.Command("go", append(append([]string{"test", "-vet=off"}, flags...), pkg)...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "BRANCHWORK_MUTATE=", "BRANCHWORK_UPDATE=", "BRANCHWORK_WORST=", "BRANCHWORK_SEED=1", "RAPID_CHECKS=25", "RAPID_SEED=1", "RAPID_NOFAILFILE=1", "RAPID_SHRINKTIME=1s")
	return cmd.CombinedOutput()
}

// failing runs the tests of a package and returns the innermost one that fails.
func failing(t *testing.T, root, overlay, pkg string, healthy map[string]bool) string {
	out, err := tested(root, pkg, "-overlay", overlay, "-failfast")
	if err == nil {
		return ""
	}
	if !healthy[pkg] {
		out, err := tested(root, pkg, "-count=1")
		require.NoError(t, err, "%s fails without any mutant:\n%s", pkg, out)
		healthy[pkg] = true
	}
	require.NotContains(t, string(out), "[build failed]", "the mutant is no program:\n%s", out)
	require.NotContains(t, string(out), "[setup failed]", "%s", out)
	names := failed.FindAllStringSubmatch(string(out), -1)
	if len(names) == 0 {
		return "panic"
	}
	longest := names[0][1]
	for _, n := range names {
		if strings.HasPrefix(n[1], longest) {
			longest = n[1]
		}
	}
	return longest
}
