//go:build unix

package packing

import (
	"bufio"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// answer is what a solver says about one programme.
type answer struct {
	value, bound float64 // infinite where there is none
	proved       bool
	took         time.Duration
}

// generalSolver reads an LP file and solves it. Only the time of solving counts,
// as processor time; starting the solver and reading the file do not.
type generalSolver func(file string, limit time.Duration) (answer, error)

// TestSideBySide solves all rooms by Solve, CBC and HiGHS in one run and prints
// the table of DEVELOPERS.md. It takes many minutes.
//
//	BRANCHWORK_SIDE_BY_SIDE=1     run it
//	BRANCHWORK_LIMIT=20           seconds for each call of a general solver
//	BRANCHWORK_NPM=folder         where "npm install highs" was run; none: no HiGHS
//	BRANCHWORK_ONLY=rooms         only the instances whose name contains this
//
// With -parallel 1 the general solvers run one after the other, otherwise at the
// same time, each on a processor of its own; Solve always runs alone.
func TestSideBySide(t *testing.T) {
	if os.Getenv("BRANCHWORK_SIDE_BY_SIDE") != "1" {
		t.Skip("takes many minutes; BRANCHWORK_SIDE_BY_SIDE=1 runs it (see DEVELOPERS.md)")
	}
	cbc, err := exec.LookPath("cbc")
	require.NoError(t, err, "Debian package coinor-cbc")
	limit := 20 * time.Second
	if s, err := strconv.ParseFloat(os.Getenv("BRANCHWORK_LIMIT"), 64); err == nil {
		limit = time.Duration(s * float64(time.Second))
	}
	names := []string{"Solve", "CBC"}
	solvers := []generalSolver{cbcSolver(cbc)}
	if dir := os.Getenv("BRANCHWORK_NPM"); dir != "" {
		names = append(names, "HiGHS")
		solvers = append(solvers, highsSolver(t, dir))
	}
	var all []sideOutcome
	rooms := readRooms(t)
	slices.Reverse(rooms) // the largest last
	for _, in := range rooms {
		if !strings.Contains(in.Name, os.Getenv("BRANCHWORK_ONLY")) {
			continue
		}
		p := in.problem()
		ours, r := timeSolve(t, p)
		o := sideOutcome{in.Name, make([]answer, len(names))}
		o.by[0] = ours
		t.Run(in.Name, func(t *testing.T) {
			for i, s := range solvers {
				t.Run(names[i+1], func(t *testing.T) {
					t.Parallel()
					a := o.general(t, p, r, s, limit)
					if o.by[i+1] = a; a.proved {
						require.Equal(t, float64(r.Cost.Used), a.value)
					}
				})
			}
		})
		fmt.Printf("%-9s", in.Name)
		for i, a := range o.by {
			fmt.Printf("  %s %.4f s, gap %s", names[i], a.took.Seconds(), a.gap())
		}
		fmt.Println()
		all = append(all, o)
	}
	printSides(names, all)
}

// processorTime is what this process has used so far.
func processorTime(t testing.TB) time.Duration {
	var u syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// timeSolve takes the median of several runs, each the whole work.
func timeSolve(t testing.TB, p Problem) (answer, Result) {
	r, err := Solve(p)
	require.NoError(t, err)
	require.NoError(t, Check(p, r))
	var took []time.Duration
	for start := time.Now(); len(took) < 5 || len(took) < 31 && time.Since(start) < time.Second; {
		from := processorTime(t)
		_, err := Solve(p)
		require.NoError(t, err)
		took = append(took, processorTime(t)-from)
	}
	slices.Sort(took)
	a := answer{float64(r.Cost.Used), float64(r.Cost.Bound), r.Opened.Proved && r.Cost.Proved, took[len(took)/2]}
	if !r.Opened.Proved {
		a.value, a.bound = float64(r.Opened.Used), float64(r.Opened.Bound)
	}
	return a, r
}

type sideOutcome struct {
	name string
	by   []answer // by Solve, then by each general solver
}

// general adds up the families: fewest bins, then least cost with that number.
// A family whose number of bins stays open is not asked for its cost, so that
// the figure with a gap is then the number of bins.
func (o sideOutcome) general(t testing.TB, p Problem, r Result, s generalSolver, limit time.Duration) answer {
	bins, cost := answer{proved: true}, answer{proved: true}
	price := func(b BinKind) int64 { return b.Cost }
	for i, room := range sideRooms(&p) {
		first := o.ask(t, room.program(func(BinKind) int64 { return 1 }, math.MaxInt64), s, limit)
		bins.plus(first)
		if !first.proved {
			cost.proved = false
			continue
		}
		require.Equal(t, opened(p, r, i), first.value, "%s family %d", o.name, i)
		if kinds := room.needed(price); !slices.ContainsFunc(kinds, func(b BinKind) bool { return b.Cost != kinds[0].Cost }) {
			all := first.value * float64(kinds[0].Cost)
			cost.plus(answer{all, all, true, 0})
			continue
		}
		cost.plus(o.ask(t, room.program(price, int64(first.value)), s, limit))
	}
	if !bins.proved {
		bins.took += cost.took
		return bins
	}
	cost.took += bins.took
	return cost
}

func (a *answer) plus(b answer) {
	*a = answer{a.value + b.value, a.bound + b.bound, a.proved && b.proved, a.took + b.took}
}

// open is the part of the value that the bound leaves open.
func (a answer) open() float64 {
	switch {
	case a.proved:
		return 0
	case a.value > 1e20 || a.value == 0:
		return 1
	}
	return (a.value - a.bound) / a.value
}

func (a answer) gap() string {
	if a.open() == 1 {
		return "no plan found"
	}
	return fmt.Sprintf("%.3f %%", 100*a.open())
}

// ask takes the median of three runs where the first is short.
func (o sideOutcome) ask(t testing.TB, m *program, s generalSolver, limit time.Duration) answer {
	file := filepath.Join(t.TempDir(), o.name+".lp")
	require.NoError(t, os.WriteFile(file, []byte(m.write()), 0o600))
	var runs []answer
	for len(runs) == 0 || len(runs) < 3 && runs[0].took < time.Second/2 {
		a, err := s(file, limit)
		require.NoError(t, err, o.name)
		if a.proved = a.proved || a.value-a.bound < 1-1e-6; a.proved { // the weights are whole
			a.value = math.Round(a.value)
			a.bound = a.value
		}
		runs = append(runs, a)
	}
	slices.SortFunc(runs, func(a, b answer) int { return cmp.Compare(a.took, b.took) })
	return runs[len(runs)/2]
}

var (
	cbcValue = regexp.MustCompile(`(?m)^Objective value:\s+([-0-9.e+]+)`)
	cbcBound = regexp.MustCompile(`(?m)^Lower bound:\s+([-0-9.e+]+)`)
)

func cbcSolver(cbc string) generalSolver {
	return func(file string, limit time.Duration) (answer, error) {
		ctx, cancel := context.WithTimeout(context.Background(), 5*limit+time.Minute)
		defer cancel()
		cmd := exec.CommandContext(ctx, cbc, "-")
		in, inErr := cmd.StdinPipe()
		out, outErr := cmd.StdoutPipe()
		if err := errors.Join(inErr, outErr, cmd.Start()); err != nil {
			return answer{}, err
		}
		lines := bufio.NewScanner(out)
		read := func(until string) string {
			var b strings.Builder
			for lines.Scan() {
				b.WriteString(lines.Text() + "\n")
				if strings.Contains(lines.Text(), until) {
					break
				}
			}
			return b.String()
		}
		fmt.Fprintf(in, "import %s\nsec %g\nratio 0\nallow 0.5\n", file, limit.Seconds())
		read("allowableGap was changed")
		from := usedBy(cmd.Process.Pid)
		fmt.Fprintln(in, "solve")
		text := read("Time (Wallclock seconds):")
		a := answer{value: math.Inf(1), bound: 0, took: usedBy(cmd.Process.Pid) - from}
		fmt.Fprintln(in, "quit")
		_, _ = io.Copy(io.Discard, out)
		if err := cmd.Wait(); err != nil {
			return a, fmt.Errorf("cbc: %w\n%s", err, text)
		}
		a.proved = strings.Contains(text, "Result - Optimal solution found")
		if !a.proved && !strings.Contains(text, "Result - Stopped on time limit") {
			return a, fmt.Errorf("cbc says neither solved nor stopped:\n%s", text)
		}
		for pattern, to := range map[*regexp.Regexp]*float64{cbcValue: &a.value, cbcBound: &a.bound} {
			if m := pattern.FindStringSubmatch(text); m != nil {
				*to, _ = strconv.ParseFloat(m[1], 64)
			}
		}
		return a, nil
	}
}

// usedBy is the processor time of another process that waits for us, by the
// fine clock of Linux; elsewhere the time of day must do.
func usedBy(pid int) time.Duration {
	time.Sleep(2 * time.Millisecond) // until it waits
	raw, err := os.ReadFile(fmt.Sprintf("/proc/%d/schedstat", pid))
	if err != nil {
		return time.Duration(time.Now().UnixNano())
	}
	n, _ := strconv.ParseInt(strings.Fields(string(raw))[0], 10, 64)
	return time.Duration(n)
}

// highsScript solves the files named on its input, one a line.
const highsScript = `
const fs = require('fs'), readline = require('readline');
require(process.argv[2] + '/node_modules/highs')().then(highs => readline.createInterface({input: process.stdin}).on('line', line => {
  const [limit, file] = JSON.parse(line);
  const m = highs.createModel({format: 'lp', data: fs.readFileSync(file, 'utf8')});
  m.options.set({output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.5, time_limit: 5 * limit});
  const from = process.cpuUsage();
  m.run({[highs.constants.callbackType.mipInterrupt]: event => {
    const used = process.cpuUsage(from);
    if (used.user + used.system > limit * 1e6) event.interrupt();
  }});
  const used = process.cpuUsage(from);
  const value = m.getObjectiveValue(), bound = m.info.get('mip_dual_bound'), status = m.getModelStatus();
  m.dispose();
  console.log(JSON.stringify({status, value, bound, took: used.user + used.system}));
}));
`

func highsSolver(t testing.TB, dir string) generalSolver {
	script := filepath.Join(t.TempDir(), "highs.js")
	require.NoError(t, os.WriteFile(script, []byte(highsScript), 0o600))
	cmd := exec.Command("node", script, dir)
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = errors.Join(in.Close(), cmd.Wait()) })
	lines := bufio.NewScanner(out)
	return func(file string, limit time.Duration) (answer, error) {
		raw, _ := json.Marshal([]any{limit.Seconds(), file})
		fmt.Fprintf(in, "%s\n", raw)
		if !lines.Scan() {
			return answer{}, fmt.Errorf("highs ended: %w", lines.Err())
		}
		var a struct {
			Status, Took int64
			Value, Bound *float64 // null where infinite
		}
		if err := json.Unmarshal(lines.Bytes(), &a); err != nil {
			return answer{}, fmt.Errorf("highs says %q: %w", lines.Text(), err)
		}
		if !slices.Contains([]int64{7, 13, 17}, a.Status) { // optimal, time of day, stopped by us
			return answer{}, fmt.Errorf("highs ends with status %d", a.Status)
		}
		got := answer{math.Inf(1), 0, a.Status == 7, time.Duration(a.Took) * time.Microsecond}
		if a.Value != nil && *a.Value < 1e20 {
			got.value = *a.Value
		}
		if a.Bound != nil {
			got.bound = *a.Bound
		}
		return got, nil
	}
}

