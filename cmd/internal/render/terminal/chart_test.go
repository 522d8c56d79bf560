package terminal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/render/page"
)

func TestAChartFitsTheScreenAndLosesNoHour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := page.Chart{Title: "power", Unit: "kW", Digits: 2, Values: rapid.SliceOfN(rapid.Float64Range(-10, 1e6), 24, 24).Draw(t, "values")}
		screen := Screen{Width: rapid.IntRange(40, 200).Draw(t, "width"), Blocks: rapid.Bool().Draw(t, "blocks")}
		out := printedAt(t, page.Page{Blocks: []page.Block{c}}, screen)
		for _, l := range strings.Split(out, "\n") {
			if width(l) > screen.Width || l != strings.TrimRight(l, " ") {
				t.Fatalf("%d cells on a screen of %d: %q", width(l), screen.Width, l)
			}
		}
		if !screen.Blocks && strings.IndexFunc(out, func(r rune) bool { return r > 126 }) >= 0 {
			t.Fatalf("a character that a plain screen may not have: %s", out)
		}
	})
}

// A column of the largest value fills all six lines; half of it three; an eighth of a
// line is one eighth.
func TestColumnsAreDrawnInEighths(t *testing.T) {
	c := page.Chart{Title: "power", Unit: "kW", Values: make([]float64, 24)}
	c.Values[0], c.Values[1], c.Values[2], c.Values[3] = 48, 24, 1, 9
	out := printedAt(t, page.Page{Blocks: []page.Block{c}}, Screen{Width: 40, Blocks: true})
	require.Equal(t, "power: the highest column is 48 kW\n"+
		" 100 % |█\n"+
		"       |█\n"+
		"       |█\n"+
		"       |██\n"+
		"       |██ ▁\n"+
		"     0 |██▁█\n"+
		"        00    06    12    18\n", out)
}
