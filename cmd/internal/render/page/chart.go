package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"branchwork/loads/units"
)

// Chart is a figure for each hour of a day. Renderers that can draw do; the others
// print it in plain digits. Its figures stand in a table too.
type Chart struct {
	Title  string // what is drawn, with its unit: "power kW"
	Unit   string
	Values []float64 // one an hour
	Digits int       // decimals of the largest, where it is named
}

func (Chart) block() {}

// Largest returns the largest value, 0 where none is above it.
func (c Chart) Largest() float64 {
	most := 0.0
	for _, v := range c.Values {
		most = max(most, v)
	}
	return most
}

// Name returns a value of the chart with its unit.
func (c Chart) Name(v float64) string { return units.Round(v, c.Digits) + " " + c.Unit }

// Levels returns each value as a number of steps, of which the largest value has n. What
// is above zero has one at least; below zero it is −1.
func (c Chart) Levels(n int) []int {
	most := c.Largest()
	out := make([]int, len(c.Values))
	for i, v := range c.Values {
		switch {
		case v > 0:
			out[i] = max(1, int(math.Round(v/most*float64(n))))
		case v < -0.5*math.Pow10(-c.Digits):
			out[i] = -1
		}
	}
	return out
}

// digits is how many steps plain digits tell apart, nothing aside.
const digits = 9

// Plain returns the chart in plain digits, in lines of at most so many cells: 9 for the
// largest value, 0 for nothing.
func (c Chart) Plain(width int) []string {
	lines := []string{c.Title + ": 9 is " + c.Name(c.Largest()) + ", 0 is none"}
	cell := c.Cell(width)
	var row strings.Builder
	below := false
	for _, l := range c.Levels(digits) {
		s := strconv.Itoa(l)
		if l < 0 {
			s, below = "-", true
		}
		row.WriteString(fmt.Sprintf("%*s", cell, s))
	}
	if below {
		lines[0] += ", - is below zero"
	}
	return append(lines, strings.Repeat(" ", Margin-min(1, cell-1))+row.String(), c.Hours(cell))
}

// Margin is the room that a chart leaves for the names of its heights.
const Margin = 8

// Cell returns how many cells an hour takes on a screen of a width: 1 to 3.
func (c Chart) Cell(width int) int {
	return max(1, min(3, (width-Margin)/max(1, len(c.Values))))
}

// Hours returns the line of hours under a chart: all of them where there is room, else
// those that can be told apart.
func (c Chart) Hours(cell int) string {
	step := []int{0, 6, 3, 1}[cell]
	line := []byte(strings.Repeat(" ", Margin+cell*len(c.Values)))
	for h := 0; h < len(c.Values); h += step {
		copy(line[Margin+h*cell:], fmt.Sprintf("%02d", h))
	}
	return strings.TrimRight(string(line), " ")
}
