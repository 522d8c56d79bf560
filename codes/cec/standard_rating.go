package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func standardRating() codes.Rule {
	return codes.Rule{
		ID:    "standard-rating",
		Title: "the breaker has a rating of the code's table",
		Why: "A rating that is not in the list is most often a misread handle or a typing error, and everything judged from it is " +
			"wrong with it.",
		Clauses:  clauses("Table 13", recalled),
		Severity: codes.Warning,
		Subject:  codes.OfCircuit,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.AskOnSite, codes.CompleteFile},
		Check:    checkStandardRating,
	}
}

func checkStandardRating(f *codes.Facts) codes.Verdict {
	d := f.Book().Devices
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	v := codes.Whether(d.Standard(breaker))
	v.Actual = units.Any{Value: float64(breaker), Unit: "A"}
	near := ""
	if down, ok := d.Down(breaker); ok {
		near = fmt.Sprintf("%s and ", down)
	}
	if up, ok := d.Next(breaker); ok {
		near += up.String()
	}
	return v.Saying("read the rating on the handle again", "its breaker is given as %s; the ratings beside it are %s", breaker, near)
}
