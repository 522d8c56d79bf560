package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// NameplateConductor asks of equipment that is marked. No further allowance
// is put on the marked ampacity.
func NameplateConductor(f *codes.Facts) codes.Verdict {
	mca, marked := codes.Get[units.Current](f, codes.MinCircuit)
	if !marked {
		return codes.NotConcerned()
	}
	v := codes.Within(mca, codes.Of[units.Current](f, codes.WireAmps), "A")
	needs, has := v.Figures()
	return v.Saying("have a licensed electrician run a conductor of at least "+needs, "its nameplate asks for %s, the conductor carries %s", needs, has)
}
