package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// TransformerCapacity asks where a transformer stands before the panel. Its
// load is operating load: a transformer is rated for continuous operation.
func TransformerCapacity(f *codes.Facts) codes.Verdict {
	rating, there := codes.Get[units.Apparent](f, codes.TransformerVA)
	if !there {
		return codes.NotConcerned()
	}
	v := codes.Within(float64(codes.Of[units.Apparent](f, codes.ThroughVA))/1000, float64(rating)/1000, "kVA")
	needs, has := v.Figures()
	return v.Saying("balance the panel's legs or take "+units.Round(v.Actual.Value-v.Limit.Value, 2)+" kVA off it, or have a transformer of at least "+needs+" planned",
		"the panel's fullest leg asks for %s in all, the transformer is rated %s", needs, has)
}
