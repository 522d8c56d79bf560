package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLevelsAreStepsOfTheLargest(t *testing.T) {
	c := Chart{Values: []float64{0, 100, 50, 0.001, -5, -0.001}}
	require.Equal(t, []int{0, 8, 4, 1, -1, 0}, c.Levels(8), "what is above zero is seen; what rounds to zero is zero")
	require.Equal(t, []int{0, 0}, Chart{Values: []float64{0, 0}}.Levels(8))
}

func TestPlainDigitsStandOverTheirHours(t *testing.T) {
	c := Chart{Title: "power", Unit: "kW", Digits: 1}
	for h := range 24 {
		c.Values = append(c.Values, float64(h%10))
	}
	for _, width := range []int{40, 60, 79, 80, 200} {
		lines := c.Plain(width)
		require.Len(t, lines, 3)
		require.Equal(t, "power: 9 is 9 kW, 0 is none", lines[0])
		cell := c.Cell(width)
		for h := range 24 {
			at := Margin + h*cell + max(0, cell-2)
			require.Equal(t, byte('0'+h%10), lines[1][at], "hour %d at width %d", h, width)
		}
		require.True(t, strings.HasPrefix(lines[2], strings.Repeat(" ", Margin)+"00"))
		require.LessOrEqual(t, len(lines[1]), max(width, 40))
		require.LessOrEqual(t, len(lines[2]), max(width, 40))
	}
	c.Values[3] = -4
	require.Contains(t, c.Plain(80)[0], "- is below zero")
}
