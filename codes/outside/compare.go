package outside

import (
	"encoding/csv"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/codes/published"
)

// Comparison holds one of our functions beside a reference tool, case by case.
type Comparison struct {
	t    testing.TB
	row  published.Comparison
	seed int64
	at   string // case of the worst difference
	few  int    // cases that are too few
}

// Compare begins a comparison: what of which subject is compared, the largest
// difference allowed and its unit. When the test ends it must be one that
// testdata/published/compared has, and adds its line to BRANCHWORK_WORST.
func Compare(t testing.TB, tool Tool, subject, what string, most float64, unit string, seed int64) *Comparison {
	t.Helper()
	c := &Comparison{t: t, seed: seed, row: published.Comparison{Test: place(t) + " " + t.Name(), Subject: subject, What: what,
		Tool: tool.Name, Version: tool.Version, Most: most, Unit: unit}}
	t.Cleanup(c.close)
	return c
}

// Case counts a case and its difference, which may not be above what is allowed.
func (c *Comparison) Case(difference float64, about string, args ...any) {
	c.t.Helper()
	c.row.Cases++
	if math.IsNaN(difference) || difference > c.row.Most {
		c.t.Errorf("%s: %s beside %s differs by %g %s, more than %g: %s", c.row.Subject, c.row.What, c.row.Tool, difference, c.row.Unit, c.row.Most, fmt.Sprintf(about, args...))
	}
	if difference > c.row.Worst {
		c.row.Worst, c.at = difference, fmt.Sprintf(about, args...)
	}
}

// AtLeast says how many cases make a comparison; one is enough otherwise.
func (c *Comparison) AtLeast(cases int) { c.few = cases - 1 }

func (c *Comparison) close() {
	t := c.t
	if t.Skipped() {
		return
	}
	require.Greater(t, c.row.Cases, c.few, "cases compared with %s", c.row.Tool)
	line := fmt.Sprintf("%-14s %-63s %-16s %6d cases  worst %-8s of %s %s", c.row.Subject, c.row.What,
		strings.TrimSpace(c.row.Tool+" "+c.row.Version), c.row.Cases, published.Rough(c.row.Worst), published.Rough(c.row.Most), c.row.Unit)
	if c.seed != 0 {
		line += fmt.Sprintf("  BRANCHWORK_SEED=%d", c.seed)
	}
	t.Logf("%s; worst at %s", line, c.at)
	if name := os.Getenv("BRANCHWORK_WORST"); name != "" {
		f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
		require.NoError(t, err)
		_, err = f.WriteString(line + "\n")
		require.NoError(t, err)
		require.NoError(t, f.Close())
	}
	if t.Failed() {
		return
	}
	file := own(t, "compared")
	written, others := kept(t, file, published.Comparisons, func(x published.Comparison) bool {
		return x.Test == c.row.Test && x.What == c.row.What && x.Tool == c.row.Tool
	})
	if Updating() {
		write(t, file, published.ComparisonRows(append(others, c.row)))
		return
	}
	const how = "testdata/published/compared does not say this of %s: BRANCHWORK_UPDATE=1 go test writes it anew"
	require.Len(t, written, 1, how, c.row.Test)
	was := written[0]
	require.Equal(t, [3]any{was.Subject, was.Unit, published.Rough(was.Most)}, [3]any{c.row.Subject, c.row.Unit, published.Rough(c.row.Most)}, how, c.row.Test)
}

// some reports whether only some cases of a test run.
func some() bool {
	f := flag.Lookup("test.run")
	return f != nil && strings.Contains(f.Value.String(), "/")
}

func folder(t testing.TB) string { return filepath.Join(root(t), "testdata", "published") }

// own is the file of the package under test in a folder: measured or compared.
func own(t testing.TB, dir string) string {
	return dir + "/" + strings.ReplaceAll(place(t), "/", "-") + ".csv"
}

// kept reads a file of the package under test and parts what it has of one test
// from what it has of others. A file of an older shape is written anew.
func kept[T any](t testing.TB, file string, read func(fs.FS, string) ([]T, error), of func(T) bool) (written, others []T) {
	t.Helper()
	list, err := read(os.DirFS(folder(t)), file)
	if !Updating() {
		require.NoError(t, err)
	}
	for _, x := range list {
		if of(x) {
			written = append(written, x)
		} else {
			others = append(others, x)
		}
	}
	return written, others
}

// write replaces a file whole.
func write(t testing.TB, file string, rows [][]string) {
	t.Helper()
	slices.SortStableFunc(rows[1:], func(a, b []string) int { return strings.Compare(a[0], b[0]) })
	var b strings.Builder
	w := csv.NewWriter(&b)
	require.NoError(t, w.WriteAll(rows))
	require.NoError(t, os.WriteFile(filepath.Join(folder(t), file), []byte(b.String()), 0o644))
}
