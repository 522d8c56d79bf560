package practice

import (
	"branchwork/codes"
	"branchwork/loads/steps"
)

func plugFits() codes.Rule {
	return codes.Rule{
		ID:    "plug-fits",
		Title: "the plug of each load fits its circuit's receptacle",
		Why: "A plug that does not fit is made to fit with an adapter, and the adapter takes away what the shape was for: to keep " +
			"equipment off circuits that it is not made for.",
		Clauses:  codes.PracticeClause(),
		Severity: codes.Warning,
		Subject:  codes.OfLoad,
		Key:      "receptacle",
		Needs:    []codes.Fact{codes.ReceptacleKind, codes.BehindBox},
		Remedies: []codes.Remedy{codes.OtherReceptacle, codes.AskMaker, codes.AddCircuit},
		Check:    checkPlugFits,
	}
}

// configuration is where a receptacle's configuration stands.
func configuration(r codes.Receptacle) steps.Cite {
	return steps.Cite{Ref: "nema-wd6", At: r.Name, How: r.How}
}

// checkPlugFits asks where the file names a plug's configuration. A 15 A plug
// fits the 20 A receptacle of its series too, but for one made for its own plug.
func checkPlugFits(f *codes.Facts) codes.Verdict {
	plug, named := codes.Get[codes.Receptacle](f, codes.PlugKind)
	if !named || f.Yes(codes.BehindBox) {
		return codes.NotConcerned()
	}
	r := codes.Of[codes.Receptacle](f, codes.ReceptacleKind)
	shape := plug.Volts == r.Volts && plug.Phases == r.Phases && plug.Poles == r.Poles && plug.Neutral == r.Neutral && plug.Locking == r.Locking
	fits := shape && (plug.Amps == r.Amps || plug.Amps == 15 && r.Amps == 20 && !plug.Locking && !r.OwnPlug)
	return codes.Whether(fits).Resting(configuration(plug), configuration(r)).Saying("fit a "+plug.Name+" on a circuit for it, or a cord set that the maker supplies for "+r.Name,
		"its plug is made for %s, the circuit has %s", plug.Name, r.Name)
}
