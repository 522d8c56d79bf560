package cli

import (
	"branchwork/circuits"
	"branchwork/circuits/conductor"
	"branchwork/cmd/internal/document"
	"branchwork/codes"
	"branchwork/loads/units"
)

// raceways works out the raceway of every new run whose conductors are known.
func raceways(r document.Results) map[string]document.Raceway {
	out := map[string]document.Raceway{}
	wiring := r.Inventory.Site.Conductors
	kind, per := wiring.Raceway.Or(r.Profile.Wires.Raceway), max(1, wiring.PerRaceway.Or(1))
	for _, c := range r.Plan.Circuits {
		if !c.Existing && c.Conductor.Size != "" {
			out["circuits."+c.Name] = raceway(r.Profile, kind, c.Conductor, c.Ground, c.Supply.Poles, c.Supply.Neutral, per)
		}
	}
	for _, p := range r.Plan.Panels {
		if f := p.Feeder; f != nil && !f.Existing && f.Conductor.Size != "" {
			out["panels."+p.Name+".feeder"] = raceway(r.Profile, kind, f.Conductor, f.Ground, f.Poles, document.FeederNeutral(*f), 1)
		}
	}
	return out
}

// raceway fits the conductors of so many circuits alike, one set of parallel ones,
// each circuit with a grounding conductor of its own.
func raceway(p *codes.Profile, kind string, wire, ground circuits.Wire, live int, neutral bool, per int) document.Raceway {
	list := conductor.HomeRun(conductor.Choice{Size: wire.Size, Insulation: wire.Insulation, Ground: ground.Size}, live, neutral)
	for i := range list {
		list[i].Count *= per
	}
	fill, err := conductor.Raceway(kind, list, p, nil)
	if err != nil {
		return document.Raceway{Kind: kind, Why: err.Error()}
	}
	return document.Raceway{Kind: kind, Trade: fill.Trade, Conductors: fill.Conductors, FillPercent: 100 * units.Per(fill.Share, 1), AllowedPercent: 100 * units.Per(fill.Allowed, 1)}
}
