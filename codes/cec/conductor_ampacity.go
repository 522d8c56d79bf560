package cec

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

func conductorAmpacity() codes.Rule {
	return codes.Rule{
		ID:    "conductor-ampacity",
		Title: "the conductor carries the load at its terminations and along its run",
		Why: "Two places can overheat: the terminals, which take the conductor's heat for hours, and the run, which passes warm " +
			"rooms and other conductors. Each has its own test, and the conductor must pass both; the share for continuous load " +
			"and the factors for the run are not multiplied.",
		Clauses:  clauses("4-004", seen, ampacities, "4-006", "8-104(7)"),
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
//	max(Ic / share, Ic + In) + Im <= ampacity in the termination column, uncorrected
//	load                          <= ampacity in the insulation's column, corrected and adjusted
//
// That the share and the factors are tests apart (8-104(7)) is from memory. It
// decides no planned circuit, because there the device protects the conductor at
// its corrected ampacity. A nameplate alone on its circuit has a test of its own.
func checkConductorAmpacity(f *codes.Facts) codes.Verdict {
	if f.Yes(codes.ByEquipment) {
		return codes.NotConcerned()
	}
	return bothTests(f, asksFor(f), codes.Of[units.Current](f, codes.LoadAmps))
}

// bothTests judges a conductor by the rating asked for at its terminations and by
// the load along its run.
func bothTests(f *codes.Facts, need, load units.Current) codes.Verdict {
	ends := codes.Within(need, codes.Of[units.Current](f, codes.WireTableAmps), "A")
	run := codes.Within(load, codes.Of[units.Current](f, codes.WireCorrected), "A")
	v, where := ends, "at the terminations with the share for continuous load"
	a, _ := ends.Share()
	if b, ok := run.Share(); ok && b > a {
		v, where = run, "along the run, corrected for ambient temperature and bundling"
	}
	needs, has := v.Figures()
	excess := units.Current(v.Actual.Value - v.Limit.Value)
	remedy := fmt.Sprintf("take at least %s of load off it", excess)
	if pieces, ok := codes.Get[[]codes.Piece](f, codes.LoadList); ok {
		remedy = codes.Relief(pieces, units.Times(excess, f.Book().Continuous.Factor()))
	}
	if breaker, ok := codes.Get[units.Current](f, codes.BreakerAmps); ok && !units.Exceeds(need, breaker) {
		remedy += fmt.Sprintf(", or have a licensed electrician run a conductor that carries %s there behind the same breaker", needs)
	}
	return v.Saying(remedy,
		"it needs %s %s, its conductor carries %s there", needs, where, has)
}
