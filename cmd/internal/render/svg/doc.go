// Package svg draws a report: the one-line diagram, the floor plans and the
// charts of the day. It computes no figure: it turns those of the document into
// places on paper.
//
// A drawing is an <svg> element for use inside a page. It refers to nothing
// outside itself, has a title and a description for those who cannot see it, and
// takes its colours from classes (see Style). Nothing is told by colour alone:
// every circuit has a hatch and a label, every line of a chart a dash and a word.
//
// Electrical symbols are those of IEC 60617 as one-line diagrams use them. Colours
// are a published set that people with colour-blindness can tell apart (Okabe and
// Ito, "Color Universal Design").
//
// Text from the document is raw; everything that is written goes through one
// escaping function.
package svg
