// Package html prints a report as one page that stands alone: style and drawings
// are inside it, it asks the network for nothing and needs no script.
//
// One template knows how each kind of block looks on a screen, on a narrow screen
// and on paper. Every figure carries data-key, the place in the report that it was
// read from, so that a test can read the page back and compare. Text from the file
// is escaped by the template.
//
// The page is well-formed XML as well as HTML.
package html
