// Package xlsx prints a report as a workbook: a sheet for each schedule and for
// each panel's directory, figures as numbers with their number formats, totals as
// formulas.
//
// Words are written as strings, which no reader takes for a formula. Each sheet is
// fitted to the width of its paper, and headings are repeated on every page.
package xlsx
