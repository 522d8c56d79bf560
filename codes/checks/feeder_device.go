package checks

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

// FeederDevice compares the current that a panel needs with the feeder's breaker.
func FeederDevice(f *codes.Facts) codes.Verdict {
	v := codes.Within(codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.BreakerAmps), "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("take %s off the panel, or have a licensed electrician plan a feeder for %s, conductors and device together",
		units.Current(v.Actual.Value-v.Limit.Value), needs), "the panel needs %s, the feeder's breaker is rated %s", needs, has)
}
