package nec

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func receptacleLoad() codes.Rule {
	return codes.Rule{
		ID:    "receptacle-load",
		Title: "what is plugged into one of several receptacles is within what a receptacle of its rating may carry",
		Why: "A 15 A receptacle may stand on a 20 A circuit beside others, but it stays a 15 A receptacle: its contacts take 12 A " +
			"for hours and no more.",
		Clauses:  always("Table 210.21(B)(2)"),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.Individual, codes.Corded, codes.UnitAmps, codes.BehindBox},
		Remedies: []codes.Remedy{codes.OtherReceptacle, codes.HigherVoltage, codes.AddCircuit},
		Bounds:   true,
		Check:    checkReceptacleLoad,
	}
}

// checkReceptacleLoad asks on circuits of two or more receptacles up to 30 A, the
// ratings that the table has: 12 A on 15 A, 16 A on 20 A, 24 A on 30 A.
func checkReceptacleLoad(f *codes.Facts) codes.Verdict {
	b := f.Book().Branch
	r, known := codes.Get[codes.Receptacle](f, codes.ReceptacleKind)
	if f.Yes(codes.Individual) || f.No(codes.Corded) || f.Yes(codes.BehindBox) || known && units.Exceeds(r.Amps, b.OnePlugUpTo) {
		return codes.NotConcerned()
	}
	v := codes.Within(codes.Of[units.Current](f, codes.UnitAmps), units.Times(r.Amps, float64(b.OnePlug)), "A")
	draws, most := v.Figures()
	return v.Resting(rowOf(f.Book(), r.Amps)).Saying(otherReceptacle(f, r),
		"one draws %s; a receptacle of %s may carry %s", draws, r.Amps, most)
}

// otherReceptacle names a larger receptacle where the circuit's own rating calls
// for one that carries the load. Behind a smaller breaker a larger receptacle cures
// nothing and invites more.
func otherReceptacle(f *codes.Facts, r codes.Receptacle) string {
	b := f.Book().Branch
	draws, breaker := codes.Of[units.Current](f, codes.UnitAmps), codes.Of[units.Current](f, codes.BreakerAmps)
	higher := codes.AtHigher(codes.Of[units.Voltage](f, codes.HigherVolts))
	fit, ok := f.Book().ReceptacleFor(breaker, codes.Of[units.Voltage](f, codes.Volts), codes.Of[int](f, codes.PhaseCount), codes.Of[bool](f, codes.ToNeutral))
	if ok && fit.Amps > r.Amps && !units.Exceeds(draws, units.Times(fit.Amps, float64(b.OnePlug))) {
		return higher + fmt.Sprintf("have a licensed electrician fit a %s, as its breaker of %s calls for", fit.Name, breaker)
	}
	return higher + "do not plug it in here: a larger receptacle alone is no remedy, a licensed electrician runs a circuit for it, conductor, breaker and receptacle together"
}

// rowOf is where the row of a receptacle's rating stands, and how it was checked.
func rowOf(p *codes.Profile, receptacle units.Current) steps.Cite {
	for _, t := range p.Tables {
		if t.ID != "plug-load" {
			continue
		}
		for _, row := range t.Rows {
			if strings.HasSuffix(row.Key, " "+receptacle.String()+" receptacle") {
				cite := t.Cite(p.Edition, row.How)
				cite.At += ", " + receptacle.String()
				return cite
			}
		}
	}
	return steps.Cite{}
}
