package checks

import (
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

// pairsNamed is how many pairs of rooms a finding names before it counts the rest.
const pairsNamed = 4

// NoncoincidentInterlock asks of rooms whose lights are never on together by their
// windows, where nothing keeps them from it.
func NoncoincidentInterlock(f *codes.Facts) codes.Verdict {
	pairs := codes.Of[[]string](f, codes.Alternating)
	list, rest := pairs, ""
	if len(list) > pairsNamed {
		list, rest = list[:pairsNamed], " and "+units.Round(float64(len(pairs)-pairsNamed), 0)+" more pairs"
	}
	return codes.Whether(len(pairs) == 0).Saying(
		"give such rooms one name under `interlock` once a contactor or relay keeps them from being lit together; then the larger counts alone",
		"by their windows the lights of these rooms are never on together, and all are counted: %s%s", strings.Join(list, "; "), rest)
}
