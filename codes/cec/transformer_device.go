package cec

import "branchwork/codes"

func transformerDevice() codes.Rule {
	return codes.Rule{
		ID:    "transformer-device",
		Title: "the breaker ahead of a transformer protects its primary",
		Why: "A transformer that is overloaded or shorted inside heats slowly. Only a device close to its rated current opens " +
			"before the windings burn. Which device the Canadian code allows is not held here, so a plan cannot tell.",
		Clauses:  clauses("Section 26", recalled),
		Severity: codes.Warning,
		Subject:  codes.OfFeeder,
		Key:      "transformer",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.AskOnSite},
		Check:    checkTransformerDevice,
	}
}

const firstDevice codes.Fact = "which overcurrent device Section 26 allows ahead of its transformer"

// checkTransformerDevice never holds: nothing is held that it could be compared with.
func checkTransformerDevice(f *codes.Facts) codes.Verdict {
	if !f.Has(codes.TransformerVA) {
		return codes.NotConcerned()
	}
	return codes.Unsettled("this profile does not hold which device may stand ahead of a transformer",
		"have a licensed electrician choose the device and the conductors of the transformer's primary and secondary", firstDevice)
}
