package svg

import "fmt"

// breaker is the circuit breaker of IEC 60617 (07-13-05), from left to right: a
// cross at the fixed contact and a blade that stands open. It takes 26 units.
func (c *canvas) breaker(x, y float64) {
	c.path("symbol", fmt.Sprintf("M%s %sl6 6m0 -6l-6 6", n(x-3), n(y-3)))
	c.path("symbol", fmt.Sprintf("M%s %sL%s %s", n(x+26), n(y), n(x+4), n(y-10)))
	c.line("symbol", x, y, x+2, y)
}

// breakerDown is the same, from top to bottom.
func (c *canvas) breakerDown(x, y float64) {
	c.path("symbol", fmt.Sprintf("M%s %sl6 6m0 -6l-6 6", n(x-3), n(y-3)))
	c.path("symbol", fmt.Sprintf("M%s %sL%s %s", n(x), n(y+28), n(x+10), n(y+5)))
}

// transformer is the transformer of two windings of IEC 60617 (06-09-02): two
// circles that overlap.
func (c *canvas) transformer(x, y float64) {
	c.rect("paper", x-18, y-2, 34, 4)
	c.circle("symbol", x-7, y, 10)
	c.circle("symbol", x+5, y, 10)
}

// load is what stands at the end of a branch: a lamp (IEC 60617 11-15-01) for
// lighting, a motor (06-04-01) for what turns, otherwise an arrow.
func (c *canvas) load(category string, x, y float64) {
	switch category {
	case "lighting":
		c.circle("symbol", x, y, 9)
		c.path("symbol", fmt.Sprintf("M%s %sl12.7 12.7m0 -12.7l-12.7 12.7", n(x-6.35), n(y-6.35)))
	case "air movement", "water":
		c.circle("symbol", x, y, 9)
		c.text("tiny", middle, x, y+3.5, "M")
	default:
		c.line("wire", x-8, y, x+2, y)
		c.path("arrow", fmt.Sprintf("M%s %sl-9 -5v10z", n(x+9), n(y)))
	}
}
