// Package ooxml writes workbooks as files: the part of Office Open XML (ISO/IEC
// 29500, transitional) that a report needs, which is words, figures, formulas with
// the value worked out, styles, widths and heights, merged cells, frozen panes and
// print set-up.
//
// The same workbook is the same bytes. Words are strings, which no reader takes for
// a formula.
package ooxml
