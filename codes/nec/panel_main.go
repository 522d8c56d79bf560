package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func panelMain() codes.Rule {
	return codes.Rule{
		ID:    "panel-main",
		Title: "the panel's main covers its fullest leg, continuous load with its allowance",
		Why: "Grow lighting runs all at once and for hours, so no diversity helps: what the circuits add up to flows through the " +
			"main every day. An overloaded main trips in the middle of the light period, or ages until it does not trip at all.",
		Clauses:  always("215.3, 230.42(A)(1), 230.79, 408.30"),
		Severity: codes.Violation,
		Subject:  codes.OfPanel,
		Key:      "main",
		Needs:    []codes.Fact{codes.MainAmps, codes.RequiredAmps, codes.HasCircuits, codes.FeederIsMain},
		Remedies: []codes.Remedy{codes.ReduceLoad, codes.HigherVoltage, codes.Interlock, codes.LargerPanel},
		Check:    checkPanelMain,
	}
}

// checkPanelMain asks of panels whose demand is calculated; one that rests on a
// measured peak is the measured-peak rule's, and one without a main that a feeder
// breaker protects is feeder-device's. Demand factors of households are
// never applied.
func checkPanelMain(f *codes.Facts) codes.Verdict {
	if f.No(codes.HasCircuits) || f.Has(codes.PeakAmps) || f.Yes(codes.FeederIsMain) {
		return codes.NotConcerned()
	}
	return mainCovers(f)
}

// mainCovers compares what the fullest leg asks for with the main.
func mainCovers(f *codes.Facts) codes.Verdict {
	v := codes.Within(codes.Of[units.Current](f, codes.RequiredAmps), codes.Of[units.Current](f, codes.MainAmps), "A")
	needs, has := v.Figures()
	return v.Saying(fmt.Sprintf("take %s off the fullest leg (fewer units, a second light period behind an interlock), or have a licensed electrician and the utility plan a service for %s",
		units.Current(v.Actual.Value-v.Limit.Value), needs),
		"its fullest leg needs %s, its %s is rated %s", needs, codes.Of[string](f, codes.MainIs), has)
}
