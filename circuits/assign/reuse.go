package assign

import (
	"branchwork/circuits"
	"branchwork/circuits/packing"
)

// openCircuits offers the room left on circuits that exist, where the file asks
// for it, and returns their indices. Their families follow the first ones.
func (pl *planner) openCircuits(c cell, first int) ([]int, []packing.Existing) {
	if !pl.inv.Plan.Reuse.Or(false) {
		return nil, nil
	}
	var out []int
	var list []packing.Existing
	for i, x := range pl.plan.Circuits {
		breaker, ok := x.Breaker.Get()
		if !x.Existing || !ok || x.Panel != c.host.Name {
			continue
		}
		pl.settle(&x)
		if err := pl.wire(&x); err != nil || !pl.fits(x, c) {
			continue
		}
		rating := min(breaker, x.Conductor.TerminalAmps.Or(0), x.Conductor.ProtectedAt.Or(0))
		e := packing.Existing{Family: first + len(out), Allow: make([]bool, len(c.loads)),
			Limits: []int64{pl.capacity(rating), whole, pl.leakLeft(c, x), pl.inPlaceLeft(c, x)}}
		for _, cl := range x.Loads {
			l, _ := pl.set.Named(cl.Item)
			e.Limits[current] -= pl.weight(l, x.Supply) * int64(cl.Count)
			e.Limits[switchOn] -= share(l, breaker) * int64(cl.Count)
		}
		e.Limits[current] -= weighted(x.Excess(), pl.p.Continuous.Load) // what a meter showed and no load explains
		if e.Limits[current] <= 0 || e.Limits[switchOn] < 0 {
			continue
		}
		for k, l := range c.loads {
			e.Allow[k] = pl.mayShare(l, x.Supply, breaker)
		}
		out, list = append(out, i), append(list, e)
	}
	return out, list
}

// leakLeft is what a circuit's ground-fault device still leaves.
func (pl *planner) leakLeft(c cell, x circuits.Circuit) int64 {
	limit := pl.leakLimit(c, bin{supply: x.Supply, rating: x.Breaker.Or(0)})
	if limit == unlimited {
		return limit
	}
	for _, cl := range x.Loads {
		l, _ := pl.set.Named(cl.Item)
		limit -= pl.leak(l) * int64(cl.Count)
	}
	return max(0, limit)
}

// fill puts units on a circuit that exists.
func (pl *planner) fill(index int, c cell, holds []int) {
	x := &pl.plan.Circuits[index]
	for i, n := range holds {
		if n == 0 {
			continue
		}
		l := c.loads[i]
		pl.left[l.Name] -= n
		x.Changed = true
		found := false
		for k := range x.Loads {
			if x.Loads[k].Item == l.Name {
				x.Loads[k].Count += n
				x.Loads[k].Added += n
				found = true
			}
		}
		if !found {
			added := pl.carries(l, n, x.Supply)
			added.Added = n
			x.Loads = append(x.Loads, added)
		}
	}
	pl.describe(x)
}
