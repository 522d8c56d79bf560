package outside

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Solver is a general integer-programming solver.
type Solver struct {
	Tool
	Solve func(t testing.TB, lp string) Optimum
}

// Optimum is what a solver says of a programme of whole numbers: the least value
// found and what it proved to be no more than the least. Proved: they are the same.
type Optimum struct {
	Value, Bound  int64
	Found, Proved bool
}

// seconds is the limit of one call of a solver.
const seconds = 4

// Solvers are the names of the general solvers.
func Solvers() []string { return []string{"cbc", "glpsol", "highs"} }

// SolverNamed finds a general solver; without it the test is skipped, or fails
// where it is required.
func SolverNamed(t testing.TB, name string) Solver {
	t.Helper()
	switch name {
	case "cbc":
		tool := Command(t, name)
		return Solver{tool, tool.cbc}
	case "glpsol":
		tool := Command(t, name)
		return Solver{tool, tool.glpsol}
	}
	tool := Module(t, name)
	return Solver{tool, tool.highs(t)}
}

func lpFile(t testing.TB, lp string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "p.lp")
	require.NoError(t, os.WriteFile(file, []byte(lp), 0o600))
	return file
}

func (s Tool) cbc(t testing.TB, lp string) Optimum {
	t.Helper()
	out, err := exec.Command(s.At, lpFile(t, lp), "sec", strconv.Itoa(seconds), "ratio", "0", "allow", "0.5", "solve", "quit").CombinedOutput()
	require.NoError(t, err, "%s", out)
	number := func(name string) (int64, bool) {
		m := regexp.MustCompile(name + `:\s+([-\d.]+)`).FindSubmatch(out)
		if m == nil {
			return 0, false
		}
		x, err := strconv.ParseFloat(string(m[1]), 64)
		require.NoError(t, err)
		return int64(x + 0.5), true
	}
	value, found := number("Objective value")
	if !found || strings.Contains(string(out), "infeasible") {
		return Optimum{}
	}
	if strings.Contains(string(out), "Optimal solution found") {
		return Optimum{value, value, true, true}
	}
	bound, _ := number("Lower bound")
	return Optimum{value, bound, true, false}
}

// glpsol reads the line of the solution file that says how the search ended:
// "s mip rows columns o objective".
func (s Tool) glpsol(t testing.TB, lp string) Optimum {
	t.Helper()
	answer := filepath.Join(t.TempDir(), "answer")
	out, err := exec.Command(s.At, "--lp", lpFile(t, lp), "--tmlim", strconv.Itoa(seconds), "--cuts", "-w", answer).CombinedOutput()
	require.NoError(t, err, "%s", out)
	text, err := os.ReadFile(answer)
	require.NoError(t, err, "%s", out)
	m := regexp.MustCompile(`(?m)^s mip \d+ \d+ (\w) (\S+)$`).FindSubmatch(text)
	require.NotNil(t, m, "%s", out)
	x, err := strconv.ParseFloat(string(m[2]), 64)
	require.NoError(t, err)
	switch string(m[1]) {
	case "o":
		return Optimum{int64(x + 0.5), int64(x + 0.5), true, true}
	case "f":
		return Optimum{int64(x + 0.5), 0, true, false}
	}
	return Optimum{}
}

// highsScript answers programmes, one a line.
const highsScript = `
const readline = require('readline');
require(process.argv[1])().then(highs => readline.createInterface({input: process.stdin}).on('line', line => {
  const [limit, lp] = JSON.parse(line);
  const m = highs.createModel({format: 'lp', data: lp});
  m.options.set({output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.5, time_limit: limit});
  m.run();
  const value = m.getObjectiveValue(), bound = m.info.get('mip_dual_bound'), status = m.getModelStatus();
  m.dispose();
  console.log(JSON.stringify({status, value, bound}));
}));
`

// highs keeps one process for all programmes of a test: starting it takes longer
// than most of them.
func (s Tool) highs(t testing.TB) func(testing.TB, string) Optimum {
	t.Helper()
	cmd := exec.Command("node", "-e", highsScript, s.At)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = errors.Join(in.Close(), cmd.Wait()) })
	lines := bufio.NewScanner(out)
	return func(t testing.TB, lp string) Optimum {
		t.Helper()
		raw, err := json.Marshal([]any{seconds, lp})
		require.NoError(t, err)
		_, err = fmt.Fprintf(in, "%s\n", raw)
		require.NoError(t, err)
		require.True(t, lines.Scan(), "HiGHS ended: %v", lines.Err())
		var a struct {
			Status       int
			Value, Bound *float64 // null where infinite
		}
		require.NoError(t, json.Unmarshal(lines.Bytes(), &a), "HiGHS says %q", lines.Text())
		if a.Value == nil || *a.Value > 1e20 || a.Status == infeasible {
			return Optimum{}
		}
		o := Optimum{Value: int64(*a.Value + 0.5), Found: true, Proved: a.Status == optimal}
		if o.Bound = o.Value; !o.Proved {
			o.Bound = 0
			if a.Bound != nil {
				o.Bound = int64(*a.Bound)
			}
		}
		return o
	}
}

// Model statuses of HiGHS.
const (
	optimal    = 7
	infeasible = 8
)
