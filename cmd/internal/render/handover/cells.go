package handover

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
	"branchwork/loads/units"
)

// unknown stands where a figure has a meaning and is not known.
const unknown = document.Unknown

func span(s, class string) Span {
	x := text(s)
	x.Class = class
	return x
}

// none stands where there is nothing to tell.
const none = "–"

func text(s string) Span { return Span{Text: svg.Plain(s)} }

func textf(format string, a ...any) Span { return text(fmt.Sprintf(format, a...)) }

// name is a word from the file. A short one is not broken at its hyphens.
func name(s string) Span {
	x := Span{Text: svg.Plain(s), Name: true}
	if len([]rune(x.Text)) <= shortName {
		x.Class = "nb"
	}
	return x
}

// shortName is how long a name may be to stay on one line.
const shortName = 18

// strong is a name that heads its row.
func strong(s string) Span {
	x := name(s)
	x.Class = strings.TrimSpace("strong " + x.Class)
	return x
}

// sentence begins with a capital.
func sentence(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return string(unicode.ToUpper(r[0])) + string(r[1:]) + "."
}

func spans(list ...Span) []Span { return list }

// number is a figure of the document, shown with so many decimals.
func number(x float64, digits int, key string) Span {
	return Span{Text: svg.Rounded(x, digits), Key: key, Number: &Number{x, digits}}
}

// scaled is a figure shown in a larger unit.
func scaled(x, by float64, digits int, key string) Span {
	s := number(x*by, digits, key)
	s.Scale = strconv.FormatFloat(by, 'g', -1, 64)
	return s
}

func maybe(x *float64, digits int, key string) Span {
	if x == nil {
		return Span{Text: unknown, Key: key, Class: "unknown"}
	}
	return number(*x, digits, key)
}

func maybeScaled(x *float64, by float64, digits int, key string) Span {
	if x == nil {
		return maybe(nil, digits, key)
	}
	return scaled(*x, by, digits, key)
}

func count(n int, key string) Span { return number(float64(n), 0, key) }

func maybeCount(n *int, key string) Span {
	if n == nil {
		return maybe(nil, 0, key)
	}
	return count(*n, key)
}

// amount is a figure of as many decimals as it needs, up to some.
func amount(x float64, most int, key string) Span {
	s := units.Round(x, most)
	_, decimals, _ := strings.Cut(s, ".")
	return Span{Text: s, Key: key, Number: &Number{x, len(decimals)}}
}

func maybeAmount(x *float64, most int, key string) Span {
	if x == nil {
		return maybe(nil, 0, key)
	}
	return amount(*x, most, key)
}

// in is a cell of spans.
func in(list ...Span) Cell { return Cell{Spans: list} }

func cellText(s string) Cell { return in(text(s)) }

// wide is a cell that needs room for its text.
func wide(s string) Cell { return Cell{Spans: spans(text(s)), Class: "wide"} }

// hours is a cell of times of the day, none of which is broken.
func hours(s *string) Cell {
	if s == nil {
		return cellText(unknown)
	}
	return in(each(strings.Split(*s, ", "), func(x string) Span { return span(x, "nb") })...)
}

func cellName(s string) Cell { return in(name(s)) }

// figure is a cell that is one figure, which stands to the right.
func figure(s Span) Cell {
	return Cell{Text: s.Text, Key: s.Key, Scale: s.Scale, Class: s.Class, Num: true, Number: s.Number}
}

// blank is a cell without meaning in its row.
func blank() Cell { return Cell{Text: none, Class: "none"} }

// gap is a cell of a foot that totals nothing.
func gap() Cell { return Cell{Class: "none"} }

// optional is a figure that has no meaning where it is missing.
func optional(x *float64, digits int, key string) Cell {
	if x == nil {
		return blank()
	}
	return figure(number(*x, digits, key))
}

func orUnknown(s *string) string {
	if s == nil {
		return unknown
	}
	return *s
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return units.Round(float64(n), 0) + " " + many
}

func numbersText(list []int) string {
	parts := make([]string, len(list))
	for i, x := range list {
		parts[i] = strconv.Itoa(x)
	}
	return strings.Join(parts, ",")
}

// col is a column of words, fig one of figures.
func col(head string) Column { return Column{Head: head} }

// nav is a column of links to where else the row's subject stands.
func nav() Column { return Column{Head: "See also", Nav: true} }

// data is a column for programs.
func data(head string) Column { return Column{Head: head, DataOnly: true} }

func fig(head, unit string) Column { return Column{Head: head, Unit: unit, Num: true} }

// each lists things by their names.
func each(names []string, as func(string) Span) []Span {
	var lists [][]Span
	for _, n := range names {
		lists = append(lists, spans(as(n)))
	}
	return joined(", ", lists...)
}

// joined puts something between spans.
func joined(between string, lists ...[]Span) []Span {
	var out []Span
	for i, l := range lists {
		if i > 0 {
			out = append(out, text(between))
		}
		out = append(out, l...)
	}
	return out
}

func path(prefix string, i int, key string) string {
	return prefix + "." + strconv.Itoa(i) + "." + key
}

// Measures of the unit system, each a figure of the document converted for
// display.

func (p *page) unit(metric, customary string) string {
	if p.m.Metric {
		return metric
	}
	return customary
}

// times is a figure in the metric unit, which is a factor of the customary one.
func (p *page) times(x, factor float64) float64 {
	if p.m.Metric {
		return x * factor
	}
	return x
}

func (p *page) length(ft *float64, key string) Span {
	if ft == nil {
		return maybe(nil, 0, key)
	}
	return number(p.m.Length(*ft), 0, key)
}

func (p *page) heat(btuh float64, key string) Span {
	return number(p.m.Heat(btuh), p.m.HeatDigits(), key)
}

func (p *page) water(pints float64, key string) Span {
	return number(p.times(pints, units.LitrePerPint), 0, key)
}

// amountUnit is that of an amount of water.
func (p *page) amountUnit() string { return p.unit("L", "pint") }

// moisture is the unit in which tables of moist air are entered, and what a humidity
// ratio is multiplied by.
func (p *page) moisture() (per float64, unit string) {
	if p.m.Metric {
		return 1000, "g/kg"
	}
	return 7000, "grains/lb"
}

func (p *page) moistureDigits() int {
	if p.m.Metric {
		return 1
	}
	return 0
}

func (p *page) waterUnit() string { return p.unit("L/day", "pint/day") }

func (p *page) flow(cfm float64, key string) Span {
	return number(p.times(cfm, units.CubicMetrePerHourPerCFM), 0, key)
}

func (p *page) flowUnit() string { return p.unit("m³/h", "CFM") }

func (p *page) area(ft2 *float64, key string) Span {
	if ft2 == nil {
		return maybe(nil, 0, key)
	}
	if p.m.Metric {
		return number(units.Area(*ft2).SquareMetres(), 1, key)
	}
	return number(*ft2, 0, key)
}

func (p *page) areaUnit() string { return p.unit("m²", "ft²") }

func (p *page) temperature(c *float64, key string) Span {
	if c == nil {
		return maybe(nil, 0, key)
	}
	if p.m.Metric {
		return number(*c, 1, key)
	}
	return number(units.Temperature(*c).Fahrenheit(), 0, key)
}

func (p *page) temperatureUnit() string { return p.unit("°C", "°F") }
