package checks

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

// SmallConductor asks of sizes that have a limit, and not where a nameplate or a
// motor sets the device.
func SmallConductor(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	size, material := codes.Of[string](f, codes.WireSize), codes.Of[string](f, codes.WireMaterial)
	limit, _, ok := f.Book().Wires.SmallLimit(material, size)
	if !ok && f.Has(codes.WireSize) && f.Has(codes.WireMaterial) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), limit, "A")
	has, most := v.Figures()
	return v.Saying(fmt.Sprintf("have a licensed electrician fit a breaker of %s, or a larger conductor for %s; until then use nothing on it", most, has),
		"its breaker is rated %s, %s %s allows %s at most", has, size, material, most)
}
