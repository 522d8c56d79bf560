package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/loads/units"
)

func controllerBranches() codes.Rule {
	return codes.Rule{
		ID:    "controller-branches",
		Title: "the outlets of a controller stand behind overcurrent protection of their own rating",
		Why: "A box with a 50 A supply and bare 15 A outlets lets an outlet burn while its supply is content. Boxes made for it " +
			"have a breaker or fuse for each group of outlets; from outside they look alike.",
		Clauses:  clauses("26-700", seen),
		Severity: codes.Warning,
		Subject:  codes.OfControl,
		Key:      "feed",
		Needs:    []codes.Fact{codes.FeedRating, codes.OutletRating},
		Remedies: []codes.Remedy{codes.AskMaker, codes.AskOnSite, codes.AnotherControl},
		Check:    checkControllerBranches,
	}
}

// checkControllerBranches compares the supply with the outlets, which have the
// rating of their circuit. Above it the file cannot tell what is inside the box.
func checkControllerBranches(f *codes.Facts) codes.Verdict {
	if checks.Relay(f) {
		return codes.NotConcerned()
	}
	outlet, feed := codes.Of[units.Current](f, codes.OutletRating), codes.Of[units.Current](f, codes.FeedRating)
	v := codes.Within(feed, outlet, "A")
	if v.State == codes.Broken && f.Has(codes.OutletRating) {
		v.State, v.Missing = codes.CannotTell, []codes.Fact{codes.InnerDevices}
		v.Says = fmt.Sprintf("its supply is rated %s and its outlets %s; whether the box protects them is not told", feed, outlet)
		v.Remedy = "look for breakers or fuses in the box and for its certification mark, or ask the maker; without them use boxes with a supply of " + outlet.String()
	}
	return v
}
