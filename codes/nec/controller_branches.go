package nec

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
		Clauses:  always("Table 210.21(B)(3)"),
		Severity: codes.Warning,
		Subject:  codes.OfControl,
		Key:      "feed",
		Needs:    []codes.Fact{codes.FeedRating, codes.OutletRating},
		Remedies: []codes.Remedy{codes.AskMaker, codes.AskOnSite, codes.AnotherControl},
		Check:    checkControllerBranches,
	}
}

// checkControllerBranches compares the supply with the largest circuit that the
// outlets may stand on. Above it the file cannot tell what is inside the box.
func checkControllerBranches(f *codes.Facts) codes.Verdict {
	if checks.Relay(f) {
		return codes.NotConcerned()
	}
	outlet, feed := codes.Of[units.Current](f, codes.OutletRating), codes.Of[units.Current](f, codes.FeedRating)
	var most units.Current
	for _, circuit := range f.Book().Branch.Ratings {
		for _, r := range receptaclesOn(circuit) {
			if r == outlet {
				most = circuit
			}
		}
	}
	v := codes.Within(feed, max(most, outlet), "A")
	if v.State == codes.Broken && f.Has(codes.OutletRating) {
		v.State, v.Missing = codes.CannotTell, []codes.Fact{codes.InnerDevices}
		v.Says = fmt.Sprintf("its supply is rated %s and its outlets %s, which stand behind %s at most; whether the box protects them is not told", feed, outlet, max(most, outlet))
		v.Remedy = "look for breakers or fuses in the box and for its listing mark, or ask the maker; without them use boxes with a supply of " + max(most, outlet).String()
	}
	return v
}
