package ooxml

import (
	"fmt"
	"slices"
	"strings"
)

// Style is how a cell looks. Colours are RRGGBB, what is empty is as usual.
type Style struct {
	Font                 string
	Size                 float64
	Bold                 bool
	Colour, Fill         string
	Top, Bottom          Line
	Horizontal, Vertical string // "left", "top"
	Wrap                 bool
	Indent               int
	Format               string // of a figure: "#,##0.0"
}

// Line is a line at the edge of a cell: "thin", "medium".
type Line struct{ Style, Colour string }

// styles are those of a workbook, none twice: codes of formats, and elements.
type styles struct{ formats, fonts, fills, borders, cells list }

type list []string

func (l *list) place(element string) int {
	i := slices.Index(*l, element)
	if i < 0 {
		i = len(*l)
		*l = append(*l, element)
	}
	return i
}

func (l list) xml(tag string) string {
	return fmt.Sprintf(`<%s count="%d">%s</%s>`, tag, len(l), strings.Join(l, ""), tag)
}

// firstFormat is the number of the first format that is not built in.
const firstFormat = 164

// open fills in what every workbook has to begin with: the look of a cell without a
// style, whose font the widths of columns are counted in, and two fills.
func (t *styles) open() {
	if len(t.cells) > 0 {
		return
	}
	t.fonts = list{`<font><sz val="11"/><name val="Calibri"/><family val="2"/></font>`}
	t.fills = list{`<fill><patternFill patternType="none"/></fill>`, `<fill><patternFill patternType="gray125"/></fill>`}
	t.borders = list{border(Line{}, Line{})}
	t.cells = list{`<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>`}
}

// Style takes a style in and returns its number.
func (b *Book) Style(s Style) int {
	t := &b.styles
	t.open()
	format, fill := 0, 0
	if s.Format != "" {
		format = firstFormat + t.formats.place(s.Format)
	}
	if s.Fill != "" {
		fill = t.fills.place(`<fill><patternFill patternType="solid"><fgColor rgb="FF` + s.Fill + `"/></patternFill></fill>`)
	}
	font := "<font>"
	if s.Bold {
		font += "<b/>"
	}
	font += fmt.Sprintf(`<sz val="%s"/>%s<name val="%s"/><family val="2"/></font>`, number(s.Size), colour(s.Colour), escaped(s.Font))
	return t.cells.place(fmt.Sprintf(`<xf numFmtId="%d" fontId="%d" fillId="%d" borderId="%d" xfId="0" applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1">%s</xf>`,
		format, t.fonts.place(font), fill, t.borders.place(border(s.Top, s.Bottom)), s.alignment()))
}

func colour(rgb string) string {
	if rgb == "" {
		return ""
	}
	return `<color rgb="FF` + rgb + `"/>`
}

func border(top, bottom Line) string {
	edge := func(tag string, l Line) string {
		if l.Style == "" {
			return "<" + tag + "/>"
		}
		return fmt.Sprintf(`<%s style="%s">%s</%s>`, tag, l.Style, colour(l.Colour), tag)
	}
	return "<border><left/><right/>" + edge("top", top) + edge("bottom", bottom) + "<diagonal/></border>"
}

func (s Style) alignment() string {
	out := ""
	if s.Horizontal != "" {
		out += ` horizontal="` + s.Horizontal + `"`
	}
	if s.Vertical != "" {
		out += ` vertical="` + s.Vertical + `"`
	}
	if s.Wrap {
		out += ` wrapText="1"`
	}
	if s.Indent > 0 {
		out += fmt.Sprintf(` indent="%d"`, s.Indent)
	}
	if out == "" {
		return ""
	}
	return "<alignment" + out + "/>"
}

func (t *styles) xml() string {
	t.open()
	formats := list{`<numFmt numFmtId="0" formatCode="General"/>`}
	for i, f := range t.formats {
		formats = append(formats, fmt.Sprintf(`<numFmt numFmtId="%d" formatCode="%s"/>`, firstFormat+i, escaped(f)))
	}
	return `<styleSheet xmlns="` + main + `">` + formats.xml("numFmts") + t.fonts.xml("fonts") + t.fills.xml("fills") + t.borders.xml("borders") +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` + t.cells.xml("cellXfs") +
		`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`
}
