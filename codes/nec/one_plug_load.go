package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func onePlugLoad() codes.Rule {
	return codes.Rule{
		ID:    "one-plug-load",
		Title: "no one plug-in load takes more than 80 % of its circuit's rating",
		Why: "Whatever is plugged in can be unplugged and replaced by something else, and the receptacle and plug are the warmest " +
			"places of the circuit. One item is kept to four fifths of the rating, continuous or not.",
		Clauses:  clauses(clause{since: "2017", at: "210.23(A)(1)"}, clause{since: "2023", at: "210.23(B)(1)"}),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "feeds",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.Corded, codes.UnitAmps, codes.BehindBox},
		Remedies: []codes.Remedy{codes.AddCircuit, codes.HigherVoltage, codes.HardWire},
		Bounds:   true,
		Check:    checkOnePlugLoad,
	}
}

// checkOnePlugLoad asks of every plug-in load on circuits up to 30 A. That an
// individual circuit may feed any load for which it is rated is from memory and
// is not made use of: the stricter reading is taken.
func checkOnePlugLoad(f *codes.Facts) codes.Verdict {
	b := f.Book().Branch
	breaker, known := codes.Get[units.Current](f, codes.BreakerAmps)
	if f.No(codes.Corded) || f.Yes(codes.BehindBox) || known && units.Exceeds(breaker, b.OnePlugUpTo) {
		return codes.NotConcerned()
	}
	each := codes.Of[units.Current](f, codes.UnitAmps)
	v := codes.Within(each, units.Times(breaker, float64(b.OnePlug)), "A")
	draws, most := v.Figures()
	return v.Saying(codes.AtHigher(codes.Of[units.Voltage](f, codes.HigherVolts))+fmt.Sprintf("take a smaller one, or have a licensed electrician run a circuit of its own that allows %s or, where its maker allows it, wire it permanently", draws),
		"one draws %s; %s %% of its breaker of %s is %s", draws, units.Round(100*float64(b.OnePlug), 0), breaker, most)
}
