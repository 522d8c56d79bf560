package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// PanelBus asks where the file gives a bus rating; where it does not, the
// bus is taken to be rated as the main.
func PanelBus(f *codes.Facts) codes.Verdict {
	bus, given := codes.Get[units.Current](f, codes.BusAmps)
	if !given {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.AheadAmps), bus, "A")
	has, most := v.Figures()
	return v.Saying("protect the panel at "+most+" or less, or have it replaced by one rated "+has,
		"it is protected at %s, its bus is rated %s", has, most)
}
