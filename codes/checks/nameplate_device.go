package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// NameplateDevice asks of equipment that is marked with a maximum device.
func NameplateDevice(f *codes.Facts) codes.Verdict {
	most, marked := codes.Get[units.Current](f, codes.MaxDevice)
	if !marked {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), most, "A")
	has, limit := v.Figures()
	return v.Saying("have a licensed electrician fit a breaker of "+limit+" or smaller", "its breaker is rated %s, its nameplate allows %s at most", has, limit)
}
