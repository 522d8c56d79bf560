package assign

import (
	"branchwork/circuits"
	"branchwork/circuits/packing"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// proof turns the certificates of a cell's packings into the plan's own terms.
func (pl *planner) proof(c cell, tried []packedCell, list [][]inventory.Supply, best packedCell) circuits.Proof {
	out := circuits.Proof{Panel: c.host.Name, Room: c.key.room, Group: c.key.group[2:], Controller: c.key.controller,
		Bound: best.spaces.Bound, Used: best.result.Width.Used}
	for i, t := range tried {
		if t.result.Certificate == nil {
			continue
		}
		choice := circuits.ProofOfChoice{Bound: t.result.Certificate.Bound}
		for _, s := range list[i] {
			choice.Volts = append(choice.Volts, s.Volts)
		}
		for _, part := range t.result.Certificate.Parts {
			choice.Parts = append(choice.Parts, pl.proofPart(c, t, list[i], part))
		}
		out.Choices = append(out.Choices, choice)
	}
	return out
}

func (pl *planner) proofPart(c cell, t packedCell, chosen []inventory.Supply, part packing.Part) circuits.ProofPart {
	out := circuits.ProofPart{Z: part.Z, Spared: part.Spared, Bound: part.Bound}
	for k, kind := range part.Kinds {
		l := c.loads[kind]
		out.Items = append(out.Items, circuits.ProofItem{Item: l.Name, Count: pl.left[l.Name], Volts: chosen[kind].Volts,
			Size: pl.weight(l, chosen[kind]), Weight: part.Weights[k]})
		out.Spared = max(out.Spared, part.Spared)
	}
	for _, b := range t.bins {
		bin := circuits.ProofBin{Volts: b.supply.Volts, Rating: b.rating, Spaces: b.supply.Poles, Room: pl.capacity(b.rating)}
		serves := false
		for _, kind := range part.Kinds {
			l := c.loads[kind]
			most := 0
			if chosen[kind] == b.supply && pl.mayShare(l, b.supply, b.rating) && (!b.fixedOnly || fastened(l)) {
				serves, most = true, pl.mostOn(c, l, b)
			}
			bin.Most = append(bin.Most, most)
		}
		if serves {
			out.Bins = append(out.Bins, bin)
		}
	}
	return out
}

// mostOn is the most units of a load on a circuit by its maker, its leakage and
// the wish to spread it; −1 where only current limits it.
func (pl *planner) mostOn(c cell, l loads.Load, b bin) int {
	most := -1
	lower := func(n int) {
		if most < 0 || n < most {
			most = n
		}
	}
	if n, ok := makerShare(l, b.rating); ok {
		lower(n)
	}
	if pl.spread(l) && l.Count > 1 {
		lower((l.Count + 1) / 2)
	}
	if each := pl.inPlace(l, b.supply); each > 0 {
		if limit := pl.inPlaceLimit(c, b); limit < unlimited {
			lower(int(limit / each))
		}
	}
	if leak := pl.leak(l); leak > 0 {
		if limit := pl.leakLimit(c, b); limit < unlimited {
			lower(int(limit / leak))
		}
	}
	return most
}

// checked asks the packing's own two checkers about a result before anything is
// built on it. An error is our own fault.
func checked(p packing.Problem, r packing.Result) error {
	if err := packing.Check(p, r); err != nil {
		return err
	}
	if r.Certificate == nil {
		return nil
	}
	return r.Certificate.Verify(p)
}
