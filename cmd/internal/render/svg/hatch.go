package svg

import (
	"fmt"
	"strings"
)

// Hatches is how many hatches and colours there are before they repeat.
const Hatches = 8

// hatch draws rectangle k's hatching around the origin, as explicit lines: a
// pattern fill would need a reference that some printers do not follow.
func hatch(k int, w, h float64) string {
	const step = 6.0
	var d strings.Builder
	line := func(x1, y1, x2, y2 float64) { fmt.Fprintf(&d, "M%s %sL%s %s", n(x1), n(y1), n(x2), n(y2)) }
	switch k % Hatches {
	case 1:
		diagonal(w, h, step, false, line)
	case 2:
		for y := -h/2 + step/2; y < h/2; y += step * 2 / 3 {
			line(-w/2, y, w/2, y)
		}
	case 4:
		diagonal(w, h, step, true, line)
	case 5:
		for x := -w/2 + step/2; x < w/2; x += step * 2 / 3 {
			line(x, -h/2, x, h/2)
		}
	case 6:
		diagonal(w, h, step*1.4, false, line)
		diagonal(w, h, step*1.4, true, line)
	case 7:
		for x := -w/2 + step/2; x < w/2; x += step {
			line(x, -h/2, x, h/2)
		}
		for y := -h/2 + step/2; y < h/2; y += step {
			line(-w/2, y, w/2, y)
		}
	}
	return d.String()
}

// diagonal draws lines at 45°, cut at the edges of the rectangle.
func diagonal(w, h, step float64, down bool, line func(x1, y1, x2, y2 float64)) {
	for o := -h + step/2; o < w; o += step {
		x1, x2 := max(0, o), min(w, o+h)
		if x2 <= x1 {
			continue
		}
		y1, y2 := h-(x1-o), h-(x2-o) // rising to the right
		if down {
			y1, y2 = h-y1, h-y2
		}
		line(x1-w/2, y1-h/2, x2-w/2, y2-h/2)
	}
}

// symbols defines the rectangles of every hatch that a drawing uses, for <use>.
func (c *canvas) symbols(used int, w, h float64) {
	c.printf("<defs>")
	for k := range min(used, Hatches) {
		c.printf(`<g id="%s-h%d" class="hue%d"><rect class="unit" x="%s" y="%s" width="%s" height="%s"/>`, c.id, k, k, n(-w/2), n(-h/2), n(w), n(h))
		switch d := hatch(k, w, h); {
		case k == 3:
			for y := -h/2 + 3; y < h/2; y += 5 {
				for x := -w/2 + 3; x < w/2; x += 5 {
					c.printf(`<circle class="dot" cx="%s" cy="%s" r="0.9"/>`, n(x), n(y))
				}
			}
		case d != "":
			c.path("hatch", d)
		}
		c.printf("</g>")
	}
	c.printf("</defs>")
}

// Swatch is a small picture of a hatch of a figure, for its key.
func Swatch(f Figure, k int) string {
	w, h := min(f.Unit[0], 40), min(f.Unit[1], 22)
	return fmt.Sprintf(`<svg class="swatch" viewBox="%s %s %s %s" width="40" height="22" aria-hidden="true"><use href="#%s-h%d"/><rect class="frame hue%d" x="%s" y="%s" width="%s" height="%s"/></svg>`,
		n(-w/2-1), n(-h/2-1), n(w+2), n(h+2), f.ID, k%Hatches, k%Hatches, n(-w/2), n(-h/2), n(w), n(h))
}

// LayerSwatch is a small picture of a layer of a chart, for its key.
func LayerSwatch(l Layer) string {
	return fmt.Sprintf(`<svg class="swatch drawing" viewBox="0 0 40 22" width="40" height="22" aria-hidden="true"><rect class="layer hue%d" x="1" y="1" width="38" height="20"/><text class="letter m" x="20" y="15.5">%s</text></svg>`, l.Hue%Hatches, escape(l.Letter))
}
