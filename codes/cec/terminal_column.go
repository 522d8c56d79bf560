package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func terminalColumn() codes.Rule {
	return codes.Rule{
		ID:    "terminal-column",
		Title: "ampacity is read from a column that the terminations are made for",
		Why: "A conductor rated for 90 C may run hotter than the terminals it ends in can stand. Equipment is marked for 60 or " +
			"75 C; where it is not marked, small equipment counts as 60 C. The 90 C column serves as the start of corrections only.",
		Clauses:  clauses("4-006", recalled),
		Severity: codes.Violation,
		Subject:  codes.OfSite,
		Key:      "terminals",
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checkTerminalColumn,
	}
}

// checkTerminalColumn asks where the file states the rating of terminations;
// where it does not, the columns for unmarked equipment are taken.
func checkTerminalColumn(f *codes.Facts) codes.Verdict {
	given, stated := codes.Get[units.Temperature](f, codes.Terminals)
	if !stated {
		return codes.NotConcerned()
	}
	high := f.Book().Wires.HighColumn
	v := codes.Within(given, high, "C")
	return v.Saying("write "+codes.Column(high)+" where both ends are marked for it, or leave `terminals` out",
		"terminations of %s are stated; equipment is marked for %s at most", given, high)
}
