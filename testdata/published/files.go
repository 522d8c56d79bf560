// Package files carries the published cases, and what the tests computed beside
// them, into the program: the page of evidence is printed from the same bytes
// that the tests read.
package files

import "embed"

// Files holds the cases (*.toml), the figures that our tests computed for them
// (measured/*.csv) and the comparisons with reference tools (compared/*.csv).
//
//go:embed *.toml measured/*.csv compared/*.csv
var Files embed.FS
