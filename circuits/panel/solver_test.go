package panel

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/loads/inventory"
)

// 155 panels whose best balance a general integer-programming solver has
// proved: CBC 2.10.8. See testdata/panel/README.md for the programme.
func TestPlaceMatchesSolvedPanels(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "panel", "balanced.json"))
	require.NoError(t, err)
	var panels []struct {
		ID, System string
		Spaces     int
		Worst      int64
		Wants      []struct {
			Poles, Count int
			Amps         int64
			Low          bool
		}
		Fixed []struct {
			Spaces []int
			Amps   int64
		}
	}
	require.NoError(t, json.Unmarshal(data, &panels))
	assert.Len(t, panels, 155)
	for _, p := range panels {
		var wants []Want
		for _, f := range p.Fixed {
			wants = append(wants, Want{Poles: len(f.Spaces), Amps: f.Amps, Fixed: f.Spaces})
		}
		for _, w := range p.Wants {
			for range w.Count {
				wants = append(wants, Want{ID: len(wants), Poles: w.Poles, Amps: w.Amps, LowLegsOnly: w.Low})
			}
		}
		got := Place(system(t, p.System), p.Spaces, wants, Day{}, Work{})
		assert.Empty(t, got.Unplaced, p.ID)
		assert.Equal(t, p.Worst, got.Worst, p.ID)
		assert.True(t, got.Proved, "%s: %s", p.ID, got.Why)
	}
}

// freshPanels is how many new panels are solved by each solver.
const freshPanels = 12

// New panels at each run are solved by general solvers too, where they are
// installed.
func TestPlaceAgreesWithGeneralSolvers(t *testing.T) {
	for _, name := range outside.Solvers() {
		t.Run(name, func(t *testing.T) {
			solver := outside.SolverNamed(t, name)
			seed := outside.Seed(t)
			c := outside.Compare(t, solver.Tool, "panel balance", "fullest leg of the best layout", 0, "of its least unit", seed)
			r := rand.New(rand.NewSource(seed))
			for i := range freshPanels {
				sys := system(t, []string{splitPhase, wye208, highLeg240}[i%3])
				spaces, wants := randomPanel(r, sys)
				best := solver.Solve(t, programme(sys, spaces, wants))
				if !best.Found {
					continue // not all find space, or nothing found in time
				}
				got := Place(sys, spaces, wants, Day{}, Work{})
				about := fmt.Sprintf("%s, %d spaces, %+v", sys.Name, spaces, wants)
				assert.Empty(t, got.Unplaced, about)
				assert.LessOrEqual(t, best.Bound, got.Worst, about)
				assert.LessOrEqual(t, got.Bound, best.Value, about)
				if best.Proved {
					c.Case(math.Abs(float64(best.Value-got.Worst)), "%s", about)
				}
			}
		})
	}
}

// randomPanel draws a panel that is nearly full of few sizes of breaker.
func randomPanel(r *rand.Rand, sys inventory.System) (spaces int, wants []Want) {
	spaces = []int{12, 18, 24, 30, 42}[r.Intn(5)]
	step := []int64{1, 10, 50}[r.Intn(3)]
	amps := func() int64 { return (200/step + r.Int63n(1400/step)) * step }
	used := 0
	if r.Intn(2) == 0 {
		if at := Takes(1+r.Intn(spaces-4), 1+r.Intn(sys.Legs)); slices.Max(at) <= spaces {
			used += len(at)
			wants = append(wants, Want{ID: 0, Poles: len(at), Amps: amps(), Fixed: at})
		}
	}
	sizes := make([]Want, 2+r.Intn(7))
	for i := range sizes {
		sizes[i] = Want{Poles: min(sys.Legs, []int{1, 1, 1, 2, 2, 2, 3}[r.Intn(7)]), Amps: amps()}
		sizes[i].LowLegsOnly = sizes[i].Poles == 1
	}
	room := spaces/2 + r.Intn(spaces/2+1)
	for {
		w := sizes[r.Intn(len(sizes))]
		if used += w.Poles; used > room {
			return spaces, wants
		}
		w.ID = len(wants)
		wants = append(wants, w)
	}
}

// programme writes the integer programme of testdata/panel/README.md in the
// solver's LP format.
func programme(sys inventory.System, spaces int, wants []Want) string {
	board, _ := newBoard(sys, spaces, wants, Day{})
	b, kinds := board.view(0, board.kindsOf(wants, byRank(wants, func(i int) bool { return wants[i].Fixed == nil })))
	var rows, integer, binary []string
	row := func(terms []string, rest string) {
		if len(terms) > 0 {
			rows = append(rows, strings.Join(terms, " ")+rest)
		}
	}
	starts := map[[2]int][]string{} // by poles and leg
	covers := make([][]string, spaces+1)
	for poles := 1; poles <= sys.Legs; poles++ {
		for first := 1; first+sides*(poles-1) <= spaces; first++ {
			at := Takes(first, poles)
			if slices.ContainsFunc(at, func(s int) bool { return b.taken[s] }) {
				continue
			}
			y := fmt.Sprintf("y_%d_%d", poles, first)
			binary = append(binary, y)
			key := [2]int{poles, LegOf(sys, first)}
			starts[key] = append(starts[key], "- "+y)
			for _, s := range at {
				covers[s] = append(covers[s], "+ "+y)
			}
		}
	}
	loads := make([][]string, sys.Legs)
	begin := map[[2]int][]string{}
	for k, kd := range kinds {
		var count []string
		for leg := range sys.Legs {
			if !kd.top.has(leg) {
				continue
			}
			x := fmt.Sprintf("x_%d_%d", k, leg)
			integer, count = append(integer, x), append(count, "+ "+x)
			begin[[2]int{kd.poles, leg}] = append(begin[[2]int{kd.poles, leg}], "+ "+x)
			for p := range kd.poles {
				l := (leg + p) % sys.Legs
				loads[l] = append(loads[l], fmt.Sprintf("+ %d %s", kd.amps, x))
			}
		}
		row(count, fmt.Sprintf(" = %d", len(kd.wants)))
	}
	for poles := 1; poles <= sys.Legs; poles++ {
		for leg := range sys.Legs {
			key := [2]int{poles, leg}
			if len(begin[key]) > 0 {
				row(append(begin[key], starts[key]...), " <= 0")
			}
		}
	}
	for _, c := range covers {
		row(c, " <= 1")
	}
	for leg := range loads {
		row(append(loads[leg], "- W"), fmt.Sprintf(" <= %d", -b.base[leg]))
	}
	return "Minimize\n W\nSubject To\n " + strings.Join(rows, "\n ") +
		fmt.Sprintf("\nBounds\n W >= %d\nGeneral\n W\n ", slices.Max(b.base)) + strings.Join(integer, "\n ") +
		"\nBinary\n " + strings.Join(binary, "\n ") + "\nEnd\n"
}
