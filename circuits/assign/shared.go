package assign

import (
	"fmt"
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/circuits/packing"
	"branchwork/loads"
	"branchwork/loads/abreast"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Resources of a circuit as packing sees them.
const (
	current  = iota // whole milliamperes, weighted; see weight
	switchOn        // share of the maker's limit per breaker, in millionths
	leakage         // microamperes of protective-conductor current
	inPlace         // milliamperes of equipment fastened in place
	resources
)

// whole is the whole of a circuit's share of the maker's limit.
const whole = 1_000_000

// unlimited is a limit that no circuit reaches.
const unlimited = 1 << 39

// shared packs what is left, cell by cell.
func (pl *planner) shared() error {
	cells := pl.cells()
	ready, errs := make([]packedCell, len(cells)), make([]error, len(cells))
	abreast.Do(len(cells), func(i int) {
		if pl.byItself(cells[i]) {
			ready[i], errs[i] = pl.bestVoltages(cells[i])
		}
	}, func(i int) { pl.tell(cells[i].key.says(), i+1, len(cells)) })
	for i, c := range cells {
		best, err := ready[i], errs[i]
		if !pl.byItself(c) {
			c, best, err = pl.bestPanel(c)
		}
		if err != nil {
			return fmt.Errorf("packing %s %s %s: %w", c.key.panel, c.key.room, c.key.group, err)
		}
		pl.pack(c, best)
	}
	return nil
}

// byItself reports whether the packing of a cell depends on no other: it has one
// panel to go to and opens circuits of its own.
func (pl *planner) byItself(c cell) bool { return len(c.hosts) == 1 && !pl.inv.Plan.Reuse.Or(false) }

// bin is a kind of circuit: a supply and a breaker rating. Each is a family of
// its own to the packing, because a maker's limit per breaker depends on the
// rating.
type bin struct {
	supply inventory.Supply
	rating units.Current
	// fixedOnly is a circuit for equipment fastened in place alone, which may then
	// take all of it; a cell that has both kinds may open either.
	fixedOnly bool
}

// pack opens and fills the circuits of a cell.
func (pl *planner) pack(c cell, best packedCell) {
	for _, b := range best.result.Bins {
		if b.Kind >= 0 {
			pl.open(c, best.bins[b.Kind], b.Holds)
		} else {
			pl.fill(best.existing[b.Existing], c, b.Holds)
		}
	}
	for i, n := range best.result.Unplaced {
		if n > 0 {
			pl.unfed(c.loads[i], n, "no circuit of the ratings allowed can hold one unit", "allow a larger rating in [plan].breakers, or a higher voltage")
		}
	}
	pl.spaceBound += best.spaces.Bound
	pl.circuitBound += best.circuits.Bound
	pl.packed = append(pl.packed, best)
	pl.plan.Proofs = append(pl.plan.Proofs, best.proof)
}

// bestPanel packs a cell for the panels that can feed it and keeps the first
// that has the spaces and the amperes, or the preferred one where none has.
func (pl *planner) bestPanel(c cell) (cell, packedCell, error) {
	var first packedCell
	for i, host := range c.hosts {
		c.host = host
		best, err := pl.bestVoltages(c)
		if err != nil {
			return c, best, err
		}
		if i == 0 {
			first = best
		}
		if len(c.hosts) == 1 || pl.hasRoom(host, int(best.result.Width.Used), pl.cellVA(c)) {
			return c, best, nil
		}
	}
	c.host = c.hosts[0]
	return c, first, nil
}

// cellVA estimates the demand of a cell's units.
func (pl *planner) cellVA(c cell) units.Apparent {
	var sum units.Apparent
	for _, l := range c.loads {
		cl := pl.carries(l, pl.left[l.Name], pl.supplies(c.host, l)[0])
		sum += units.Times(cl.Draw.VA, float64(cl.Count)*pl.factor(&cl))
	}
	return sum
}

// solve packs a cell whose loads may each take the supplies listed for it.
func (pl *planner) solve(c cell, allowed [][]inventory.Supply) (packedCell, error) {
	out := packedCell{bins: pl.bins(c, allowed)}
	var existing []packing.Existing
	out.existing, existing = pl.openCircuits(c, len(out.bins))
	families := append(append([]bin{}, out.bins...), existingBins(pl.plan.Circuits, out.existing)...)
	problem := packing.Problem{Resources: resources, Existing: existing}
	for i, l := range c.loads {
		problem.Kinds = append(problem.Kinds, pl.kind(l, allowed[i], families))
	}
	for family, b := range out.bins {
		problem.Bins = append(problem.Bins, pl.binKind(c, b, family))
	}
	dropUnused(&problem)
	result, err := packing.Solve(problem)
	if err == nil {
		err = checked(problem, result)
	}
	out.result, out.spaces, out.circuits = result, result.Width, result.Opened
	return out, err
}

// dropUnused leaves out the resources that no unit takes any of, so that a
// packing by current alone is solved as one.
func dropUnused(p *packing.Problem) {
	for r := p.Resources - 1; r > current; r-- {
		used := false
		for _, k := range p.Kinds {
			for _, f := range k.Forms {
				used = used || f.Uses[r] > 0
			}
		}
		if used {
			continue
		}
		p.Resources--
		for _, k := range p.Kinds {
			for i := range k.Forms {
				k.Forms[i].Uses = slices.Delete(k.Forms[i].Uses, r, r+1)
			}
		}
		for i := range p.Bins {
			p.Bins[i].Limits = slices.Delete(p.Bins[i].Limits, r, r+1)
		}
		for i := range p.Existing {
			p.Existing[i].Limits = slices.Delete(p.Existing[i].Limits, r, r+1)
		}
	}
}

// bins lists the kinds of circuit that a cell may open for the supplies allowed.
func (pl *planner) bins(c cell, allowed [][]inventory.Supply) []bin {
	var out []bin
	for _, s := range c.host.System.Supplies() {
		wanted := false
		for _, list := range allowed {
			wanted = wanted || offers(list, s)
		}
		if !wanted {
			continue
		}
		for _, r := range pl.ratings(c) {
			out = append(out, bin{supply: s, rating: r})
			if c.mixed() {
				out = append(out, bin{s, r, true})
			}
		}
	}
	return out
}

func existingBins(list []circuits.Circuit, open []int) []bin {
	var out []bin
	for _, i := range open {
		out = append(out, bin{supply: list[i].Supply, rating: list[i].Breaker.Or(0)})
	}
	return out
}

func offers(list []inventory.Supply, s inventory.Supply) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func (pl *planner) kind(l loads.Load, allowed []inventory.Supply, families []bin) packing.Kind {
	k := packing.Kind{Count: pl.left[l.Name]}
	for family, b := range families {
		if offers(allowed, b.supply) {
			k.Forms = append(k.Forms, packing.Form{Family: family,
				Uses: []int64{pl.weight(l, b.supply), share(l, b.rating), pl.leak(l), pl.inPlace(l, b.supply)}})
		}
	}
	return k
}

// share is what one unit takes of the maker's limit on a breaker, rounded down
// so that as many units as the maker allows fit.
func share(l loads.Load, rating units.Current) int64 {
	if n, ok := makerShare(l, rating); ok && n > 0 {
		return whole / int64(n)
	}
	return 0
}

func (pl *planner) binKind(c cell, b bin, family int) packing.BinKind {
	k := packing.BinKind{Family: family, Width: b.supply.Poles,
		Limits: []int64{pl.capacity(b.rating), whole, pl.leakLimit(c, b), pl.inPlaceLimit(c, b)}, Cost: pl.cost(b),
		Allow: make([]bool, len(c.loads)), AtMost: make([]int, len(c.loads))}
	for i, l := range c.loads {
		n, limited := makerShare(l, b.rating)
		k.Allow[i] = pl.mayShare(l, b.supply, b.rating) && (!limited || n > 0) && (!b.fixedOnly || fastened(l))
		if pl.spread(l) && l.Count > 1 {
			k.AtMost[i] = (l.Count + 1) / 2
		}
	}
	return k
}

// cost compares circuits of equal spaces: more conductors and a larger rating
// mean more copper.
func (pl *planner) cost(b bin) int64 {
	conductors := int64(b.supply.Poles)
	if b.supply.Neutral {
		conductors++
	}
	return conductors * int64(b.rating)
}

func (pl *planner) spread(l loads.Load) bool {
	for _, name := range pl.inv.Plan.Spread {
		if name == l.Name {
			return true
		}
	}
	return false
}

// leak is one unit's protective-conductor current where it is known and counts
// against a ground-fault device; the judge reports it where it is not known.
func (pl *planner) leak(l loads.Load) int64 {
	i, ok := l.Item.Leakage.Get()
	if !ok || !l.Corded {
		return 0
	}
	return int64(float64(i)*1e6*float64(l.Drivers) + 0.5)
}

// leakLimit is the trip threshold of the protection that a circuit's outlets
// call for.
func (pl *planner) leakLimit(c cell, b bin) int64 {
	limit := int64(unlimited)
	for _, l := range c.loads {
		if !l.Corded {
			continue
		}
		o := pl.outlet(circuits.Circuit{Breaker: units.Is(b.rating), Supply: b.supply, ToGround: c.host.System.ToGround(b.supply),
			Loads: []circuits.Load{{Item: l.Name, Category: l.Category}}}, true)
		if need := pl.p.Protection(o); need.Needed && need.Trip > 0 {
			limit = min(limit, int64(float64(need.Trip)*1e6))
		}
	}
	return limit
}

// inPlace is what one unit fastened in place takes of a circuit's share for such
// equipment.
func (pl *planner) inPlace(l loads.Load, s inventory.Supply) int64 {
	if !fastened(l) {
		return 0
	}
	d, _ := l.At(s)
	return int64(math.Ceil(float64(d.Amps)/float64(units.Milliampere) - noise))
}

// inPlaceLimit is the share of a circuit that equipment fastened in place may
// take beside anything else.
func (pl *planner) inPlaceLimit(c cell, b bin) int64 {
	if !c.mixed() || b.fixedOnly || pl.p.Branch.Fastened == 0 {
		return unlimited
	}
	return int64(float64(b.rating)*float64(pl.p.Branch.Fastened)/float64(units.Milliampere) + noise)
}

// inPlaceLeft is what a circuit that exists leaves of it.
func (pl *planner) inPlaceLeft(c cell, x circuits.Circuit) int64 {
	all := c
	for _, cl := range x.Loads {
		l, _ := pl.set.Named(cl.Item)
		all.loads = append(all.loads[:len(all.loads):len(all.loads)], l)
	}
	limit := pl.inPlaceLimit(all, bin{supply: x.Supply, rating: x.Breaker.Or(0)})
	for _, cl := range x.Loads {
		l, _ := pl.set.Named(cl.Item)
		limit -= pl.inPlace(l, x.Supply) * int64(cl.Count)
	}
	return max(0, limit)
}

// open makes a new circuit of a bin.
func (pl *planner) open(c cell, b bin, holds []int) {
	x := circuits.Circuit{Panel: c.host.Name, Supply: b.supply, ToGround: c.host.System.ToGround(b.supply), Breaker: units.Is(b.rating)}
	for i, n := range holds {
		if n > 0 {
			x.Loads = append(x.Loads, pl.carries(c.loads[i], n, b.supply))
			pl.left[c.loads[i].Name] -= n
		}
	}
	pl.describe(&x)
	pl.take(x)
}
