package ooxml

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"path"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

func written(t *testing.T, b *Book) []byte {
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	return out.Bytes()
}

// opened reads a workbook by a library that others wrote.
func opened(t *testing.T, b *Book) *excelize.File {
	f, err := excelize.OpenReader(bytes.NewReader(written(t, b)))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, f.Close()) })
	f.Theme = excelize.NewFile().Theme // without one it reports no colours
	return f
}

// words that try to be more, or that XML cannot hold, with what is read back.
func hostile() map[string]string {
	long := strings.Repeat("x", mostWords-1)
	same := []string{
		"", " ", "  two before, one after ", "\ttab", "line\nbreak", "\r", "=1+1", "+1", "@SUM(A1)", `=HYPERLINK("x")`, "'quoted", "]]>", "<t>&amp;</t>",
		"<![CDATA[x]]>", `"'`, "_x0041_", "_x0041_x0042_", "_x005F_", "_x005F_x0041_", "__x0041__", "_x00e4_", "_xyz1_", "_x004", "很长的名字", "𝛀", "0012", "1e3", "TRUE",
		long + "x", long + "\n",
	}
	out := map[string]string{"a\x00b\x01c": "a\ufffdb\ufffdc", "\xff\xfe": "\ufffd\ufffd", "\ufffe": "\ufffd", "\x1b[31m": "\ufffd[31m", long + "xy": long + "x", long + "𝛀": long}
	for _, s := range same {
		out[s] = s
	}
	return out
}

// TestWordsStayWords reads strings back and holds them against what was written.
func TestWordsStayWords(t *testing.T) {
	b := Book{Title: "<&_x0041_>", Creator: "]]>"}
	s := b.Add("words")
	var order []string
	for in := range hostile() {
		order = append(order, in)
		s.Row(len(order), 15, Cell{Value: in})
	}
	f := opened(t, &b)
	for i, in := range order {
		got, err := f.GetCellValue("words", At(1, i+1))
		require.NoError(t, err)
		require.Equal(t, hostile()[in], got, "%q", in)
		kind, err := f.GetCellType("words", At(1, i+1))
		require.NoError(t, err)
		require.Equal(t, excelize.CellTypeInlineString, kind, "%q", in)
		formula, err := f.GetCellFormula("words", At(1, i+1))
		require.NoError(t, err)
		require.Empty(t, formula)
	}
	about, err := f.GetDocProps()
	require.NoError(t, err)
	require.Equal(t, b.Title, about.Title)
	require.Equal(t, b.Creator, about.Creator)
}

// TestFiguresAreReadBackAsTheyAre, to the last bit, and formulas are worked out.
func TestFiguresAreReadBackAsTheyAre(t *testing.T) {
	figures := []float64{0, 1, -1, 0.1, 1.0 / 3, 17.4066515495086, 1e15, 123456789012345678, 1e21, 1e-9, math.MaxFloat64, math.SmallestNonzeroFloat64}
	var b Book
	s := b.Add("figures")
	for i, x := range figures {
		s.Row(i+1, 15, Cell{Value: x})
	}
	last := len(figures)
	s.Row(last+1, 15, Cell{Value: 4.0, Formula: `SUM(A1:A2)+SUMIF(A1:A2,"<1",A1:A2)*3+3`}, Cell{}, Cell{Value: math.NaN()}, Cell{Value: math.Inf(-1)})
	f := opened(t, &b)
	raw := excelize.Options{RawCellValue: true}
	for i, want := range figures {
		got, err := f.GetCellValue("figures", At(1, i+1), raw)
		require.NoError(t, err)
		x, err := strconv.ParseFloat(got, 64)
		require.NoError(t, err)
		require.Equal(t, want, x)
	}
	stored, err := f.GetCellValue("figures", At(1, last+1), raw)
	require.NoError(t, err)
	worked, err := f.CalcCellValue("figures", At(1, last+1), raw)
	require.NoError(t, err)
	require.Equal(t, "4", stored)
	require.Equal(t, stored, worked)
	for column, want := range map[int]string{2: "", 3: "#NUM!", 4: "#NUM!"} {
		got, err := f.GetCellValue("figures", At(column, last+1), raw)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	calc, err := f.GetCalcProps()
	require.NoError(t, err)
	require.True(t, *calc.FullCalcOnLoad, "the reader works formulas out anew")
}

// TestStylesAreReadBack: each as it was asked for, the same one once.
func TestStylesAreReadBack(t *testing.T) {
	format := "#,##0.00"
	font := &excelize.Font{Family: "Arial", Size: 10}
	for _, c := range []struct {
		asked Style
		want  excelize.Style
	}{
		{Style{Font: "Arial", Size: 10}, excelize.Style{Font: font}},
		{Style{Font: "Arial", Size: 9.5, Bold: true, Colour: "595F5C"}, excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 9.5, Bold: true, Color: "595F5C"}}},
		{Style{Font: "Arial", Size: 10, Fill: "EDF1EE"}, excelize.Style{Font: font, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"EDF1EE"}}}},
		{
			Style{Font: "Arial", Size: 10, Top: Line{"thin", "000000"}, Bottom: Line{"medium", "C4CBC6"}},
			excelize.Style{Font: font, Border: []excelize.Border{{Type: "top", Color: "000000", Style: 1}, {Type: "bottom", Color: "C4CBC6", Style: 2}}},
		},
		{
			Style{Font: "Arial", Size: 10, Horizontal: "left", Vertical: "top", Wrap: true, Indent: 1},
			excelize.Style{Font: font, Alignment: &excelize.Alignment{Horizontal: "left", Vertical: "top", WrapText: true, Indent: 1}},
		},
		{Style{Font: "Arial", Size: 10, Format: format}, excelize.Style{Font: font, CustomNumFmt: &format}},
	} {
		var b Book
		first := b.Style(Style{Font: "Courier", Size: 8, Format: "0.0"})
		id := b.Style(c.asked)
		require.Equal(t, id, b.Style(c.asked))
		require.NotEqual(t, first, id)
		b.Add("x").Row(1, 15, Cell{Style: id, Value: 1234.5})
		f := opened(t, &b)
		at, err := f.GetCellStyle("x", "A1")
		require.NoError(t, err)
		got, err := f.GetStyle(at)
		require.NoError(t, err)
		if c.want.Fill.Type == "" {
			c.want.Fill.Type = "pattern"
		}
		if format := c.want.CustomNumFmt; format != nil {
			c.want.DecimalPlaces = got.DecimalPlaces // which the library counts
			shown, err := f.GetCellValue("x", "A1")
			require.NoError(t, err)
			require.Equal(t, "1,234.50", shown)
		}
		require.Equal(t, c.want, *got)
	}
}

