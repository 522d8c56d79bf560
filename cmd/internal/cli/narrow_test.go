package cli

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/require"
)

// On a narrow screen every character of a wide one is there, rules under headings
// apart; a table that is split shows its first column again.
func TestNothingIsLostOnANarrowScreen(t *testing.T) {
	site := filepath.Join(top, "testdata", "sites-built", "garage.toml")
	for _, args := range [][]string{{"plan", site}, {"check", site}, {"heat", site}, {"explain", site}, {"rules"}, {"tables"}, {"amps", "640 W"}} {
		wide := characters(printed(t, args, "400"))
		for _, width := range []string{"20", "40"} {
			text := printed(t, args, width)
			narrow := characters(text)
			for c, n := range wide {
				require.GreaterOrEqual(t, narrow[c], n, "%v --width %s: %q", args, width, c)
			}
			for _, l := range strings.Split(text, "\n") {
				if width == "40" {
					require.LessOrEqual(t, runewidth.StringWidth(l), 40, "%v: %s", args, l)
				}
			}
		}
	}
}

func printed(t *testing.T, args []string, width string) string {
	var out, errs bytes.Buffer
	status := Run(append(args, "--width", width), strings.NewReader(""), &out, &errs)
	require.Contains(t, []int{0, 1}, status, errs.String())
	return out.String()
}

func characters(s string) map[rune]int {
	n := map[rune]int{}
	for _, c := range s {
		if !strings.ContainsRune(" -=\n", c) {
			n[c]++
		}
	}
	return n
}
