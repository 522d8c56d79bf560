package cli

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/loads"
)

func TestProgressIsOneLineThatGoesAway(t *testing.T) {
	var screen bytes.Buffer
	start := time.Now()
	p := &progress{w: &screen, width: 60, since: start}
	p.tell("circuits for lighting of room flower", 2, 5)
	p.draw(start.Add(patience - time.Millisecond))
	require.Empty(t, screen.String(), "quick work says nothing")
	p.draw(start.Add(3 * time.Second))
	first := "3 s: circuits for lighting of room flower (2 of 5)"
	require.Equal(t, "\r"+first, screen.String())
	screen.Reset()
	p.tell("rules\x1b[31m", 0, 0)
	p.draw(start.Add(4 * time.Second))
	second := `4 s: rules\x1b[31m`
	require.Equal(t, "\r"+second+strings.Repeat(" ", len(first)-len(second)), screen.String(), "what stood there is written over, and escaped")
	screen.Reset()
	p.tell(strings.Repeat("long ", 40), 0, 0)
	p.draw(start.Add(4 * time.Second))
	require.Len(t, screen.String(), 60, "never a second line")
	screen.Reset()
	p.clear()
	require.Equal(t, "\r"+strings.Repeat(" ", 59)+"\r", screen.String())
	screen.Reset()
	p.clear()
	require.Empty(t, screen.String())
}

func TestStretchesOfWorkNest(t *testing.T) {
	var screen bytes.Buffer
	p := &progress{w: &screen, width: 60, since: time.Now().Add(-time.Hour)}
	end := p.begin("outer")
	p.begin("inner")()
	time.Sleep(2 * refresh)
	end()
	require.Contains(t, screen.String(), "s: inner")
	require.True(t, strings.HasSuffix(screen.String(), " \r"))
	p.begin("again")()
	var none *progress
	none.begin("nothing")()
	none.tell("nothing", 1, 2)
}

// What is no terminal gets no progress, however long the work takes, and never in the
// answer.
func TestNoProgressWithoutATerminal(t *testing.T) {
	f, err := os.Create(filepath.Join(t.TempDir(), "stderr"))
	require.NoError(t, err)
	defer f.Close()
	require.Nil(t, newStreams(strings.NewReader(""), f, f).progress)
	require.Nil(t, newStreams(strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}).progress)
}

// atRest is a screen on which every line of progress has ended before an answer comes.
type atRest struct {
	bytes.Buffer
	t    *testing.T
	args []string
	p    *progress
}

func (a *atRest) Write(b []byte) (int, error) {
	require.Nil(a.t, a.p.stop, "%v: a stretch of work is still told of", a.args)
	require.Zero(a.t, a.p.shown, "%v: its line stands before the answer", a.args)
	return a.Buffer.Write(b)
}

func TestProgressEndsBeforeTheAnswer(t *testing.T) {
	site, built := filepath.Join(top, "testdata", "sites", "garage.toml"), filepath.Join(top, "testdata", "sites-built", "garage.toml")
	for _, args := range [][]string{
		{"plan", site}, {"plan", site, "--compare", "--proof"}, {"check", built}, {"add", built, "bar-640"}, {"diff", site, built}, {"explain", site},
		{"heat", site}, {"day", site}, {"report", site, "--format", "markdown"}, {"report", site, "--format", "json"}, {"amps", "640 W"},
	} {
		s, _, _ := speaking()
		s.progress = &progress{w: io.Discard, width: 60, since: time.Now().Add(-time.Hour), shown: 1}
		out := &atRest{t: t, args: args, p: s.progress}
		s.out = out
		root := newRoot(s, every)
		root.SetArgs(args)
		require.Less(t, s.status(root.Execute()), statusInput, "%v", args)
		require.NotEmpty(t, out.String(), "%v", args)
	}
}

// The planner tells the parts of its work, each within its number, and plans the same.
func TestThePlannerTellsItsParts(t *testing.T) {
	src, err := os.ReadFile(filepath.Join(top, "testdata", "sites", "warehouse.toml"))
	require.NoError(t, err)
	inv, p, err := parseSite(silent(), "warehouse.toml", src, "", defaultWidth)
	require.NoError(t, err)
	set := loads.Build(inv, values(p))
	var parts []string
	last, open, series := 0, 0, 0
	told, err := assign.PlanWith(inv, set, p, assign.Options{Progress: func(part string, at, of int) {
		if last == open { // the series before is at its end
			last, open = 0, of
			series++
		}
		require.Equal(t, []int{last + 1, open}, []int{at, of}, part)
		last = at
		parts = append(parts, part)
	}})
	require.NoError(t, err)
	require.Equal(t, open, last, "the last series was told to its end")
	require.Equal(t, 4, series, "voltages, circuits, panels, conductors: %v", parts)
	require.Subset(t, parts, []string{"voltages of bar-320", "circuits for lighting of room flower", "spaces and legs of panel MDP", "conductors of circuit MDP-1"})
	quiet, err := assign.Plan(inv, set, p)
	require.NoError(t, err)
	require.Equal(t, quiet, told)
}
