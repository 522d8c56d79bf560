package practice

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

func branchWiring() codes.Rule {
	return codes.Rule{
		ID:    "branch-wiring",
		Title: "the wiring of an existing circuit is copper, or aluminum above the sizes of old branch wiring",
		Why: "Aluminum branch wiring of 15 to 30 A, common around 1970, loosens at every joint, and hours of steady current make " +
			"it worse: such joints have burned houses. Wiring that nobody knows may be that, or may have no ground at all.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Violation,
		Subject:  codes.OfCircuit,
		Key:      "conductor",
		Needs:    []codes.Fact{codes.Existing, codes.WireSize, codes.WireMaterial, codes.BreakerAmps},
		Remedies: []codes.Remedy{codes.StopWork, codes.AskOnSite},
		Check:    checkBranchWiring,
	}
}

func checkBranchWiring(f *codes.Facts) codes.Verdict {
	if f.No(codes.Existing) {
		return codes.NotConcerned()
	}
	material, size := codes.Of[string](f, codes.WireMaterial), codes.Of[string](f, codes.WireSize)
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	old := strings.HasPrefix(strings.ToLower(material), "alumin") && !units.Exceeds(breaker, codes.CopperUpTo)
	v := codes.Whether(!old).Saying(
		fmt.Sprintf("put nothing more on it; ask a licensed electrician: this circuit of %s is wired in %s aluminum and would carry grow equipment for hours: inspect every joint, and replace or repair the wiring before it does", breaker, size),
		"it is wired in %s aluminum behind a breaker of %s", size, breaker)
	if !f.Has(codes.WireSize) || !f.Has(codes.WireMaterial) {
		says, _ := f.Missing([]codes.Fact{codes.WireSize, codes.WireMaterial})
		return codes.Verdict{State: codes.CannotTell, Missing: missing(f), Says: says + ", so nothing on it can be judged",
			Remedy: "put nothing more on it; ask a licensed electrician: which size and material is this circuit wired in, is it aluminum, and does it have a grounding conductor? Then add `conductor` and `ground`"}
	}
	return v
}

func missing(f *codes.Facts) []codes.Fact {
	var out []codes.Fact
	for _, n := range []codes.Fact{codes.WireSize, codes.WireMaterial} {
		if !f.Has(n) {
			out = append(out, n)
		}
	}
	return out
}
