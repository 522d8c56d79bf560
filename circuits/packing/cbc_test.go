package packing_test

import (
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/packing"
)

// Fresh instances at every run, solved by the general integer-programming solver
// CBC over all patterns that a bin may hold: total width first, then bins, then
// cost. BRANCHWORK_SEED repeats a run.
func TestSolveAgreesWithCBC(t *testing.T) {
	cbc, err := exec.LookPath("cbc")
	if err != nil {
		if os.Getenv("BRANCHWORK_REQUIRE_SOLVER") == "1" {
			t.Fatal("no command cbc here (Debian package coinor-cbc), and it is required")
		}
		t.Skip("no command cbc here (Debian package coinor-cbc)")
	}
	seed := time.Now().UnixNano()
	if s, err := strconv.ParseInt(os.Getenv("BRANCHWORK_SEED"), 10, 64); err == nil {
		seed = s
	}
	t.Logf("BRANCHWORK_SEED=%d", seed)
	r := rand.New(rand.NewSource(seed))
	compared := 0
	for i := range 25 {
		p := fresh(r)
		got, err := packing.Solve(p)
		require.NoError(t, err)
		require.NoError(t, packing.Check(p, got))
		if got.Missing.Used > 0 {
			continue // an item that fits no bin: nothing to compare
		}
		want, ok := byCBC(t, cbc, p)
		if !ok {
			continue // CBC itself came to no end
		}
		compared++
		assert.Equal(t, want, []int64{got.Width.Used, got.Opened.Used, got.Cost.Used}, "instance %d: %+v", i, p)
		assert.LessOrEqual(t, got.Width.Bound, want[0], "instance %d", i)
	}
	assert.Greater(t, compared, 10, "instances that CBC finished")
}

// fresh draws an instance small enough to list all its patterns.
func fresh(r *rand.Rand) packing.Problem {
	p := packing.Problem{Resources: 1 + r.Intn(2)}
	families := 1 + r.Intn(2)
	for range 1 + r.Intn(4) {
		k := packing.Kind{Count: 1 + r.Intn(14)}
		for f := range families {
			if f > 0 && r.Intn(2) == 0 {
				continue
			}
			uses := []int64{int64(200 + r.Intn(900))}
			if p.Resources > 1 {
				uses = append(uses, int64(r.Intn(30)))
			}
			k.Forms = append(k.Forms, packing.Form{Family: f, Uses: uses})
		}
		p.Kinds = append(p.Kinds, k)
	}
	for f := range families {
		for range 1 + r.Intn(2) {
			limits := []int64{int64(1200 + r.Intn(1200))}
			if p.Resources > 1 {
				limits = append(limits, int64(40+r.Intn(60)))
			}
			p.Bins = append(p.Bins, packing.BinKind{Family: f, Limits: limits, Width: 1 + (f+r.Intn(2))%3, Cost: int64(20 + r.Intn(80))})
		}
	}
	if len(p.Kinds) > 1 && r.Intn(3) == 0 {
		p.Conflicts = [][2]int{{0, 1}}
	}
	return p
}

// pattern is what one bin of a kind holds.
type pattern struct {
	bin   int
	holds []int
}

func patterns(p packing.Problem) []pattern {
	var out []pattern
	for b, bin := range p.Bins {
		holds := make([]int, len(p.Kinds))
		left := append([]int64{}, bin.Limits...)
		var fill func(k int)
		fill = func(k int) {
			if k == len(p.Kinds) {
				for _, n := range holds {
					if n > 0 {
						out = append(out, pattern{b, append([]int{}, holds...)})
						return
					}
				}
				return
			}
			fill(k + 1)
			for _, c := range p.Conflicts {
				if c[0] == k && holds[c[1]] > 0 || c[1] == k && holds[c[0]] > 0 {
					return
				}
			}
			for _, form := range p.Kinds[k].Forms {
				if form.Family != bin.Family {
					continue
				}
				n := 0
				for ; n < p.Kinds[k].Count && room(left, form.Uses); n++ {
					for r, u := range form.Uses {
						left[r] -= u
					}
					holds[k]++
					fill(k + 1)
				}
				for r, u := range form.Uses {
					left[r] += u * int64(n)
				}
				holds[k] = 0
			}
		}
		fill(0)
	}
	return out
}

func room(left, uses []int64) bool {
	for r, u := range uses {
		if u > left[r] {
			return false
		}
	}
	return true
}

// byCBC solves the covering programme over all patterns in three stages: width,
// bins, cost. ok is false where CBC does not finish one.
func byCBC(t *testing.T, cbc string, p packing.Problem) (best []int64, ok bool) {
	t.Helper()
	list := patterns(p)
	require.NotEmpty(t, list)
	weight := []func(pattern) int64{
		func(x pattern) int64 { return int64(p.Bins[x.bin].Width) },
		func(pattern) int64 { return 1 },
		func(x pattern) int64 { return p.Bins[x.bin].Cost },
	}
	for stage := range weight {
		var lp strings.Builder
		lp.WriteString("Minimize\n obj:" + terms(list, weight[stage]) + "\nSubject To\n")
		for k, kind := range p.Kinds {
			fmt.Fprintf(&lp, " d%d:%s >= %d\n", k, terms(list, func(x pattern) int64 { return int64(x.holds[k]) }), kind.Count)
		}
		for s, v := range best {
			fmt.Fprintf(&lp, " s%d:%s <= %d\n", s, terms(list, weight[s]), v)
		}
		lp.WriteString("Generals\n")
		for i := range list {
			fmt.Fprintf(&lp, " x%d\n", i)
		}
		lp.WriteString("End\n")
		v, ok := run(t, cbc, lp.String())
		if !ok {
			return nil, false
		}
		best = append(best, v)
	}
	return best, true
}

func terms(list []pattern, w func(pattern) int64) string {
	var b strings.Builder
	for i, x := range list {
		if v := w(x); v != 0 {
			fmt.Fprintf(&b, " + %d x%d", v, i)
			if i%20 == 19 {
				b.WriteString("\n ")
			}
		}
	}
	if b.Len() == 0 {
		return " 0 x0"
	}
	return b.String()
}

func run(t *testing.T, cbc, lp string) (int64, bool) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "p.lp")
	require.NoError(t, os.WriteFile(file, []byte(lp), 0o600))
	out, err := exec.Command(cbc, file, "sec", "4", "ratio", "0", "allow", "0.5", "solve", "quit").CombinedOutput()
	require.NoError(t, err, "%s", out)
	if !strings.Contains(string(out), "Optimal solution found") {
		return 0, false
	}
	m := regexp.MustCompile(`Objective value:\s+([0-9.]+)`).FindSubmatch(out)
	require.NotNil(t, m, "%s", out)
	v, err := strconv.ParseFloat(string(m[1]), 64)
	require.NoError(t, err)
	return int64(v + 0.5), true
}
