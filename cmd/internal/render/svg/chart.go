package svg

import (
	"fmt"
	"math"
	"strings"

	"branchwork/loads/units"
)

// A chart of 24 hours, in drawing units.
const (
	chartWidth  = 580.0
	chartHeight = 250.0
	chartLeft   = 74.0
	chartTop    = 34.0
	chartRight  = 150.0 // for the names of lines
	chartFoot   = 46.0
)

// axis is a scale with round numbers.
type axis struct {
	low, high, step float64
}

// axisFor covers a range, zero included, with about five round steps.
func axisFor(low, high float64) axis {
	low, high = math.Min(0, low), math.Max(0, high)
	if high-low == 0 {
		high = 1
	}
	rough := (high - low) / 5
	unit := math.Pow(10, math.Floor(math.Log10(rough)))
	step := unit * 10
	for _, k := range []float64{1, 2, 2.5, 5} {
		if unit*k >= rough*0.999 {
			step = unit * k
			break
		}
	}
	return axis{low: math.Floor(low/step+1e-9) * step, high: math.Ceil(high/step-1e-9) * step, step: step}
}

func (a axis) y(v float64) float64 {
	return chartTop + chartHeight*(a.high-v)/(a.high-a.low)
}

// digits is how many decimals the ticks need.
func (a axis) digits() int { return max(0, -int(math.Floor(math.Log10(a.step)+1e-9))) }

func hourX(h int) float64 { return chartLeft + chartWidth*float64(h)/24 }

// grid draws axes, ticks and their names.
func (c *canvas) grid(a axis, unit string) {
	digits := a.digits()
	if math.Abs(a.step*math.Pow10(digits)-math.Round(a.step*math.Pow10(digits))) > 1e-6 {
		digits++
	}
	for i := 0; ; i++ {
		v := a.low + float64(i)*a.step
		if v > a.high+a.step/2 {
			break
		}
		class := "grid"
		if math.Abs(v) < a.step/2 {
			class = "axis"
		}
		c.line(class, chartLeft, a.y(v), chartLeft+chartWidth, a.y(v))
		c.text("tick", right, chartLeft-8, a.y(v)+3.5, units.Fixed(v+0, digits))
	}
	for h := 0; h <= 24; h += 3 {
		c.line("axis", hourX(h), chartTop+chartHeight, hourX(h), chartTop+chartHeight+5)
		c.text("tick", middle, hourX(h), chartTop+chartHeight+19, fmt.Sprintf("%02d:00", h))
	}
	c.text("tick strong", left, 8, chartTop-16, unit)
	c.text("tick", middle, chartLeft+chartWidth/2, chartTop+chartHeight+38, "hour of the day")
}

// steps is the outline of 24 hourly means.
func steps(a axis, values []float64) string {
	var d strings.Builder
	for h, v := range values {
		if h == 0 {
			fmt.Fprintf(&d, "M%s %s", n(hourX(h)), n(a.y(v)))
		} else {
			fmt.Fprintf(&d, "V%s", n(a.y(v)))
		}
		fmt.Fprintf(&d, "H%s", n(hourX(h+1)))
	}
	return d.String()
}

// area is the surface between two outlines.
func area(a axis, low, high []float64) string {
	var d strings.Builder
	d.WriteString(steps(a, high))
	for h := len(low) - 1; h >= 0; h-- {
		fmt.Fprintf(&d, "V%sH%s", n(a.y(low[h])), n(hourX(h)))
	}
	d.WriteString("Z")
	return d.String()
}

// stroke is a line of a chart: its values, its class and its name.
type stroke struct {
	class, name string
	values      []float64
}

// strokes draws lines and names them at their right end, names kept apart.
func (c *canvas) strokes(a axis, list []stroke) {
	taken := []float64{}
	for _, s := range list {
		c.path(s.class, steps(a, s.values))
		y := a.y(s.values[len(s.values)-1]) + 3.5
		for moved := true; moved; {
			moved = false
			for _, t := range taken {
				if math.Abs(y-t) < 13 {
					y, moved = t+13, true
				}
			}
		}
		taken = append(taken, y)
		x := chartLeft + chartWidth
		c.line(s.class, x+6, y-3.5, x+26, y-3.5)
		c.text("tick", left, x+31, y, s.name)
	}
}

func extremes(lists ...[]float64) (low, high float64) {
	for _, l := range lists {
		for _, v := range l {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	return low, high
}
