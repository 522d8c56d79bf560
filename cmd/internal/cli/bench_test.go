package cli

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// BenchmarkLarge plans an invented works of n fixtures, from file to JSON, beside
// decoding the same file into plain values. Counted has one table for each kind in
// each room; listed has one for every fixture.
//
//	times-decoding  the plan's time over that of decoding the same text
func BenchmarkLarge(b *testing.B) {
	for _, shape := range []string{"listed", "counted"} {
		for _, n := range []int{100, 1_000, 10_000, 100_000} {
			b.Run(fmt.Sprintf("%s/%d", shape, n), func(b *testing.B) {
				src := largeSite{fixtures: n, listed: shape == "listed"}.toml()
				dir := b.TempDir()
				file, out := filepath.Join(dir, "large.toml"), filepath.Join(dir, "plan.json")
				require.NoError(b, os.WriteFile(file, src, 0o600))
				var plan, decode time.Duration
				b.ReportAllocs()
				for b.Loop() {
					var errs bytes.Buffer
					start := time.Now()
					status := Run([]string{"plan", file, "--format", "json", "--output", out}, strings.NewReader(""), &errs, &errs)
					plan += time.Since(start)
					require.LessOrEqual(b, status, statusBroken, errs.String())
					b.StopTimer()
					start = time.Now()
					var plain map[string]any
					_, err := toml.Decode(string(src), &plain)
					decode += time.Since(start)
					require.NoError(b, err)
					b.StartTimer()
				}
				b.ReportMetric(float64(plan)/float64(decode), "times-decoding")
				b.ReportMetric(float64(len(src)), "file-bytes")
			})
		}
	}
}

// BenchmarkReport makes the page of the invented 20-room site.
func BenchmarkReport(b *testing.B) {
	out := filepath.Join(b.TempDir(), "plan.html")
	for b.Loop() {
		var errs bytes.Buffer
		status := Run([]string{"report", filepath.Join(top, "testdata", "sites", "building.toml"), "--output", out}, strings.NewReader(""), &errs, &errs)
		require.Zero(b, status, errs.String())
	}
	info, err := os.Stat(out)
	require.NoError(b, err)
	b.ReportMetric(float64(info.Size()), "page-bytes")
}

// BenchmarkStart starts the program for its help beside a program of the same
// library that does nothing.
//
//	times-empty  time of a start over that of the empty program
func BenchmarkStart(b *testing.B) {
	dir := b.TempDir()
	built := func(name, pkg string) string {
		at := filepath.Join(dir, name)
		out, err := exec.Command("go", "build", "-o", at, pkg).CombinedOutput()
		require.NoError(b, err, string(out))
		return at
	}
	ours, empty := built("branchwork", "branchwork/cmd/branchwork"), built("empty", "./testdata/empty")
	start := func(program string) time.Duration {
		from := time.Now()
		require.NoError(b, exec.Command(program, "--help").Run())
		return time.Since(from)
	}
	start(ours)
	start(empty)
	var a, e time.Duration
	for b.Loop() {
		a += start(ours)
		e += start(empty)
	}
	b.ReportMetric(float64(a)/float64(e), "times-empty")
}
