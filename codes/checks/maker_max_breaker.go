package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// MakerMaxBreaker asks of equipment that is marked; whether equipment that is not
// may stand behind the breaker is the other rules' question, and what protects
// equipment behind a controller is controller-branches'.
func MakerMaxBreaker(f *codes.Facts) codes.Verdict {
	most, marked := codes.Get[units.Current](f, codes.MakerBreaker)
	if !marked || f.Yes(codes.BehindBox) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), most, "A")
	has, limit := v.Figures()
	return v.Saying("feed it from a circuit of "+limit+" or less", "its breaker is rated %s, its maker allows %s at most", has, limit)
}
