package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func controllerContactor() codes.Rule {
	return codes.Rule{
		ID:    "controller-contactor",
		Title: "what flows through a controller's contacts is within their rating",
		Why: "Contacts that carry too much weld shut, and the lights stay on through the night. A rating for resistive load says " +
			"little about electronic drivers, whose inrush is what welds them: the rating for ballasts or drivers counts.",
		Clauses:  instructions(),
		Severity: codes.Violation,
		Untold:   codes.Warning,
		Subject:  codes.OfControl,
		Key:      "contactor",
		Needs:    []codes.Fact{codes.ContactAmps, codes.ContactRating},
		Remedies: []codes.Remedy{codes.AnotherControl, codes.HigherVoltage, codes.AskMaker},
		Check:    checkControllerContactor,
	}
}

// checkControllerContactor compares what flows with the rating. It flows for
// hours, for which such contacts are rated; no allowance is put on it.
func checkControllerContactor(f *codes.Facts) codes.Verdict {
	v := codes.Within(codes.Of[units.Current](f, codes.ContactAmps), codes.Of[units.Current](f, codes.ContactRating), "A")
	draws, has := v.Figures()
	return v.Saying(fmt.Sprintf("move %s of what it switches to a further contactor, or fit one whose contacts are rated for %s of such load",
		units.Current(v.Actual.Value-v.Limit.Value), draws),
		"%s %s through contacts rated %s", codes.Of[string](f, codes.ContactDetail), draws, has)
}
