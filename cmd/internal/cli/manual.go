package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newManual(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "manual DIR",
		Short: "write the manual pages, one for each command",
		Long: "manual writes the pages of every command into a folder that is there, in the form that man reads; pages that are\n" +
			"there already are replaced. The same program writes the same bytes: the pages bear the date of the source that\n" +
			"it was built from, and none where that is not known.",
		Example: example(
			"branchwork manual .", "then: man ./branchwork-plan.1",
		),
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error { return runManual(s, cmd.Root(), args[0]) },
	}
}

func runManual(s *streams, root *cobra.Command, dir string) error {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return hint(fmt.Errorf("%q is no folder", dir), "make it first; nothing was written")
	}
	info, _ := debug.ReadBuildInfo()
	header := doc.GenManHeader{Section: "1", Source: "branchwork", Manual: "branchwork manual", Date: &time.Time{}}
	dated := sourceDate(info)
	n := 0
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		if !c.IsAvailableCommand() && c != root {
			continue
		}
		c.InitDefaultHelpFlag()
		c.DisableAutoGenTag = true
		h, page := header, bytes.Buffer{}
		if err := doc.GenMan(c, &h, &page); err != nil {
			return fault{says: err.Error()}
		}
		text := strings.Replace(page.String(), `"`+header.Date.Format("Jan 2006")+`"`, `"`+dated+`"`, 1)
		name := filepath.Join(dir, strings.ReplaceAll(c.CommandPath(), " ", "-")+".1")
		if err := writeWhole(name, []byte(text), true); err != nil {
			return fmt.Errorf("cannot write %q: %w", name, reason(err))
		}
		n++
	}
	s.notice("wrote %d pages into %q", n, dir)
	return nil
}

// sourceDate is the month of the source that a program was built from, empty where
// the builder did not note it.
func sourceDate(info *debug.BuildInfo) string {
	if info == nil {
		return ""
	}
	for _, x := range info.Settings {
		if t, err := time.Parse(time.RFC3339, x.Value); x.Key == "vcs.time" && err == nil {
			return t.UTC().Format("Jan 2006")
		}
	}
	return ""
}
