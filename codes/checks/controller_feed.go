package checks

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

// ControllerFeed compares what all of a controller's boxes switch, in amperes, with
// the rating of their supplies.
func ControllerFeed(f *codes.Facts) codes.Verdict {
	if Relay(f) {
		return codes.NotConcerned()
	}
	boxes := max(1, codes.Of[int](f, codes.UnitCount))
	rating := units.Times(codes.Of[units.Current](f, codes.FeedRating), float64(boxes))
	v := codes.Within(codes.Of[units.Current](f, codes.FeedDemand), rating, "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("move %s of what it switches to a further controller", units.Current(v.Actual.Value-v.Limit.Value)),
		"what it switches needs %s, its supply is rated %s", needs, has)
}
