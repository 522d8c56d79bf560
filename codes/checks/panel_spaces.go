package checks

import (
	"fmt"

	"branchwork/codes"
)

// PanelSpaces compares the spaces that circuits need with those of the panel.
func PanelSpaces(f *codes.Facts) codes.Verdict {
	if f.No(codes.HasCircuits) {
		return codes.NotConcerned()
	}
	need, have := codes.Of[int](f, codes.SpacesUsed), codes.Of[int](f, codes.Spaces)
	return codes.Within(float64(need), float64(have), "spaces").Saying(
		fmt.Sprintf("add a sub-panel of at least %d spaces, fed by a breaker that takes two or three more here, or supply more units per circuit at a higher voltage", need-have+2),
		"its circuits need %d spaces and it has %d: %d are missing", need, have, need-have)
}
