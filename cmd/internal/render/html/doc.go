// Package html prints a report as one page that stands alone: style and drawings
// are inside it, it asks the network for nothing and needs no script.
//
// The page is laid out as sections of blocks (tables, fields, lists, drawings),
// so that a section is words and a choice of figures and one template knows how
// each kind of block looks on a screen, on a narrow screen and on paper.
//
// Nothing is computed here. Every figure that is printed from the document
// carries data-key, the place in the document that it was read from, so that a
// test can read the page back and compare. Text from the file is escaped by the
// template, and what would not print is shown.
//
// The page is well-formed XML as well as HTML.
package html
