package svg

import (
	"fmt"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Layer is a category of a chart of demand with the letter that stands for it.
type Layer struct {
	Letter   string
	Category string
	Hue      int
}

// Demand draws the power of the site through the day: the categories stacked,
// each with a letter, and the demand that a meter may see as a line.
func Demand(id string, d document.Day) (Figure, []Layer) {
	c := &canvas{id: id}
	most := make([]float64, 24)
	for i, x := range d.Hours {
		most[i] = x.Coincident / 1000
	}
	sum := make([]float64, 24)
	var layers []Layer
	var stacks [][2][]float64
	for k, g := range d.Categories {
		low, high := append([]float64{}, sum...), make([]float64, 24)
		for i, x := range g.Hours {
			sum[i] += x.Watts / 1000
			high[i] = sum[i]
		}
		layers = append(layers, Layer{string(rune('a' + k)), g.Name, k})
		stacks = append(stacks, [2][]float64{low, high})
	}
	_, top := extremes(most, sum)
	a := axisFor(0, top)
	c.grid(a, "kW")
	for k, s := range stacks {
		c.path(fmt.Sprintf("layer hue%d", layers[k].Hue%Hatches), area(a, s[0], s[1]))
		c.letter(a, s[0], s[1], layers[k].Letter)
	}
	c.strokes(a, []stroke{{"curve dashed", "all cycling loads on", most}})
	desc := fmt.Sprintf("Hourly mean power of the mean day in kW, stacked by category. The largest quarter-hour as it runs is %s kW from %s; with all cycling loads on at once, on the worst day, %s kW from %s.",
		units.Round(d.Peak.Watts/1000, 2), d.Peak.At, units.Round(d.Demand.Watts/1000, 2), d.Demand.At)
	return c.figure("Electrical demand through the day", desc, chartLeft+chartWidth+chartRight, chartTop+chartHeight+chartFoot), layers
}

// Legs draws what the legs of a panel carry through the day, with its main as a
// line where that is not far above.
func Legs(id string, p document.DayPanel) (Figure, bool) {
	if len(p.Hours) != 24 || p.MostAmps <= 0 {
		return Figure{}, false
	}
	c := &canvas{id: id}
	var list []stroke
	for i, leg := range p.Legs {
		var values []float64
		for _, h := range p.Hours {
			values = append(values, h.Amps[leg])
		}
		list = append(list, stroke{"curve" + []string{"", " dashed", " dotted"}[i%3], "leg " + Plain(leg), values})
	}
	top := p.MostAmps
	if main := p.MainAmps; main != nil && *main < 3*top {
		top = max(top, *main)
	}
	a := axisFor(0, top)
	c.grid(a, "A")
	if main := p.MainAmps; main != nil && *main <= a.high {
		c.line("limit", chartLeft, a.y(*main), chartLeft+chartWidth, a.y(*main))
		c.text("tick", left, chartLeft+6, a.y(*main)-5, "main "+amps(main))
	}
	c.strokes(a, list)
	least := ""
	if p.LeastLoad {
		least = " or more, the current of a load being unknown,"
	}
	desc := fmt.Sprintf("Operating current of each leg of panel %s by the hour, at the fullest minute of each. The fullest leg carries %s A%s at %s.",
		Plain(p.Name), units.Round(p.MostAmps, 2), least, p.MostAt)
	return c.figure("Current on the legs of panel "+Plain(p.Name), desc, chartLeft+chartWidth+chartRight, chartTop+chartHeight+chartFoot), true
}

// letter names a layer where it is thickest; one too thin for a letter is named
// beside the chart only.
func (c *canvas) letter(a axis, low, high []float64, letter string) {
	best, at := 0.0, 0
	for h := range low {
		if t := a.y(low[h]) - a.y(high[h]); t > best+0.01 {
			best, at = t, h
		}
	}
	if best >= 12 {
		run := at
		for run+1 < len(low) && a.y(low[run+1])-a.y(high[run+1]) > best-0.01 {
			run++
		}
		x := (hourX(at) + hourX(run+1)) / 2
		h := (at + run) / 2
		c.text("letter", middle, x, (a.y(low[h])+a.y(high[h]))/2+4, letter)
	}
}

// Heat draws a room's heat through the day of its peak: total, sensible and
// latent, and when the lights are on.
func Heat(id string, r document.HeatRoom, m Measure) (Figure, bool) {
	i := 0
	for i < len(r.Days) && r.Days[i].Day != r.PeakDay {
		i++
	}
	if i == len(r.Days) {
		return Figure{}, false
	}
	c := &canvas{id: id}
	var total, sensible, latent []float64
	for _, h := range r.Days[i].Hours {
		total = append(total, m.Heat(h.TotalBTUH))
		sensible = append(sensible, m.Heat(h.SensibleBTUH))
		latent = append(latent, m.Heat(h.LatentBTUH))
	}
	low, high := extremes(total, sensible, latent)
	a := axisFor(low, high)
	c.grid(a, m.HeatUnit())
	c.path("layer hue5", area(a, make([]float64, 24), total))
	for _, h := range r.Days[i].Hours {
		if h.LitPercent > 0 {
			c.rect("lit", hourX(h.Hour), chartTop-9, (hourX(1)-hourX(0))*h.LitPercent/100, 5)
		}
	}
	c.text("tick", left, chartLeft+chartWidth+6, chartTop-3, "lights on: bar above")
	c.strokes(a, []stroke{{"curve", "total", total}, {"curve dashed", "sensible", sensible}, {"curve dotted", "latent", latent}})
	desc := fmt.Sprintf("Hourly heat of room %s on the %s in %s: total, sensible and latent. The largest total is %s %s in the hour from %02d:00.",
		Plain(r.Room), r.PeakDay, m.HeatUnit(), Rounded(m.Heat(r.PeakTotalBTUH), m.HeatDigits()), m.HeatUnit(), r.PeakHour)
	return c.figure("Heat of room "+Plain(r.Room)+" on the "+r.PeakDay, desc, chartLeft+chartWidth+chartRight, chartTop+chartHeight+chartFoot), true
}
