package svg

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
)

// Mark is how a circuit shows on a floor plan.
type Mark struct {
	Circuit string
	Label   string
	Hatch   int
}

// Plan of a room: the frame it is drawn into, in drawing units.
const (
	planWidth  = 900.0
	planHeight = 560.0
	planMargin = 46.0
	leastPitch = 24.0 // rows closer than this are spread apart, and the drawing says so
	mostStep   = 150.0
	leastPlan  = 300.0
)

// floorScale is how feet become drawing units.
type floorScale struct {
	along, across float64 // drawing units per foot
	w, h          float64 // of the room
	spread        bool
	unitW, unitH  float64
}

// Floor draws the units of a fixture type in their room. key is where the floor
// stands in the document.
func Floor(id, key string, f document.Floor, marks []Mark, m Measure) Figure {
	c := &canvas{id: id}
	s := scaleOf(f)
	of := map[string]Mark{}
	for _, k := range marks {
		of[k.Circuit] = k
	}
	c.symbols(len(marks), s.unitW, s.unitH)
	c.frame(f, s, key, m)
	c.runs(f, s, marks)
	for _, u := range f.Units {
		c.unit(f, s, u, of)
	}
	title := fmt.Sprintf("Floor plan of room %s, %s by circuit", Plain(f.Room), Plain(f.Item))
	out := c.figure(title, floorDesc(f, marks, m), s.w+2*planMargin, s.h+2*planMargin)
	out.Unit = [2]float64{s.unitW, s.unitH}
	return out
}

// scaleOf fits the room into the frame. A room whose size is not known is a grid
// of equal cells.
func scaleOf(f document.Floor) floorScale {
	if !f.Placed {
		s := floorScale{along: 66, across: 48}
		s.w, s.h = s.along*float64(min(f.PerRow, max(1, f.Count))), s.across*float64(max(1, f.Rows))
		s.unitW, s.unitH = 50, 24
		return s
	}
	long, wide := *f.LongFeet, *f.WideFeet
	k := min(planWidth/long, planHeight/wide, mostStep/min(*f.SpacingFeet, long))
	k = max(k, min(leastPlan/long, planHeight/wide))
	s := floorScale{along: k, across: k}
	if pitch := *f.PitchFeet * k; pitch < leastPitch {
		s.across, s.spread = leastPitch / *f.PitchFeet, true
	}
	s.w, s.h = long*s.along, wide*s.across
	step := *f.SpacingFeet * s.along
	if f.PerRow == 1 {
		step = s.w
	}
	s.unitW = min(0.76*step, 96)
	s.unitH = min(0.66**f.PitchFeet*s.across, max(16, 0.5*s.unitW), 40)
	return s
}

// at returns where the middle of a unit is drawn.
func (s floorScale) at(u document.FloorUnit) (x, y float64) {
	if u.AlongFeet == nil || u.AcrossFeet == nil {
		return planMargin + (float64(u.Place)-0.5)*s.along, planMargin + (float64(u.Row)-0.5)*s.across
	}
	return planMargin + *u.AlongFeet*s.along, planMargin + *u.AcrossFeet*s.across
}

// frame draws the room with its dimensions.
func (c *canvas) frame(f document.Floor, s floorScale, key string, m Measure) {
	x, y := planMargin, planMargin
	if !f.Placed {
		c.rect("room loose", x, y, s.w, s.h)
		c.text("note", left, x, y-14, "schematic: "+f.Why)
		return
	}
	c.rect("room", x, y, s.w, s.h)
	c.dimension(x, y+s.h+24, x+s.w, y+s.h+24)
	c.figureText("dim", middle, x+s.w/2, y+s.h+20, m.lengthNumber(*f.LongFeet), key+".long_ft", " "+m.LengthUnit())
	c.dimension(x-24, y, x-24, y+s.h)
	c.printf(`<g transform="translate(%s %s) rotate(-90)">`, n(x-28), n(y+s.h/2))
	c.figureText("dim", middle, 0, 0, m.lengthNumber(*f.WideFeet), key+".wide_ft", " "+m.LengthUnit())
	c.printf("</g>")
	c.text("note", left, x, y-14, fmt.Sprintf("first outlet of the room at no. 1; %s along a row, rows %s apart%s",
		m.lengthText(*f.SpacingFeet), m.lengthText(*f.PitchFeet), spreadNote(s)))
}

