package cec

import (
	"strings"

	"branchwork/loads/steps"
)

// ref is the key of the standard in references.toml.
const ref = "csa-c22-1"

// edition is one edition with what it does differently from the others.
type edition struct {
	year    string
	outlets string // column of the table of outlet counts
}

// editions lists the editions carried, oldest first. Another edition is another
// line here and its rows in the tables.
func editions() []edition {
	return []edition{{year: "2024", outlets: "since 2021"}}
}

// How clauses and values were checked.
const (
	seen     = steps.Seen
	recalled = steps.Recalled
)

// cite returns a clause of the edition whose substance was checked that way: a
// rule by its number, or a table, a diagram or a section by name.
func (e edition) cite(at string, how steps.How) steps.Cite {
	switch {
	case at[0] > '9':
	case strings.Contains(at, ", "):
		at = "Rules " + at
	default:
		at = "Rule " + at
	}
	return steps.Cite{Ref: ref, Edition: e.year, At: at, How: how}
}

// marking is the cite of what is read off equipment. The Canadian clauses that
// make its maker's marking and instructions binding are not held.
func marking() steps.Cite { return steps.Cite{Ref: "marking", How: steps.Practice} }
