package cli

import (
	"embed"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// manualPages are written by the tests: what makes them would slow every start.
//
//go:embed manual
var manualPages embed.FS

func newManual(s *streams) *cobra.Command {
	return &cobra.Command{
		Use: "manual DIR",
		Long: "manual writes the pages of every command into a folder that is there, in the form that man reads; pages that are\n" +
			"there already are replaced. The same program writes the same bytes: the pages bear the date of the source that\n" +
			"it was built from, and none where that is not known.",
		Example: example(
			"branchwork manual .", "then: man ./branchwork-plan.1",
		),
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return runManual(s, args[0]) },
	}
}

func runManual(s *streams, dir string) error {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return hint(fmt.Errorf("%q is no folder", dir), "make it first; nothing was written")
	}
	info, _ := debug.ReadBuildInfo()
	pages, err := manualPages.ReadDir("manual")
	if err != nil {
		return err
	}
	for _, p := range pages {
		page, err := manualPages.ReadFile("manual/" + p.Name())
		if err != nil {
			return err
		}
		name := filepath.Join(dir, p.Name())
		if err := writeWhole(name, dated(page, sourceDate(info)), true); err != nil {
			return fmt.Errorf("cannot write %q: %w", name, reason(err))
		}
	}
	s.notice("wrote %d pages into %q", len(pages), dir)
	return nil
}

// dated puts a date into the heading of a page, which has room for one.
func dated(page []byte, month string) []byte {
	return []byte(strings.Replace(string(page), ` "1" "" `, ` "1" "`+month+`" `, 1))
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
