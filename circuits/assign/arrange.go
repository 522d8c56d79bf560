package assign

import (
	"slices"
	"sort"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/units"
)

// mostArrangements bounds the arrangements that are tried where a panel objects
// to the first.
const mostArrangements = 500

// preferred puts the candidates in the order in which a person would use them:
// those that feed the same item, then those that feed nothing that is kept apart
// from it; of each those of the same room first, then the roomiest; ties by name.
func (a *adder) preferred() {
	list, pl := a.candidates, newPlanner(a.inv, a.set, a.p)
	rank := func(k candidate) int {
		r := 2
		for _, cl := range k.circuit.Loads {
			if cl.Item == a.load.Name {
				return 0
			}
			if cl.Room == a.load.Room {
				r = 1
			}
		}
		if len(pl.keptApart(k.circuit, a.load)) > 0 {
			r += 2
		}
		return r
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if ra, rb := rank(a), rank(b); ra != rb {
			return ra < rb
		}
		if a.most != b.most {
			return a.most > b.most
		}
		return units.NaturalLess(a.circuit.Name, b.circuit.Name)
	})
}

// keptApart lists the categories on a circuit that are kept apart from a load.
func (pl *planner) keptApart(c circuits.Circuit, l loads.Load) []loads.Category {
	var out []loads.Category
	for _, cl := range c.Loads {
		if pl.groupOf(cl.Category) != pl.groupOf(l.Category) && !slices.Contains(out, cl.Category) {
			out = append(out, cl.Category)
		}
	}
	return out
}

// arrange spreads the units wanted over the candidates, the preferred first, and
// asks the panels. Where one objects it tries other arrangements, then fewer
// units. It returns units by candidate and whether no arrangement takes more.
func (a *adder) arrange() ([]int, bool, error) {
	want := 0
	for _, k := range a.candidates {
		want += k.most
	}
	want = min(want, a.r.Count)
	tried, all := 0, true
	for n := want; n > 0; n-- {
		var found []int
		var failed error
		a.each(n, func(counts []int) bool {
			if tried++; tried > mostArrangements {
				all = false
				return false
			}
			ok, err := a.accepted(counts)
			if err != nil {
				failed = err
				return false
			}
			if ok {
				found = append([]int{}, counts...)
			}
			return !ok
		})
		if failed != nil {
			return nil, false, failed
		}
		if found != nil {
			return found, all || n == a.r.Count, nil
		}
		if !all {
			tried = 0 // fewer units get their own tries
		}
	}
	return make([]int, len(a.candidates)), all, nil
}

// each calls do with every way to spread n units over the candidates, the
// preferred way first, until do returns false.
func (a *adder) each(n int, do func([]int) bool) {
	counts := make([]int, len(a.candidates))
	after := make([]int, len(a.candidates)+1) // what the candidates from i on can take
	for i := len(counts) - 1; i >= 0; i-- {
		after[i] = after[i+1] + a.candidates[i].most
	}
	var place func(i, left int) bool
	place = func(i, left int) bool {
		if left == 0 {
			return do(counts)
		}
		if i == len(counts) {
			return true
		}
		for k := min(left, a.candidates[i].most); k >= 0 && left-k <= after[i+1]; k-- {
			counts[i] = k
			if !place(i+1, left-k) {
				return false
			}
		}
		counts[i] = 0
		return true
	}
	place(0, n)
}

// accepted asks every rule about the whole site with an arrangement.
func (a *adder) accepted(counts []int) (bool, error) {
	plan, err := a.whole(counts)
	if err != nil {
		return false, err
	}
	panels := map[string]bool{}
	for i, n := range counts {
		if n > 0 {
			panels[a.candidates[i].circuit.Panel] = true
		}
	}
	if f := a.objects(judge.Plan(a.inv, a.set, a.p, &plan), panels); f != nil {
		a.panelSays = f
		return false, nil
	}
	return true, nil
}

// whole works the site out anew with units added.
func (a *adder) whole(counts []int) (circuits.Plan, error) {
	pl := newPlanner(a.inv, a.set, a.p)
	add := map[string]int{}
	for i, n := range counts {
		if n > 0 {
			add[a.candidates[i].circuit.Name] = n
		}
	}
	for _, c := range a.base.Circuits {
		if n := add[c.Name]; n > 0 {
			c = pl.changed(c, a.load, n)
		}
		pl.plan.Circuits = append(pl.plan.Circuits, c)
	}
	pl.plan.Unfed = append(pl.plan.Unfed, a.base.Unfed...)
	plan, err := pl.finish()
	if err != nil {
		return plan, err
	}
	for i := range plan.Circuits {
		judge.Circuit(a.inv, a.set, a.p, &plan, &plan.Circuits[i])
	}
	return plan, nil
}

// placed lists what each circuit takes, with its figures before and after.
func (a *adder) placed(counts []int, after circuits.Plan) []Placed {
	var out []Placed
	pl := newPlanner(a.inv, a.set, a.p)
	for i, n := range counts {
		if n == 0 {
			continue
		}
		was := a.candidates[i].circuit
		for _, is := range after.Circuits {
			if is.Name != was.Name {
				continue
			}
			p := Placed{Circuit: was.Name, Count: n, Before: was.Required, After: is.Required, Load: is.Load, Limit: is.Breaker.Or(0), Beside: pl.keptApart(is, a.load)}
			if len(is.Limits) > 0 {
				p.Binds = is.Limits[0]
			}
			out = append(out, p)
		}
	}
	return out
}

// mostProbed bounds the circuits that are asked one by one why the site around
// them stands against one unit more.
const mostProbed = 40

// refused tells of every circuit that takes none, or no more, why: by its own
// rules, or because a panel or a feeder objects.
func (a *adder) refused(counts []int) []Refused {
	short, site := total(counts) < a.r.Count, a.panelSays
	probed := 0
	var out []Refused
	for i, k := range a.candidates {
		switch {
		case k.never != "":
			out = append(out, Refused{Circuit: k.circuit.Name, Reason: k.never})
		case k.stopped != nil && counts[i] >= k.most && (k.most == 0 || short):
			out = append(out, refusal(k.circuit.Name, *k.stopped))
		case short && site != nil && probed < mostProbed:
			probed++
			more := slices.Clone(counts)
			more[i]++
			if fits, err := a.accepted(more); err == nil && !fits {
				out = append(out, refusal(k.circuit.Name, *a.panelSays))
			}
		}
	}
	if site != nil && short && probed == 0 {
		out = append(out, refusal("", *site))
	}
	return out
}

func refusal(circuit string, f codes.Finding) Refused {
	r := Refused{Circuit: circuit, Rule: f.Rule, Reason: f.Message}
	if f.State == codes.Broken && f.Actual.Unit == "A" && f.Limit.Unit == "A" && f.Actual.Value > f.Limit.Value {
		r.Short = units.Is(units.Current(f.Actual.Value - f.Limit.Value))
	}
	return r
}
