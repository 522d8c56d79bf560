package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func panelBus() codes.Rule {
	return codes.Rule{
		ID:    "panel-bus",
		Title: "the device ahead of the panel protects its bus",
		Why: "The bus carries everything at once. A main or feeder breaker above its rating lets it glow, and bolted joints " +
			"loosen with the heat.",
		Clauses:  marked(),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "bus",
		Needs:    []codes.Fact{codes.AheadAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker, codes.LargerPanel},
		Check:    checkPanelBus,
	}
}

// checkPanelBus asks where the file gives a bus rating; where it does not, the
// bus is taken to be rated as the main.
func checkPanelBus(f *codes.Facts) codes.Verdict {
	bus, given := codes.Get[units.Current](f, codes.BusAmps)
	if !given {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.AheadAmps), bus, "A")
	has, most := v.Figures()
	return v.Saying("protect the panel at "+most+" or less, or have it replaced by one rated "+has,
		"it is protected at %s, its bus is rated %s", has, most)
}
