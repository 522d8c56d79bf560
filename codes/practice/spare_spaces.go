package practice

import (
	"fmt"
	"math"

	"branchwork/codes"
)

func spareSpaces() codes.Rule {
	return codes.Rule{
		ID:       "spare-spaces",
		Title:    "a fifth of the panel's spaces stays free",
		Why:      "Something is always added. A panel filled to its last space forces the next circuit onto one that is full already.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Advice,
		Subject:  codes.OfPanel,
		Key:      "spaces",
		Needs:    []codes.Fact{codes.SpacesUsed, codes.Spaces},
		Remedies: []codes.Remedy{codes.AddPanel, codes.LargerPanel},
		Check:    checkSpareSpaces,
	}
}

// spareShare is the share of spaces that good practice keeps free.
const spareShare = 0.2

// checkSpareSpaces asks where there are enough spaces; where there are not, the
// code's rule says so.
func checkSpareSpaces(f *codes.Facts) codes.Verdict {
	used, have := codes.Of[int](f, codes.SpacesUsed), codes.Of[int](f, codes.Spaces)
	if f.Has(codes.Spaces) && f.Has(codes.SpacesUsed) && used > have {
		return codes.NotConcerned()
	}
	v := codes.Within(float64(used), math.Floor((1-spareShare)*float64(have)+1e-9), "spaces")
	return v.Saying(fmt.Sprintf("choose a panel of at least %d spaces", int(math.Ceil(float64(used)/(1-spareShare)))),
		"%d of %d spaces are taken; %d would stay free by good practice", used, have, have-int(v.Limit.Value))
}
