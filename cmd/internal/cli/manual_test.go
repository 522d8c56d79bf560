package cli

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/stretchr/testify/require"
)

// TestTheManualIsThatOfTheCommands makes the page of every command and holds it
// against the one that the program carries. BRANCHWORK_UPDATE=1 writes them anew.
func TestTheManualIsThatOfTheCommands(t *testing.T) {
	root := newRoot(newStreams(strings.NewReader(""), io.Discard, io.Discard), every)
	root.InitDefaultHelpFlag()
	root.InitDefaultVersionFlag()
	root.InitDefaultCompletionCmd()
	want := map[string]string{}
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		if c != root && !c.IsAvailableCommand() {
			continue
		}
		c.InitDefaultHelpFlag()
		c.DisableAutoGenTag = true
		var page bytes.Buffer
		header := doc.GenManHeader{Section: "1", Source: "branchwork", Manual: "branchwork manual", Date: &time.Time{}}
		require.NoError(t, doc.GenMan(c, &header, &page))
		name := strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1"
		want[name] = strings.Replace(page.String(), `"`+header.Date.Format("Jan 2006")+`"`, `""`, 1)
		if os.Getenv("BRANCHWORK_UPDATE") == "1" {
			require.NoError(t, os.WriteFile(filepath.Join("manual", name), []byte(want[name]), 0o644))
		}
	}
	there, err := filepath.Glob("manual/*")
	require.NoError(t, err)
	for _, file := range there {
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Contains(t, want, filepath.Base(file), "a command of this name")
		require.Equal(t, want[filepath.Base(file)], string(got), "BRANCHWORK_UPDATE=1 go test ./cmd/internal/cli -run Manual")
	}
	require.Len(t, there, len(want), "BRANCHWORK_UPDATE=1 go test ./cmd/internal/cli -run Manual")
}

func TestPagesOfTheManualAreDated(t *testing.T) {
	pages, err := manualPages.ReadDir("manual")
	require.NoError(t, err)
	require.Greater(t, len(pages), 15)
	for _, p := range pages {
		page, err := manualPages.ReadFile("manual/" + p.Name())
		require.NoError(t, err)
		title := strings.ToUpper(strings.TrimSuffix(p.Name(), ".1"))
		require.Contains(t, string(dated(page, "Mar 2026")), `.TH "`+title+`" "1" "Mar 2026" "branchwork" "branchwork manual"`)
		require.Equal(t, string(page), string(dated(page, "")))
	}
}

// TestWhatTheProgramLinks: libraries that build their tables when a program starts,
// and those that only tests use, are no part of it.
func TestWhatTheProgramLinks(t *testing.T) {
	list, err := exec.Command("go", "list", "-deps", "branchwork/cmd/branchwork").Output()
	require.NoError(t, err)
	linked := strings.Fields(string(list))
	require.Contains(t, linked, "github.com/spf13/cobra")
	mod, err := os.ReadFile(filepath.Join(top, "go.mod"))
	require.NoError(t, err)
	_, tests, found := strings.Cut(string(mod), "// tests only\nrequire (\n")
	require.True(t, found)
	tests, _, _ = strings.Cut(tests, ")")
	without := []string{"github.com/spf13/cobra/doc"}
	for _, line := range strings.Split(strings.TrimSpace(tests), "\n") {
		without = append(without, strings.Fields(line)[0])
	}
	for _, p := range linked {
		for _, w := range without {
			require.False(t, p == w || strings.HasPrefix(p, w+"/"), p)
		}
	}
}
