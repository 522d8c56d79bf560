package markdown_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/cli"
)

func report(t *testing.T, file string, args ...string) string {
	var out, said bytes.Buffer
	require.Less(t, cli.Run(append([]string{"report", file, "--format", "markdown"}, args...), nil, &out, &said), 2, "%s", &said)
	return out.String()
}

func site(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sites", name+".toml")
}

// cells counts the cells of a row: bars that no backslash takes away.
func cells(line string) int {
	line = regexp.MustCompile(`\\.`).ReplaceAllString(line, "x")
	return strings.Count(line, "|") - 1
}

// wellFormed checks every pipe table of a text: after its headings a rule of as
// many cells, then rows of as many, and an empty line before it. It returns how
// many there are.
func wellFormed(t *testing.T, text string) int {
	rule := regexp.MustCompile(`^\|( -+:? \|)+$`)
	lines := strings.Split(text, "\n")
	tables := 0
	for i, l := range lines {
		if !strings.HasPrefix(l, "|") || strings.HasPrefix(lines[i-1], "|") {
			continue
		}
		tables++
		require.Empty(t, lines[i-1], "line %d", i+1)
		require.Regexp(t, rule, lines[i+1], "line %d", i+2)
		for k := i; strings.HasPrefix(lines[k], "|"); k++ {
			require.True(t, strings.HasSuffix(lines[k], " |"))
			require.Equal(t, cells(l), cells(lines[k]), "line %d: %s", k+1, lines[k])
		}
	}
	return tables
}

func TestEveryTableIsWellFormed(t *testing.T) {
	for _, name := range []string{"warehouse", "tent", "greenhouse"} {
		text := report(t, site(name), "--date", "2026-03-14")
		require.Greater(t, wellFormed(t, text), 15, name)
		require.NotContains(t, text, "\n\n\n")
	}
}

// TestContentsLeadToTheirSections follows each link of the contents to a heading.
func TestContentsLeadToTheirSections(t *testing.T) {
	text := report(t, site("warehouse"))
	anchors := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^## (.*)$`).FindAllStringSubmatch(text, -1) {
		anchors[regexp.MustCompile(`[^a-z0-9-]`).ReplaceAllString(strings.ReplaceAll(strings.ToLower(m[1]), " ", "-"), "")] = true
	}
	links := regexp.MustCompile(`\]\(#([^)]*)\)`).FindAllStringSubmatch(text, -1)
	require.Len(t, links, 17)
	for _, l := range links {
		require.True(t, anchors[l[1]], l[1])
	}
}

func TestPartsInMarkdown(t *testing.T) {
	text := report(t, site("tent"), "--part", "utility")
	require.Contains(t, text, "Load letter to the utility")
	require.NotContains(t, text, "Home runs")
}

// TestFeederStopsAtItsTransformer: every sheet that an electrician builds from says
// that the conductors end at the primary.
func TestFeederStopsAtItsTransformer(t *testing.T) {
	text := report(t, site("greenhouse"))
	for _, line := range []string{
		`(?m)^\| P1: to the transformer's primary \| L1 \| 50 \| 3 × 8 AWG`,
		`(?m)^\| P1: transformer to panel, secondary \| transformer \| \? \| NOT SIZED OR CHECKED: conductors with neutral`,
		`(?m)^- Fed from: panel L1, .* to the transformer's primary, .*; secondary NOT SIZED`,
		`(?m)^Drawing: .* Panel P1, .*, to the primary of a transformer of 30 kVA, 480 to 208 V; secondary NOT SIZED`,
		`(?m)^- secondary of the transformer of panel P1: NOT SIZED`,
		`(?m)^\| 6[0-9] \| feeder to panel.* to the primary `,
	} {
		require.Regexp(t, line, text)
	}
}

func TestHostileNamesInAReport(t *testing.T) {
	const name = "<script>alert(1)</script> | [x](javascript:y) `z` *b* # h"
	toml := strings.ReplaceAll(`
[site]
name = "NAME"
use = "commercial"
[panels."NAME"]
system = "120/240 V 1ph"
main = "200 A"
spaces = 42
[rooms.r]
panel = "NAME"
size = "20 ft x 10 ft x 9 ft"
lights = "06:00-18:00"
[fixtures."NAME"]
room = "r"
count = 3
power = "640 W"
voltage = "240 V"
wired = true
`, "NAME", name)
	file := filepath.Join(t.TempDir(), "site.toml")
	require.NoError(t, os.WriteFile(file, []byte(toml), 0o600))
	text := report(t, file)
	require.Greater(t, wellFormed(t, text), 10)
	bare := regexp.MustCompile(`\\.`).ReplaceAllString(text, ".")
	require.NotContains(t, bare, "<")
	require.NotContains(t, bare, "](javascript")
	require.NotRegexp(t, `(?m)^# h`, bare)
	require.Equal(t, 1, strings.Count(bare, "\n# ")+strings.Count(bare[:2], "# "), "one title")
	require.NotEqual(t, 0, cli.Run([]string{"report", file, "--format", "markdown", "-o", file}, nil, io.Discard, io.Discard), "never over the inventory")
}

func TestParallelSetsHaveARacewayEach(t *testing.T) {
	text := report(t, site("building"))
	require.Regexp(t, `\| 2 sets of: .* \| 2 × 2-1/2 in EMT, one set with its ground in each \|`, text)
	require.Regexp(t, "enlarged for voltage drop may not fit", text)
}

// TestTheCanadianReportCallsItBonding: a grounding conductor runs to the electrode
// there; one wire has one name through all sheets.
func TestTheCanadianReportCallsItBonding(t *testing.T) {
	text := report(t, filepath.Join("..", "..", "..", "..", "testdata", "canada", "greenhouse-347.toml"))
	require.NotRegexp(t, `AWG ground|ground [0-9]+ AWG|equipment ground`, text)
	require.Regexp(t, `AWG bonding`, text)
	require.Contains(t, text, "equipment bonding")
	require.Contains(t, report(t, site("tent")), "AWG ground")
}
