package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func transformerDevice() codes.Rule {
	return codes.Rule{
		ID:    "transformer-device",
		Title: "the breaker ahead of a transformer protects its primary",
		Why: "A transformer that is overloaded or shorted inside heats slowly. Only a device close to its rated current opens " +
			"before the windings burn.",
		Clauses:  recalled("Table 450.3(B)"),
		Severity: codes.Violation,
		Subject:  codes.OfFeeder,
		Key:      "feeder",
		Needs:    []codes.Fact{codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.SmallerBreaker},
		Check:    checkTransformerDevice,
	}
}

// withSecondary is the most of rated primary current that a primary device may be
// where the secondary is protected at its own rating. From memory.
const withSecondary = 2.5

// checkTransformerDevice asks where a transformer stands in a feeder. The primary
// device is 125 % of rated primary current, the next standard rating up allowed;
// 250 % where a main protects the secondary within 125 % of its rated current.
func checkTransformerDevice(f *codes.Facts) codes.Verdict {
	primary, there := codes.Get[units.Current](f, codes.RatedPrimary)
	if !there {
		return codes.NotConcerned()
	}
	p := f.Book()
	limit, share := upFrom(p, units.Times(primary, float64(p.Transformers.Primary))), float64(p.Transformers.Primary)
	secondary, main := codes.Of[units.Current](f, codes.RatedSecondary), codes.Of[units.Current](f, codes.MainAmps)
	if f.Has(codes.MainAmps) && !units.Exceeds(main, upFrom(p, units.Times(secondary, float64(p.Transformers.Primary)))) {
		limit, share = max(limit, units.Times(primary, withSecondary)), withSecondary
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), limit, "A")
	has, most := v.Figures()
	fits := limit
	if down, ok := p.Devices.Down(limit); ok {
		fits = down
	}
	return v.Saying(fmt.Sprintf("fit a breaker of %s or smaller ahead of the transformer", fits),
		"its breaker is rated %s; %s %% of the transformer's %s rated primary current allows %s", has, units.Round(100*share, 0), primary, most)
}

// upFrom returns the next standard rating at or above a current.
func upFrom(p *codes.Profile, i units.Current) units.Current {
	if next, ok := p.Devices.Next(i); ok {
		return next
	}
	return i
}
