package nec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func terminalColumn() codes.Rule {
	return codes.Rule{
		ID:    "terminal-column",
		Title: "ampacity is read from a column that the terminations are made for",
		Why: "A conductor rated for 90 C may run hotter than the terminals it ends in can stand. Breakers and receptacles are " +
			"marked for 60 or 75 C, so the 90 C column serves as the start of corrections only.",
		Clauses:  always("110.14(C)(1)"),
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
		"terminations of %s are stated; equipment is marked for %s at most, unless breaker, enclosure and load are listed together for more", given, high)
}
