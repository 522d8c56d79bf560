package checks

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

// PanelMain asks of panels whose demand is calculated, and compares what the
// fullest leg asks for with the main. A panel that rests on a measured peak is the
// measured-peak rule's, and one without a main that a feeder breaker protects is
// feeder-device's. Demand factors of households are never applied.
func PanelMain(f *codes.Facts) codes.Verdict {
	if f.No(codes.HasCircuits) || f.Has(codes.PeakAmps) || f.Yes(codes.FeederIsMain) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.MainAmps), "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("take %s off the fullest leg (fewer units, a second light period behind an interlock), or have a licensed electrician and the utility plan a service for %s",
		units.Current(v.Actual.Value-v.Limit.Value), needs),
		"its fullest leg needs %s, its %s is rated %s", needs, codes.Of[string](f, codes.MainIs), has)
}
