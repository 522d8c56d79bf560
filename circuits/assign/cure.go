package assign

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/units"
)

// cure finds the least thing that would make room for the units that are short,
// in this order: another circuit that exists, where the question was about one;
// a cord-connected load moved to another circuit; a new circuit; a sub-panel or
// a larger service. A larger breaker on the same conductor is never one of them.
func (a *adder) cure(out *Added, short int) error {
	if a.r.On != "" {
		elsewhere, err := Add(a.inv, a.set, a.p, Request{Item: a.r.Item, Count: a.r.Count})
		if err != nil {
			return err
		}
		if elsewhere.Fits {
			out.Needs = "another circuit that exists has room: " + list(elsewhere.Placed)
			return nil
		}
	}
	if m := a.move(short); m != nil {
		out.Move = m
		out.Needs = fmt.Sprintf("move %d × %s, connected by cord and plug, from circuit %s to circuit %s; then it fits", m.Count, m.Item, m.From, m.To)
		return nil
	}
	fresh, objection, err := a.newCircuits(short, out.After)
	if err != nil {
		return err
	}
	if objection == nil && len(fresh) > 0 {
		out.New = fresh
		out.Needs = "a new circuit, by a licensed electrician: " + describeNew(fresh, out.After.Panels, a.load.Name)
		return nil
	}
	if objection != nil && objection.State == codes.CannotTell {
		out.Needs = "first what is not known: " + objection.Message + "; " + objection.Remedy
		return nil
	}
	out.Needs = "a sub-panel or a larger service: work for a licensed electrician and the utility"
	if objection != nil {
		out.Needs += "; a new circuit is stopped by: " + objection.Message
	}
	return nil
}

func list(placed []Placed) string {
	s := ""
	for i, p := range placed {
		if i > 0 {
			s += ", "
		}
		s += fmt.Sprintf("%d on %s", p.Count, p.Circuit)
		if slices.Contains(p.Beside, loads.Lighting) {
			s += ", beside lights whose breaker stops it when they trip it"
		}
	}
	return s
}

func describeNew(list []circuits.Circuit, panels []circuits.Panel, item string) string {
	s := ""
	for i, c := range list {
		if i > 0 {
			s += "; "
		}
		n := 0
		for _, l := range c.Loads {
			n += l.Count
		}
		where := spacesText(c.Spaces) + " of panel " + c.Panel
		if slices.ContainsFunc(panels, func(x circuits.Panel) bool { return x.Name == c.Panel && x.Unlisted() }) {
			where = "in panel " + c.Panel + ", whose free spaces the file does not tell (provisionally " + spacesText(c.Spaces) + ")" // breakers of its other load are not listed
		}
		s += fmt.Sprintf("%s at %s, %d-pole, %s, for %d × %s", c.Breaker.Or(0), c.Supply.Volts, c.Supply.Poles, where, n, item)
	}
	return s
}

func spacesText(spaces []int) string {
	parts := make([]string, len(spaces))
	for i, s := range spaces {
		parts[i] = strconv.Itoa(s)
	}
	if len(parts) == 1 {
		return "space " + parts[0]
	}
	return "spaces " + strings.Join(parts, ", ")
}

// move looks for the smallest move of one kind of cord-connected load from a
// candidate to another circuit after which all units fit. The wiring stays as it
// is: only plugs change places.
func (a *adder) move(short int) *Move {
	if short <= 0 {
		return nil
	}
	most := 0
	for _, k := range a.candidates {
		for _, cl := range k.circuit.Loads {
			most = max(most, cl.Count)
		}
	}
	for n := 1; n <= most; n++ {
		for _, from := range a.candidates {
			if from.never != "" {
				continue
			}
			if m := a.moveFrom(from, n, short); m != nil {
				return m
			}
		}
	}
	return nil
}

func (a *adder) moveFrom(from candidate, n, short int) *Move {
	for _, cl := range from.circuit.Loads {
		moved, _ := a.set.Named(cl.Item)
		if cl.Count < n || !moved.Corded || moved.Category == loads.Receptacles || cl.Item == a.load.Name {
			continue
		}
		lighter, err := a.with(from.circuit, moved, -n)
		if err != nil {
			continue
		}
		mover := &adder{inv: a.inv, set: a.set, p: a.p, load: moved, base: a.base}
		takes, _ := a.most(lighter, a.load, a.r.Count)
		if takes-from.most < short {
			continue
		}
		for _, to := range a.base.Circuits {
			if to.Name == from.circuit.Name || mover.unfit(to) != "" || to.Controller != moved.Item.Controller {
				continue
			}
			// What the circuit it goes to gives up to the units asked for may not
			// be needed there: it keeps what it was asked to take.
			loaded := to
			for _, k := range a.candidates {
				if k.circuit.Name == to.Name && k.most > 0 {
					if loaded, err = a.with(to, a.load, k.most); err != nil {
						continue
					}
				}
			}
			if fits, _ := a.most(loaded, moved, n); fits == n && a.afterMove(from, to, moved, n, takes) {
				return &Move{Item: cl.Item, Count: n, From: from.circuit.Name, To: to.Name}
			}
		}
	}
	return nil
}

// afterMove asks every rule about the whole site once the plugs have changed
// places and the units are on.
func (a *adder) afterMove(from candidate, to circuits.Circuit, moved loads.Load, n, takes int) bool {
	b := *a
	b.base.Circuits = nil
	pl := newPlanner(a.inv, a.set, a.p)
	for _, c := range a.base.Circuits {
		switch c.Name {
		case from.circuit.Name:
			c = pl.changed(c, moved, -n)
		case to.Name:
			c = pl.changed(c, moved, n)
		}
		b.base.Circuits = append(b.base.Circuits, c)
	}
	b.candidates = append([]candidate{}, a.candidates...)
	for i := range b.candidates {
		if b.candidates[i].circuit.Name == from.circuit.Name {
			b.candidates[i].most = takes
		}
	}
	counts, _, err := b.arrange()
	return err == nil && total(counts) == a.r.Count
}

// newCircuits plans the units that are short on circuits of their own beside
// everything that exists, and returns what a rule has against that.
func (a *adder) newCircuits(short int, after circuits.Plan) ([]circuits.Circuit, *codes.Finding, error) {
	inv := *a.inv
	inv.Plan.Reuse = units.Is(false) // circuits that exist have answered already
	pl := newPlanner(&inv, a.set, a.p)
	for k := range pl.left {
		pl.left[k] = 0
	}
	for _, c := range after.Circuits {
		c.Loads = slices.Clone(c.Loads)
		pl.plan.Circuits = append(pl.plan.Circuits, c)
	}
	pl.left[a.load.Name] = short
	pl.single()
	if err := pl.shared(); err != nil {
		return nil, nil, err
	}
	if err := pl.overfull(); err != nil {
		return nil, &codes.Finding{Rule: "panel-spaces", Message: err.Error()}, nil
	}
	unfed := pl.plan.Unfed
	plan, err := pl.finish()
	if err != nil {
		return nil, nil, err
	}
	if len(unfed) > 0 {
		return nil, &codes.Finding{Rule: "unfed-load", Message: unfed[0].Reason}, nil
	}
	findings := judge.Plan(a.inv, a.set, a.p, &plan) // fills in each circuit's limits
	var out []circuits.Circuit
	panels := map[string]bool{}
	for _, c := range plan.Circuits {
		if !c.Existing {
			out = append(out, c)
			panels[c.Panel] = true
		}
	}
	if f := a.objects(findings, panels); f != nil {
		return nil, f, nil
	}
	return out, nil, nil
}
