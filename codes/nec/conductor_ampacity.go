package nec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func conductorAmpacity() codes.Rule {
	return codes.Rule{
		ID:    "conductor-ampacity",
		Title: "the conductor carries the load at its terminations and along its run",
		Why: "Two places can overheat: the terminals, which take the conductor's heat for hours, and the run, which passes warm " +
			"rooms and other conductors. Each has its own test, and the conductor must pass both.",
		Clauses:  always("210.19(A)(1), 110.14(C)(1)"),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "conductor",
		Needs: []codes.Fact{codes.WireTableAmps, codes.WireCorrected, codes.ContinuousAmps, codes.OtherAmps, codes.MarkedAmps,
			codes.LoadAmps, codes.FullRated, codes.ByEquipment},
		Remedies: []codes.Remedy{codes.LargerConductor, codes.MoveLoads},
		Bounds:   true,
		Check:    checkConductorAmpacity,
	}
}

// checkConductorAmpacity makes both tests and answers with the one that uses more
// of its limit:
//
//	k · Ic + In + Im <= ampacity in the termination column, uncorrected
//	load             <= ampacity in the insulation's column, corrected and adjusted
//
// A nameplate or a motor alone on its circuit has a test of its own.
func checkConductorAmpacity(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	ic, in, im := codes.Of[units.Current](f, codes.ContinuousAmps), codes.Of[units.Current](f, codes.OtherAmps), codes.Of[units.Current](f, codes.MarkedAmps)
	need := f.Book().Continuous.Required(ic, in, codes.Of[bool](f, codes.FullRated)) + im
	return bothTests(f, need, codes.Of[units.Current](f, codes.LoadAmps))
}

// bothTests judges a conductor by the required rating at its terminations and by
// the load along its run.
func bothTests(f *codes.Facts, need, load units.Current) codes.Verdict {
	ends := codes.Within(need, codes.Of[units.Current](f, codes.WireTableAmps), "A")
	run := codes.Within(load, codes.Of[units.Current](f, codes.WireCorrected), "A")
	v, where, allowance := ends, "at the terminations with the allowance for continuous load", 1.0
	a, _ := ends.Share()
	if b, ok := run.Share(); ok && b > a {
		v, where, allowance = run, "along the run, corrected for ambient temperature and bundling", f.Book().Continuous.Factor()
	}
	needs, has := v.Figures()
	excess := units.Current(v.Actual.Value - v.Limit.Value)
	return v.Resting(codes.Of[[]steps.Cite](f, codes.WireRests)...).Saying(lessOrLarger(f, need, excess, units.Times(excess, allowance)),
		"it needs %s %s, its conductor carries %s there", needs, where, has)
}

// lessOrLarger says what to take off a conductor, of a circuit in units that free so
// much, allowances included; and where its breaker would still
// carry the load names the size whose ampacity does where the terminations are not
// marked, as a first reading before a selection.
func lessOrLarger(f *codes.Facts, need, excess, free units.Current) string {
	remedy := fmt.Sprintf("take at least %s of load off it", excess)
	if pieces, ok := codes.Get[[]codes.Piece](f, codes.LoadList); ok {
		remedy = codes.Relief(pieces, free)
	}
	breaker, known := codes.Get[units.Current](f, codes.BreakerAmps)
	if !known || units.Exceeds(need, breaker) {
		return remedy
	}
	if size, ok := f.Book().Wires.Carrying(codes.Of[string](f, codes.WireMaterial), breaker, breaker); ok {
		remedy += fmt.Sprintf(", or have a licensed electrician run a larger conductor behind the same breaker (%s)", size)
	}
	return remedy
}
