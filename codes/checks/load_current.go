package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// LoadCurrent holds wherever there is a current; what it is worth is the other
// rules' question.
func LoadCurrent(f *codes.Facts) codes.Verdict {
	return codes.Whether(codes.Of[units.Current](f, codes.UnitAmps) > 0)
}
