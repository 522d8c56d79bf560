package ooxml

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Most rows of a sheet, and most UTF-16 units of a cell.
const (
	mostRows  = 1 << 20
	mostWords = 32767
)

// Sheet is a sheet under way. In print it lies across its paper and is fitted to
// the paper's width.
type Sheet struct {
	Name                      string
	Paper                     int     // 1 Letter, 9 A4
	Side, Edge                float64 // margins: left and right, top and bottom; in inches
	Footer                    string  // with the codes of footers: &L, &R, &P
	Widths                    []float64
	FrozenRows, FrozenColumns int
	Repeated                  int // rows at the top of every page
	rows                      bytes.Buffer
	last                      int
	merged                    []string
}

// Cell is what stands in a cell: nothing, a string, or a float64 and the formula that
// it follows from, if any.
type Cell struct {
	Style   int
	Value   any
	Formula string
}

// At names a cell, "C4"; columns and rows count from 1.
func At(column, row int) string {
	letters := ""
	for ; column > 0; column = (column - 1) / 26 {
		letters = string(rune('A'+(column-1)%26)) + letters
	}
	return letters + strconv.Itoa(row)
}

// Row writes a row, of a height in points; rows are written from the top.
func (s *Sheet) Row(row int, height float64, cells ...Cell) {
	s.last = row
	fmt.Fprintf(&s.rows, `<row r="%d" ht="%s" customHeight="1">`, row, number(height))
	for i, c := range cells {
		s.cell(At(i+1, row), c)
	}
	s.rows.WriteString("</row>")
}

// Merge makes one cell of some that lie side by side.
func (s *Sheet) Merge(row, from, to int) {
	s.merged = append(s.merged, At(from, row)+":"+At(to, row))
}

func (s *Sheet) cell(at string, c Cell) {
	fmt.Fprintf(&s.rows, `<c r="%s" s="%d"`, at, c.Style)
	switch x := c.Value.(type) {
	case string:
		s.rows.WriteString(` t="inlineStr"><is><t xml:space="preserve">` + words(x) + "</t></is></c>")
	case float64:
		kind, value := "", number(x)
		if math.IsNaN(x) || math.IsInf(x, 0) {
			kind, value = ` t="e"`, "#NUM!"
		}
		formula := ""
		if c.Formula != "" {
			formula = "<f>" + escaped(c.Formula) + "</f>"
		}
		s.rows.WriteString(kind + ">" + formula + "<v>" + value + "</v></c>")
	default:
		s.rows.WriteString("/>")
	}
}

func (s *Sheet) write(w io.Writer) error {
	var b bytes.Buffer
	b.WriteString(declaration + `<worksheet xmlns="` + main + `"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><sheetViews><sheetView workbookViewId="0">` +
		s.pane() + `</sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols>`)
	for i, w := range s.Widths {
		fmt.Fprintf(&b, `<col min="%d" max="%d" width="%s" customWidth="1"/>`, i+1, i+1, number(w))
	}
	b.WriteString("</cols><sheetData>")
	if _, err := w.Write(b.Bytes()); err != nil {
		return err
	}
	if _, err := w.Write(s.rows.Bytes()); err != nil {
		return err
	}
	b.Reset()
	b.WriteString("</sheetData>")
	if len(s.merged) > 0 {
		fmt.Fprintf(&b, `<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`, len(s.merged), strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	fmt.Fprintf(&b, `<pageMargins left="%s" right="%s" top="%s" bottom="%s" header="0.3" footer="0.3"/>`, number(s.Side), number(s.Side), number(s.Edge), number(s.Edge))
	fmt.Fprintf(&b, `<pageSetup paperSize="%d" fitToWidth="1" fitToHeight="0" orientation="landscape"/><headerFooter><oddFooter>%s</oddFooter></headerFooter></worksheet>`, s.Paper, escaped(s.Footer))
	_, err := w.Write(b.Bytes())
	return err
}

// pane keeps the first rows and columns in sight.
func (s *Sheet) pane() string {
	rows, columns, moves := s.FrozenRows, s.FrozenColumns, "bottomRight"
	switch {
	case rows == 0 && columns == 0:
		return ""
	case columns == 0:
		moves = "bottomLeft"
	case rows == 0:
		moves = "topRight"
	}
	return fmt.Sprintf(`<pane xSplit="%d" ySplit="%d" topLeftCell="%s" activePane="%s" state="frozen"/>`, columns, rows, At(columns+1, rows+1), moves)
}