// printSides prints the table: per family of instances the number proved, the
// time in all, the largest gap left and the mean ratio to the time of Solve.
func printSides(names []string, all []sideOutcome) {
	family := func(o sideOutcome) string { return strings.Trim(o.name[2:], "0123456789") }
	var rows []string
	for _, o := range all {
		if f := family(o); !slices.Contains(rows, f) {
			rows = append(rows, f)
		}
	}
	for _, f := range append(rows, "all") {
		part := slices.DeleteFunc(slices.Clone(all), func(o sideOutcome) bool { return f != "all" && family(o) != f })
		fmt.Printf("| %s (%d) |", f, len(part))
		for i := range names {
			proved, took, worst, logs := 0, time.Duration(0), part[0], 0.0
			gap := answer{proved: true}
			for _, o := range part {
				a := o.by[i]
				took += a.took
				logs += math.Log(a.took.Seconds() / o.by[0].took.Seconds())
				if a.proved {
					proved++
				} else if a.open() > gap.open() {
					gap = a
				}
				if a.took > worst.by[i].took {
					worst = o
				}
			}
			fmt.Printf(" %d, %.3f s, gap %s, slowest %s %.3f s, ratio %.1f |", proved, took.Seconds(), gap.gap(),
				worst.name[2:], worst.by[i].took.Seconds(), math.Exp(logs/float64(len(part))))
		}
		fmt.Println()
	}
	for _, o := range all {
		for i, a := range o.by[1:] {
			if a.proved && a.took < o.by[0].took {
				fmt.Printf("%s: %s was faster, %.4f s against %.4f s\n", o.name, names[i+1], a.took.Seconds(), o.by[0].took.Seconds())
			}
		}
	}
}

