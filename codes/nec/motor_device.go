package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func motorDevice() codes.Rule {
	return codes.Rule{
		ID:    "motor-device",
		Title: "a motor's breaker is within the share of its full-load current that lets it start",
		Why: "A motor draws several times its running current while it starts, so its breaker may be larger than its wire would " +
			"allow elsewhere. Above the limit a short circuit in the motor lasts too long.",
		Clauses:  clauses(clause{since: "2017", at: "430.52(C)(1), Table 430.52"}, clause{since: "2023", at: "430.52(C)(1), Table 430.52(C)(1)"}),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.SmallerBreaker},
		Check:    checkMotorDevice,
	}
}

// checkMotorDevice asks of a motor that is alone on its circuit and wired
// permanently: its device may be 250 % of full-load current for an inverse-time
// breaker, the next standard rating up allowed. Several motors on one circuit
// (430.53) and motors marked with a maximum device are other rules'.
func checkMotorDevice(f *codes.Facts) codes.Verdict {
	flc, motor := codes.Get[units.Current](f, codes.MotorFLC)
	if !motor || f.Has(codes.MaxDevice) || f.No(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	p := f.Book()
	limit := units.Times(flc, float64(p.Motors.Breaker))
	if next, ok := p.Devices.Next(limit); ok {
		limit = next
	}
	v := codes.Within(codes.Of[units.Current](f, codes.BreakerAmps), limit, "A")
	has, most := v.Figures()
	return v.Saying(fmt.Sprintf("fit a breaker of %s or smaller", most),
		"its breaker is rated %s; %s %% of %s full-load current, at the next standard rating, is %s", has,
		units.Round(100*float64(p.Motors.Breaker), 0), flc, most)
}