// TestSheetsAreSetUp reads back what lies about the cells.
func TestSheetsAreSetUp(t *testing.T) {
	var b Book
	s := b.Add("it's one")
	s.Paper, s.Side, s.Edge, s.Footer = 9, 0.45, 0.6, "&Lone & <two>&R&P / &N"
	s.Widths = []float64{7.25, 30}
	s.FrozenRows, s.FrozenColumns, s.Repeated = 2, 1, 2
	s.Row(1, 22, Cell{Value: "a"}, Cell{Value: "b"})
	s.Row(3, 409, Cell{Value: "c"})
	s.Merge(3, 1, 28)
	b.Add("two")
	f := opened(t, &b)
	require.Equal(t, []string{"it's one", "two"}, f.GetSheetList())
	require.Equal(t, []excelize.DefinedName{{Name: "_xlnm.Print_Titles", RefersTo: "'it''s one'!$1:$2", Scope: "it's one"}}, f.GetDefinedName())
	layout, err := f.GetPageLayout("it's one")
	require.NoError(t, err)
	require.Equal(t, []any{9, "landscape", 1, 0}, []any{*layout.Size, *layout.Orientation, *layout.FitToWidth, *layout.FitToHeight})
	props, err := f.GetSheetProps("it's one")
	require.NoError(t, err)
	require.True(t, *props.FitToPage)
	margins, err := f.GetPageMargins("it's one")
	require.NoError(t, err)
	require.Equal(t, []float64{0.45, 0.45, 0.6, 0.6}, []float64{*margins.Left, *margins.Right, *margins.Top, *margins.Bottom})
	require.Equal(t, 0.3, *margins.Footer, "within what printers print")
	footer, err := f.GetHeaderFooter("it's one")
	require.NoError(t, err)
	require.Equal(t, s.Footer, footer.OddFooter)
	for column, want := range map[string]float64{"A": 7.25, "B": 30} {
		got, err := f.GetColWidth("it's one", column)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	for row, want := range map[int]float64{1: 22, 2: 15, 3: 409} {
		got, err := f.GetRowHeight("it's one", row)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	merged, err := f.GetMergeCells("it's one")
	require.NoError(t, err)
	require.Len(t, merged, 1)
	require.Equal(t, "A3:AB3", merged[0][0])
	for _, c := range []struct {
		rows, columns int
		first, moves  string
	}{{2, 1, "B3", "bottomRight"}, {2, 0, "A3", "bottomLeft"}, {0, 1, "B1", "topRight"}} {
		s.FrozenRows, s.FrozenColumns = c.rows, c.columns
		panes, err := opened(t, &b).GetPanes("it's one")
		require.NoError(t, err)
		require.Equal(t, excelize.Panes{Freeze: true, XSplit: c.columns, YSplit: c.rows, TopLeftCell: c.first, ActivePane: c.moves}, panes)
	}
	panes, err := f.GetPanes("two")
	require.NoError(t, err)
	require.False(t, panes.Freeze)
}

func TestCellsAreNamed(t *testing.T) {
	for _, column := range []int{1, 2, 25, 26, 27, 28, 52, 53, 701, 702, 703, 16384} {
		want, err := excelize.CoordinatesToCellName(column, 7)
		require.NoError(t, err)
		require.Equal(t, want, At(column, 7))
	}
}

// TestNamesOfSheets: every name is one that spreadsheets take, and none comes twice.
func TestNamesOfSheets(t *testing.T) {
	var b Book
	asked := append([]string{"", "", "'", "plan", "PLAN", "History", "_x002F_", "a\x01", "a\x02", "a\xff", `[x]:*?/\'`}, strings.Repeat("𝛀", 40), strings.Repeat("𝛀", 41))
	for in := range hostile() {
		asked = append(asked, in)
	}
	for _, in := range asked {
		b.Add(in)
	}
	seen := map[string]bool{}
	for _, name := range opened(t, &b).GetSheetList() {
		require.False(t, seen[strings.ToLower(name)], "%q twice", name)
		seen[strings.ToLower(name)] = true
		require.NotEmpty(t, name)
		require.LessOrEqual(t, len(utf16.Encode([]rune(name))), 31)
		require.NotRegexp(t, `[\[\]:*?/\\[:cntrl:]]|^'|'$|_x.{4}_|^(?i)history$`, name)
	}
	require.Len(t, seen, len(asked))
}

func TestASheetThatIsTooLongIsRefused(t *testing.T) {
	var b Book
	b.Add("long").Row(mostRows, 15)
	require.NoError(t, b.Write(io.Discard))
	b.Add("longer").Row(mostRows+1, 15)
	require.ErrorContains(t, b.Write(io.Discard), `"longer" has 1048577 rows`)
}

// full takes a few bytes and then no more.
type full struct{ room int }

func (f *full) Write(b []byte) (int, error) {
	if f.room -= len(b); f.room < 0 {
		return 0, errors.New("full")
	}
	return len(b), nil
}

func TestAFullDiskIsReported(t *testing.T) {
	var b Book
	b.Add("x").Row(1, 15, Cell{Value: "words"})
	for _, room := range []int{0, 100, 1000, len(written(t, &b)) - 1} {
		require.Error(t, b.Write(&full{room}), room)
	}
}

// TestPartsBelongTogether: every part is sound XML of a kind that the list names, and
// every relationship leads to one.
func TestPartsBelongTogether(t *testing.T) {
	b := Book{Title: "a & b"}
	for in := range hostile() {
		s := b.Add(in)
		s.Repeated, s.Footer = 1, in
		s.Row(1, 15, Cell{Value: in, Style: b.Style(Style{Font: in, Size: 10, Format: in, Fill: "EDF1EE", Colour: "595F5C", Top: Line{"thin", "000000"}})})
	}
	raw := written(t, &b)
	require.True(t, bytes.Equal(raw, written(t, &b)), "the same bytes again")
	z, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	require.Equal(t, "[Content_Types].xml", z.File[0].Name, "first, as readers of streams want it")
	kinds, targets := map[string]bool{}, map[string]bool{}
	for _, part := range z.File {
		require.True(t, part.Modified.Year() < 1981, "no clock: %s", part.Modified)
		in, err := part.Open()
		require.NoError(t, err)
		d := xml.NewDecoder(in)
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, part.Name)
			tag, is := token.(xml.StartElement)
			seen := map[string]bool{}
			if is && tag.Name.Local == "t" {
				require.Len(t, tag.Attr, 1, "spaces at the ends of words are kept")
				require.Equal(t, "preserve", tag.Attr[0].Value)
			}
			for _, a := range tag.Attr {
				require.False(t, seen[a.Name.Local], "%s: %s twice", part.Name, a.Name.Local)
				seen[a.Name.Local] = true
				switch {
				case a.Name.Local == "rgb":
					require.Regexp(t, "^[0-9A-F]{8}$", a.Value)
				case is && tag.Name.Local == "Override" && a.Name.Local == "PartName":
					kinds[strings.TrimPrefix(a.Value, "/")] = true
				case is && tag.Name.Local == "Relationship" && a.Name.Local == "Target":
					targets[path.Join(path.Dir(path.Dir(part.Name)), a.Value)] = true
				}
			}
		}
	}
	for _, part := range z.File {
		if part.Name == "[Content_Types].xml" || path.Ext(part.Name) == ".rels" {
			continue
		}
		require.True(t, kinds[part.Name], "%s is of some kind", part.Name)
		require.True(t, targets[part.Name], "something leads to %s", part.Name)
		delete(kinds, part.Name)
		delete(targets, part.Name)
	}
	require.Empty(t, kinds)
	require.Empty(t, targets)
}
