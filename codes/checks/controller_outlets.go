package checks

import (
	"fmt"

	"branchwork/codes"
)

// ControllerOutlets asks of controllers with outlets. One of which neither
// outlets nor a supply are given is a relay that switches circuits.
func ControllerOutlets(f *codes.Facts) codes.Verdict {
	if Relay(f) {
		return codes.NotConcerned()
	}
	used, have := codes.Of[int](f, codes.OutletsUsed), codes.Of[int](f, codes.Outlets)
	return codes.Within(float64(used), float64(have), "outlets").Saying(fmt.Sprintf("add a controller for %d units, or move them to another one", used-have),
		"it switches %d units and has %d outlets", used, have)
}

// Relay reports whether nothing says that a controller has outlets of its own:
// such a one switches ordinary circuits, which are judged as circuits.
func Relay(f *codes.Facts) bool {
	return !f.Has(codes.Outlets) && !f.Has(codes.FeedRating) && !f.Has(codes.OutletRating)
}
