package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
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

// The planner tells the parts of its work, each within its number, and plans the same.
func TestThePlannerTellsItsParts(t *testing.T) {
	s := silent()
	src, err := os.ReadFile(filepath.Join(top, "testdata", "sites", "warehouse.toml"))
	require.NoError(t, err)
	inv, p, err := parseSite(s, "warehouse.toml", src, "", 80)
	require.NoError(t, err)
	s.progress = &progress{w: &bytes.Buffer{}, width: 60, since: time.Now()}
	told, err := s.work(inv, p, false)
	require.NoError(t, err)
	quiet, err := silent().work(inv, p, false)
	require.NoError(t, err)
	require.Equal(t, quiet.Plan, told.Plan)
}
