package nec

import (
	"fmt"
	"math"

	"branchwork/codes"
	"branchwork/loads/units"
)

func linkChain() codes.Rule {
	return codes.Rule{
		ID:    "link-chain",
		Title: "a chain of linked fixtures is within the rating of its first inlet and within its maker's count",
		Why: "The first inlet and jumper of a chain carry all of it, and the breaker, which is larger, does not protect them. " +
			"At half the voltage a chain draws twice the current. The maker's count governs even where the sum allows more.",
		Clauses:  instructions(),
		Severity: codes.Violation,
		Untold:   codes.Warning,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.Linked, codes.LinkRating, codes.LinkUnits, codes.UnitCount, codes.UnitAmps, codes.IsContinuous, codes.Volts},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.AskMaker, codes.HigherVoltage},
		Check:    checkLinkChain,
	}
}

// checkLinkChain asks of fixtures that are linked:
//
//	units · I <= rating · 0.8    0.8 for continuous load only
//	units     <= the maker's count
//
// and answers with the one that is used more. Within the first, a count that is
// not given leaves the rule open. A chain is no longer than what its circuit
// feeds.
func checkLinkChain(f *codes.Facts) codes.Verdict {
	if f.No(codes.Linked) {
		return codes.NotConcerned()
	}
	n, each := min(codes.Of[int](f, codes.LinkUnits), codes.Of[int](f, codes.UnitCount)), codes.Of[units.Current](f, codes.UnitAmps)
	rating := codes.Of[units.Current](f, codes.LinkRating)
	may := rating
	if f.Yes(codes.IsContinuous) {
		may = units.Times(rating, 1/f.Book().Continuous.Factor())
	}
	v := codes.Within(units.Times(each, float64(n)), may, "A")
	most, counted := codes.Get[int](f, codes.LinkMost)
	fits := most
	if each > 0 && (!counted || float64(most) > float64(may)/float64(each)) {
		fits = int(math.Floor(float64(may)/float64(each) + 1e-9))
	}
	remedy := fmt.Sprintf("feed them in chains of at most %d", fits)
	if fits <= 1 {
		remedy = "feed each by itself, not through another"
	}
	draws, allowed := v.Figures()
	v = v.Saying(remedy, "a chain of %d draws %s at %s through an inlet rated %s, which may carry %s", n, draws, codes.Of[units.Voltage](f, codes.Volts), rating, allowed)
	byCount := codes.Within(float64(n), float64(most), "units").Saying(remedy, "%d are chained, their maker allows %d", n, most)
	a, _ := v.Share()
	switch b, _ := byCount.Share(); {
	case counted && (b > a || byCount.State == codes.Broken && v.State != codes.Broken):
		return byCount
	case !counted && v.State == codes.Holds:
		return codes.Unsettled("", "", codes.LinkMost)
	}
	return v
}
