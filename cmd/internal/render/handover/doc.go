// Package handover lays a report out as sections of blocks: tables, fields,
// lists, drawings, in the order in which its readers need them. It holds the
// words, the rounding, the links and the unit system that the page, Markdown, CSV
// and the workbook have in common; each of those adds only its own layout and its
// own way of keeping names from the file harmless. A table that is added here is
// in all of them.
//
// Nothing is computed here. Every figure carries the place in the report that it
// was read from, so that a test can read any form back and compare. Where a figure
// follows from others of its table, a formula says how, for forms that calculate.
// What would not print is shown.
package handover
