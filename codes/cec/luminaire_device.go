package cec

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

func luminaireDevice(b codes.TableSet) codes.Rule {
	return codes.Rule{
		ID:    "luminaire-device",
		Title: "luminaires wired in place stand on 15 A at most in a dwelling and on 20 A elsewhere",
		Why: "Lampholders, drivers and the thin wire inside luminaires were tested behind small devices. Behind a larger one a " +
			"fault in a fixture burns on while the breaker stays closed.",
		Clauses:  clauses("30-104", seen),
		Severity: codes.Violation,
		Subject:  codes.OfLoad,
		Key:      "breaker",
		Needs:    []codes.Fact{codes.BreakerAmps, codes.IsLuminaire, codes.Corded, codes.Dwelling, codes.BehindBox},
		Remedies: []codes.Remedy{codes.MoveLoads, codes.AddCircuit, codes.AskMaker},
		Check:    func(f *codes.Facts) codes.Verdict { return checkLuminaireDevice(f, luminaireLimits(b)) },
	}
}

// luminaireCaps is the most overcurrent protection of circuits that feed luminaires.
type luminaireCaps struct{ dwelling, elsewhere units.Current }

func luminaireLimits(b codes.TableSet) luminaireCaps {
	t := b.Get("luminaire-device")
	at := func(place string) units.Current { v, _, _ := t.Value(place, "device"); return units.Current(v) }
	return luminaireCaps{dwelling: at("dwelling unit"), elsewhere: at("elsewhere, up to 347 V")}
}

// in returns the limit of the place where a circuit is.
func (c luminaireCaps) in(f *codes.Facts) units.Current {
	if f.No(codes.Dwelling) {
		return c.elsewhere
	}
	return c.dwelling
}

// checkLuminaireDevice asks of luminaires wired in place. One marked for the
// breaker that it stands on, outside a dwelling, may be a heavy-duty arrangement,
// which lighting-over-20A asks about; whether a luminaire on cord and plug is
// meant at all is not clear, and it asks about those too.
func checkLuminaireDevice(f *codes.Facts, caps luminaireCaps) codes.Verdict {
	if f.No(codes.IsLuminaire) || f.Yes(codes.Corded) || f.Yes(codes.BehindBox) {
		return codes.NotConcerned()
	}
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	most, marked := codes.Get[units.Current](f, codes.MakerBreaker)
	if marked && f.No(codes.Dwelling) && units.Exceeds(breaker, caps.elsewhere) && !units.Exceeds(breaker, most) {
		return codes.NotConcerned()
	}
	v := codes.Within(breaker, caps.in(f), "A")
	has, limit := v.Figures()
	return v.Saying("divide them over circuits of "+limit+" (`breakers` in the plan)", "luminaires wired in place on a breaker of %s; %s is the limit here", has, limit)
}
