package inventory

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func printed(t *testing.T, name, src string, problems []Problem, width int) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, Print(&b, name, []byte(src), problems, width))
	return b.String()
}

// pointing is a problem with the first occurrence of a text.
func pointing(src, text string) Problem {
	i := strings.Index(src, text)
	return Problem{At: newLineIndex([]byte(src)).place(span{i, i + len(text)}), Says: "wrong"}
}

func TestCaretStandsUnderTheValueInTerminalCells(t *testing.T) {
	for _, row := range []struct{ src, at, line, caret, why string }{
		{"run = \"60\"", `"60"`, `run = "60"`, "      ^^^^", "plain"},
		{"\trun = 1", "run", "    run = 1", "    ^^^", "a tab in front"},
		{"ab\trun\t= 1", "1", "ab  run = 1", "          ^", "tabs in between"},
		{"x = \"照明\", 7", "7", "x = \"照明\", 7", "            ^", "characters of two cells"},
		{"x = \"°é\" # 7", "7", "x = \"°é\" # 7", "           ^", "characters of two bytes"},
		{"x = \"\x1b[31m\" # 7", "7", `x = "\x1b[31m" # 7`, "                 ^", "a control character is escaped"},
		{"x = \"\u202eab\" # 7", "7", `x = "\u202eab" # 7`, "                 ^", "so is one that turns text around"},
		{"x = 1", "", "x = 1", "^", "at least one caret"},
	} {
		got := strings.Split(printed(t, "a.toml", row.src, []Problem{pointing(row.src, row.at)}, 80), "\n")
		require.Len(t, got, 5, row.why)
		assert.Equal(t, "    1 | "+row.line, got[1], row.why)
		assert.Equal(t, "      | "+row.caret, got[2], row.why)
	}
}

func TestWideLineIsCutAroundTheValue(t *testing.T) {
	src := "start " + strings.Repeat("left ", 60) + "HERE " + strings.Repeat("right ", 60)
	for _, width := range []int{40, 60, 80, 132} {
		lines := strings.Split(printed(t, "a.toml", src, []Problem{pointing(src, "HERE")}, width), "\n")
		line, caret := lines[1], lines[2]
		assert.LessOrEqual(t, terminal().StringWidth(line), width)
		assert.Contains(t, line, "…")
		from := strings.Index(caret, "^")
		assert.Equal(t, "HERE", string([]rune(line)[from:from+4]), "width %d", width)
		assert.Equal(t, 4, strings.Count(caret, "^"))
	}
	uncut := printed(t, "a.toml", src, []Problem{pointing(src, "HERE")}, 0)
	assert.NotContains(t, uncut, "…", "no width, no cut")
}

func TestValueOverSeveralLinesIsMarkedOnItsFirst(t *testing.T) {
	src := "x = [\n 1,\n 2 ]\ny = 1"
	p := Problem{At: newLineIndex([]byte(src)).place(span{4, 14}), Says: "wrong", Remedy: "this way\nor that"}
	assert.Equal(t, "a.toml:1:5: wrong\n    1 | x = [\n      |     ^\n        this way\n        or that\n1 problem; nothing was written\n",
		printed(t, "a.toml", src, []Problem{p}, 80))
}

func TestFiftyProblemsArePrintedAndTheRestCounted(t *testing.T) {
	src := "[site]\nname = \"A\"\nuse = \"dwelling\"\n"
	for i := range 62 {
		src += fmt.Sprintf("k%d = %d\n", i, i)
	}
	got := shown(t, "a.toml", []byte(src), 80)
	assert.Equal(t, 50, strings.Count(got, "unknown key"))
	assert.True(t, strings.HasSuffix(got, "and 12 more\n62 problems; nothing was written\n"), got[len(got)-80:])
}

func TestNoProblemsPrintNothing(t *testing.T) {
	assert.Empty(t, printed(t, "a.toml", "x", nil, 80))
}

func TestNameOfTheFileIsEscaped(t *testing.T) {
	assert.True(t, strings.HasPrefix(printed(t, "a\x1b[2J.toml", "x = 1", []Problem{pointing("x = 1", "x")}, 80), `a\x1b[2J.toml:1:1: wrong`))
}

func TestProblemsComeInOrderAndOnce(t *testing.T) {
	at := func(i int) Place { return Place{Line: i, Column: 1, Start: i, End: i} }
	got := inOrder([]Problem{{At: at(3), Says: "c"}, {At: at(1), Says: "b"}, {At: at(1), Says: "a"}, {At: at(3), Says: "c"}})
	assert.Equal(t, []Problem{{At: at(1), Says: "b"}, {At: at(1), Says: "a"}, {At: at(3), Says: "c"}}, got)
}