// BenchmarkSideBySideLarge solves one of ten seeds after the other. Memory is
// the most this process ever held, so run one case at a time for it.
func BenchmarkSideBySideLarge(b *testing.B) {
	var five []BinKind
	for i, rating := range []int64{15, 20, 30, 40, 50} {
		five = append(five, BinKind{Limits: []int64{rating}, Width: 1, Cost: []int64{96, 100, 141, 188, 236}[i]})
	}
	for _, steps := range []int64{10, 100} {
		for _, breakers := range [][]BinKind{five[1:3], five} {
			b.Run(fmt.Sprintf("steps=%d/breakers=%d", steps, len(breakers)), func(b *testing.B) {
				var took []float64
				proved, gap := 0, 0.0
				for b.Loop() {
					p := hundredThousand(uint64(1+len(took)%10), steps, breakers)
					from := processorTime(b)
					r, err := Solve(p)
					took = append(took, (processorTime(b) - from).Seconds())
					require.NoError(b, errors.Join(err, Check(p, r)))
					if r.Opened.Proved && r.Cost.Proved {
						proved++
					}
					for _, f := range []Bounded{r.Opened, r.Cost} {
						gap = max(gap, 100*float64(f.Used-f.Bound)/float64(f.Used))
					}
				}
				var u syscall.Rusage
				require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
				slices.Sort(took)
				b.ReportMetric(0, "ns/op") // with drawing and checking, so not shown
				b.ReportMetric(took[len(took)/2], "s-median")
				b.ReportMetric(took[len(took)-1], "s-slowest")
				b.ReportMetric(100*float64(proved)/float64(len(took)), "%proved")
				b.ReportMetric(gap, "%gap")
				b.ReportMetric(float64(u.Maxrss)/1024, "MB-peak")
			})
		}
	}
}
