package terminal

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

func printedAt(t require.TestingT, p page.Page, s Screen) string {
	var b bytes.Buffer
	require.NoError(t, Render(&b, p, s))
	return b.String()
}

func known(x float64) *float64 { return &x }

// siteOf is a plan with one circuit whose texts are given.
func siteOf(name, item, state string) document.Plan {
	return document.Plan{
		Site: name, CodeTitle: "NEC 2023", Use: "commercial",
		Panels: []document.Panel{{Name: "LP1", System: "120/240 V 1ph", Legs: []string{"A", "B"}, LegAmps: map[string]float64{"A": 1234.5, "B": 1}}},
		Circuits: []document.Circuit{{Name: "LP1-1", Panel: "LP1", Spaces: []int{1, 3, 5}, Legs: []string{"A", "B"}, Poles: 2, Volts: 240, BreakerAmps: known(20),
			LoadAmps: known(13.605), RequiredAmps: known(17.007), State: state, Loads: []document.Load{{Item: item, Count: 5}}}},
		Findings: []document.Finding{{Severity: "violation", Verdict: "broken", Rule: "continuous-load", Subject: "circuits.LP1-1", Message: item, Line: 3}},
	}
}

func TestNoLineIsWiderThanTheScreenAndNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-z\-_./ é漢\x1b]{0,90}`)
		d := siteOf(text.Draw(t, "site"), text.Draw(t, "item"), text.Draw(t, "state"))
		screen := rapid.IntRange(80, 240).Draw(t, "width")
		out := printedAt(t, page.Plan(d, page.System{}), Screen{Width: screen})
		for _, line := range strings.Split(out, "\n") {
			if width(line) > screen {
				t.Fatalf("%d cells on a screen of %d: %s", width(line), screen, line)
			}
			if line != strings.TrimRight(line, " ") {
				t.Fatalf("spaces at the end: %q", line)
			}
		}
		for _, figure := range []string{"13.6", "17.01", "20/2", "1,3,5", "1,234.5 A"} {
			if !strings.Contains(out, figure) {
				t.Fatalf("lost %s in\n%s", figure, out)
			}
		}
		if strings.ContainsRune(out, 0x1b) {
			t.Fatalf("an escape came through")
		}
	})
}

func TestControlCharactersAreShownNotPrinted(t *testing.T) {
	d := siteOf("red \x1b[31m \u202e bay\nsecond\u009b", "it\tem", "on")
	out := printedAt(t, page.Plan(d, page.System{}), Screen{Width: 120})
	require.Contains(t, out, `red \x1b[31m \u202e bay\nsecond\u009b`)
	require.Contains(t, out, `5 x it\tem`)
}

func TestColourMarksSeverityAndNothingElse(t *testing.T) {
	p := page.Plan(siteOf("violation bay", "bar", "on"), page.System{})
	plain := printedAt(t, p, Screen{Width: 80})
	coloured := printedAt(t, p, Screen{Width: 80, Colour: true})
	require.NotContains(t, plain, "\x1b")
	require.Equal(t, 2, strings.Count(coloured, "\x1b["), "one word is painted")
	require.Contains(t, coloured, "\x1b[31;1mviolation\x1b[0m continuous-load")
	stripped := strings.NewReplacer("\x1b[31;1m", "", "\x1b[0m", "").Replace(coloured)
	require.Equal(t, plain, stripped, "colour carries no meaning alone")
}

func TestWiderScreensJoinTables(t *testing.T) {
	p := page.Plan(siteOf("bay", "bar-640", "lights on 06:00-18:00"), page.System{})
	heads := func(w int) int {
		return strings.Count("\n"+printedAt(t, p, Screen{Width: w}), "\ncircuit ")
	}
	require.Equal(t, 3, heads(80))
	require.Less(t, heads(140), 3)
	require.Equal(t, 1, heads(240))
}

func TestWrapKeepsEveryWord(t *testing.T) {
	for _, c := range []struct {
		why, text string
		limit     int
		want      []string
	}{
		{"between words", "one two three", 8, []string{"one two", "three"}},
		{"a long word breaks after a mark", "flower-dehumidifier", 12, []string{"flower-", "dehumidifier"}},
		{"or anywhere", "dehumidifier", 5, []string{"dehum", "idifi", "er"}},
		{"a wide character takes two cells", "漢字漢字", 5, []string{"漢字", "漢字"}},
		{"nothing is one empty line", "", 5, []string{""}},
		{"a figure stays with its unit", "it covers 125 % of 16 A.", 12, []string{"it covers", "125 % of", "16 A."}},
		{"a limit of nothing still ends", "ab", 0, []string{"a", "b"}},
	} {
		require.Equal(t, c.want, wrap(c.text, c.limit), c.why)
	}
}
