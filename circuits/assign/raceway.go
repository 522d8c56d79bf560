package assign

import (
	"errors"
	"slices"

	"branchwork/circuits"
	"branchwork/circuits/conductor"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// circuitRaceway finds the raceway of a circuit's home run: how full the one is
// that the file names, or the smallest that holds what lies in it.
//
// Circuits that share a raceway are taken to be alike, each with a grounding
// conductor of its own, which is the most there can be; circuits that share a
// neutral lie together and have one grounding conductor.
func (pl *planner) circuitRaceway(c *circuits.Circuit, w *steps.Work) circuits.Raceway {
	size, groups := pl.inRaceway(c.Neutral)
	kind := pl.inv.Site.Conductors.Raceway.Or(pl.p.Wires.Raceway)
	var given inventory.Raceway
	if c.Existing {
		for _, x := range pl.inv.Circuits {
			if r, ok := x.Raceway.Get(); ok && (x.Name == c.Name || slices.Contains(c.Neutral.SharedWith, x.Name) && given.Trade == "") {
				given = r
			}
		}
	}
	run := conductor.HomeRun(conductor.Choice{Size: c.Conductor.Size, Insulation: c.Conductor.Insulation, Ground: c.Ground.Size}, c.Supply.Poles*size, c.Neutral.Runs)
	for i := range run {
		run[i].Count *= groups
	}
	why := ""
	switch {
	case c.Conductor.Size == "" || c.Conductor.Insulation == "":
		why = "its conductor is not known"
	case c.Ground.Size == "":
		why = pl.p.Say("its grounding conductor is not known")
	}
	return pl.raceway(given, kind, run, why, size*groups, w)
}

// raceway fills a raceway; given is empty where the file names none, why tells
// that its contents are not known.
func (pl *planner) raceway(given inventory.Raceway, kind string, run []conductor.Wire, why string, sharing int, w *steps.Work) circuits.Raceway {
	out := circuits.Raceway{Kind: kind, Circuits: sharing, Why: why, Share: units.Unknown[units.Ratio](why)}
	if given.Trade != "" {
		out.Kind, out.Trade, out.Given = given.Kind, given.Trade, true
	}
	if why != "" {
		return out
	}
	smallest := w
	if out.Given {
		smallest = nil // what is there is recorded, not what would do
	}
	fill, err := conductor.Raceway(out.Kind, run, pl.p, smallest)
	if err == nil {
		out.Smallest = fill.Trade
	}
	if out.Given {
		fill, err = conductor.Filled(out.Kind, out.Trade, run, pl.p, w)
	}
	if err != nil {
		out.Why = err.Error()
		var beyond conductor.Beyond
		if errors.As(err, &beyond) {
			w.Add(steps.Choice("raceway", "not known", beyond.Why, steps.Cite{}))
		}
		out.Share = units.Unknown[units.Ratio](out.Why)
		return out
	}
	out.Trade, out.Conductors, out.Limit, out.Share, out.Rests = fill.Trade, fill.Conductors, fill.Limit, units.Is(fill.Share), fill.Rests
	return out
}

// uncounted works out what the conductors would carry were the neutral not
// counted, where that makes a difference.
func (pl *planner) uncounted(without int, n *circuits.Neutral, k conductor.Choice, w *steps.Work) {
	if !n.Runs {
		return
	}
	n.Uncounted = units.Is(k.CorrectedAmps)
	fb, cite, ok := pl.p.Wires.BundleFactor(without)
	if !n.Counted || !ok || fb == k.Bundle {
		return
	}
	amps := units.Times(k.InsulationAmps, float64(k.Ambient)*float64(fb))
	w.Add(steps.Result("corrected ampacity were the neutral not counted", "Ii · fa · fb", amps, "A", cite,
		steps.In("Ii", k.InsulationAmps, "A"), steps.In("fa", k.Ambient, ""), steps.In("fb", fb, "")))
	n.Uncounted = units.Is(amps)
}