func spreadNote(s floorScale) string {
	if s.spread {
		return "; rows drawn farther apart than they are"
	}
	return ""
}

// dimension is a line with a tick at both ends.
func (c *canvas) dimension(x1, y1, x2, y2 float64) {
	c.line("dimension", x1, y1, x2, y2)
	for _, p := range [][2]float64{{x1, y1}, {x2, y2}} {
		c.line("dimension", p[0]-4, p[1]+4, p[0]+4, p[1]-4)
	}
}

// runs draws each circuit's wiring from unit to unit in their order.
func (c *canvas) runs(f document.Floor, s floorScale, marks []Mark) {
	for _, k := range marks {
		var d strings.Builder
		var last int
		for _, u := range f.Units {
			if u.Circuit != k.Circuit {
				continue
			}
			x, y := s.at(u)
			to := "L"
			if d.Len() == 0 || u.Number != last+1 {
				to = "M"
			}
			fmt.Fprintf(&d, "%s%s %s", to, n(x), n(y))
			last = u.Number
		}
		if d.Len() > 0 {
			c.path(fmt.Sprintf("run hue%d", k.Hatch%Hatches), d.String())
		}
	}
}

// unit draws one unit with its circuit's hatch and label.
func (c *canvas) unit(f document.Floor, s floorScale, u document.FloorUnit, of map[string]Mark) {
	x, y := s.at(u)
	k, fed := of[u.Circuit]
	if !fed {
		c.rect("unit unfed", x-s.unitW/2, y-s.unitH/2, s.unitW, s.unitH)
		c.text("tag", middle, x, y+3.5, "–")
		return
	}
	c.printf(`<use href="#%s-h%d" x="%s" y="%s"/>`, c.id, k.Hatch%Hatches, n(x), n(y))
	label := k.Label
	width := 6.2*float64(len([]rune(label))) + 6
	class := "tag"
	if width > s.unitW {
		class, width = "tag small", 4.6*float64(len([]rune(label)))+4
	}
	if width > s.unitW+6 {
		return // told by hatch and wiring; its first unit is named in the key
	}
	c.rect("paper", x-width/2, y-6.5, width, 13)
	c.text(class, middle, x, y+3.5, label)
	if first(f, u) {
		wedge := fmt.Sprintf("M%s %sl-7 -4v8z", n(x-s.unitW/2), n(y))
		if u.Row%2 == 0 { // walked back: it arrives from the right
			wedge = fmt.Sprintf("M%s %sl7 -4v8z", n(x+s.unitW/2), n(y))
		}
		c.path(fmt.Sprintf("start hue%d", k.Hatch%Hatches), wedge)
	}
}

// first reports whether a unit is where its circuit's home run arrives.
func first(f document.Floor, u document.FloorUnit) bool {
	return u.Number == 1 || f.Units[u.Number-2].Circuit != u.Circuit
}

func floorDesc(f document.Floor, marks []Mark, m Measure) string {
	var b strings.Builder
	if f.Placed {
		fmt.Fprintf(&b, "A room of %s by %s with %d units in %d rows of up to %d. ", m.lengthText(*f.LongFeet), m.lengthText(*f.WideFeet), f.Count, f.Rows, f.PerRow)
	} else {
		fmt.Fprintf(&b, "%d units in their order, not to scale: %s. ", f.Count, f.Why)
	}
	for i, k := range marks {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString("circuit " + Plain(k.Circuit) + " feeds units " + Numbers(f, k.Circuit))
	}
	return b.String() + "."
}

// Numbers writes which units of a floor a circuit feeds: "1-5", "1, 7-9".
func Numbers(f document.Floor, circuit string) string {
	var parts []string
	for i := 0; i < len(f.Units); i++ {
		if f.Units[i].Circuit != circuit {
			continue
		}
		from := i
		for i+1 < len(f.Units) && f.Units[i+1].Circuit == circuit {
			i++
		}
		if from == i {
			parts = append(parts, fmt.Sprint(from+1))
		} else {
			parts = append(parts, fmt.Sprintf("%d-%d", from+1, i+1))
		}
	}
	return strings.Join(parts, ", ")
}
