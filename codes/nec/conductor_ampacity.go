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
	v, where := ends, "at the terminations with the allowance for continuous load"
	a, _ := ends.Share()
	if b, ok := run.Share(); ok && b > a {
		v, where = run, "along the run, corrected for ambient temperature and bundling"
	}
	needs, has := v.Figures()
	return v.Resting(codes.Of[[]steps.Cite](f, codes.WireRests)...).Saying(largerConductor(f, need, units.Current(v.Actual.Value-v.Limit.Value)),
		"it needs %s %s, its conductor carries %s there", needs, where, has)
}

// largerConductor names the size whose ampacity carries a current where the
// terminations are not marked, as a first reading before a selection.
func largerConductor(f *codes.Facts, need, excess units.Current) string {
	size, ok := f.Book().Wires.Carrying(codes.Of[string](f, codes.WireMaterial), need, codes.Of[units.Current](f, codes.BreakerAmps))
	if ok {
		return fmt.Sprintf("run a larger conductor (%s), or move %s of load to another circuit", size, excess)
	}
	return fmt.Sprintf("move %s of load to another circuit", excess)
}
