package assign

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Request is units to add to circuits that exist.
type Request struct {
	Item  string // name of a load of the set
	Count int
	On    string // only this circuit; empty: any
}

// Added is the answer: yes with where, or no with how short and the least thing
// that would make it possible. Nothing that is wired is changed by a yes.
type Added struct {
	Item          string
	Count         int
	Fits          bool
	Placed        []Placed           // which circuit takes how many, also of a no: as many as fit
	Refused       []Refused          // why a circuit takes none, or no more
	Move          *Move              // a cord-connected load moved first makes room
	New           []circuits.Circuit // new circuits that would carry the rest
	Needs         string             // the least thing that would make it possible; empty for a yes
	Before, After circuits.Plan      // After holds the units placed
	Proved        bool               // no other arrangement on circuits that exist takes more
}

// Placed is units that a circuit takes.
type Placed struct {
	Circuit       string
	Count         int
	Before, After units.Current    // least rating required
	Load          units.Current    // what flows then
	Limit         units.Current    // the breaker
	Binds         circuits.Limit   // the limit that binds then
	Beside        []loads.Category // what is otherwise kept on circuits of its own
}

// Refused is a circuit that takes no more, and the rule that says so.
type Refused struct {
	Circuit string
	Rule    string
	Reason  string
	Short   units.Known[units.Current]
}

// Move is a cord-connected load that would go to another circuit.
type Move struct {
	Item     string
	Count    int
	From, To string
}

// Add answers whether more units of a load can go on circuits that exist.
//
// It is exact: units are alike and circuits do not depend on one another but
// through their panels, so each circuit is asked by every rule for the most it
// takes, and what all take together is the answer. Where a panel, its main or a
// feeder says no to what the circuits allow, other arrangements are tried, up to
// mostArrangements; Proved tells whether that was all of them.
func Add(inv *inventory.Inventory, set loads.Set, p *codes.Profile, r Request) (Added, error) {
	l, ok := set.Named(r.Item)
	if !ok {
		return Added{}, fmt.Errorf("no item %q", r.Item)
	}
	before, err := AsBuilt(inv, set, p)
	if err != nil {
		return Added{}, err
	}
	a := &adder{inv: inv, set: set, p: p, load: l, r: r, base: before}
	a.basis = violations(judge.Plan(inv, set, p, &a.base))
	out := Added{Item: r.Item, Count: r.Count, Before: a.base, After: a.base, Proved: true}
	a.ask()
	counts, proved, err := a.arrange()
	if err != nil {
		return Added{}, err
	}
	out.Proved = proved
	placed := total(counts)
	out.Fits = placed == r.Count
	if out.After, err = a.whole(counts); err != nil {
		return Added{}, err
	}
	out.Placed = a.placed(counts, out.After)
	out.Refused = a.refused(counts)
	if out.Fits {
		return out, nil
	}
	return out, a.cure(&out, r.Count-placed)
}

// adder is one question put to the circuits that exist.
type adder struct {
	inv   *inventory.Inventory
	set   loads.Set
	p     *codes.Profile
	load  loads.Load
	r     Request
	base  circuits.Plan
	basis map[string]bool // violations that are there already
	pl    *planner        // works out circuits as they would be; made when the first is

	candidates []candidate
	panelSays  *codes.Finding // why a panel or feeder refused, where one did
}

// candidate is a circuit with the most units it takes by itself.
type candidate struct {
	circuit circuits.Circuit
	most    int
	stopped *codes.Finding // the finding that stops one more
	never   string         // why it is no candidate at all
}

// ask finds for each circuit the most units that no rule of the circuit objects
// to.
func (a *adder) ask() {
	for _, c := range a.base.Circuits {
		if a.r.On != "" && c.Name != a.r.On {
			continue
		}
		k := candidate{circuit: c, never: a.unfit(c)}
		if k.never == "" {
			k.most, k.stopped = a.most(c, a.load, a.r.Count)
		}
		a.candidates = append(a.candidates, k)
	}
	a.preferred()
}

// unfit tells why a circuit is no place for the load whatever its room: it does
// not reach the load's room or does not supply its voltage.
func (a *adder) unfit(c circuits.Circuit) string {
	reach := len(a.load.Panels) == 0
	for _, name := range a.load.Panels {
		reach = reach || name == c.Panel
	}
	switch {
	case !reach:
		return "it is on panel " + c.Panel + ", which does not feed the room"
	case !a.load.Accepts(c.Supply):
		if c.Supply.Phases == 3 && a.load.Phases != 3 {
			return fmt.Sprintf("it supplies %s three-phase, the load takes one phase", c.Supply.Volts)
		}
		return fmt.Sprintf("it supplies %s, the load accepts %s", c.Supply.Volts, a.load.Voltage)
	case c.Controller != "" && c.Controller != a.load.Item.Controller:
		return "controller " + c.Controller + " switches it"
	case len(c.Loads) > 0 && a.load.Alone:
		return "the load takes a circuit of its own: " + a.load.AloneWhy
	}
	return ""
}

// most returns the largest number of units of a load, up to a wish, that a
// circuit takes with no violation on it, and the finding that stops one more.
// Limits only tighten as units are added, so the first refusal is the last.
func (a *adder) most(c circuits.Circuit, l loads.Load, wish int) (int, *codes.Finding) {
	return a.mostFrom(c, l, wish, a.objection(c, l, 0))
}

// mostFrom is most where stop is what is said of the circuit as it is.
func (a *adder) mostFrom(c circuits.Circuit, l loads.Load, wish int, stop *codes.Finding) (int, *codes.Finding) {
	low, high := 0, 1 // low fits, high does not or is not known
	if stop != nil {
		if more := a.objection(c, l, 1); more != nil {
			stop = more // how short it is with one more
		}
		return 0, stop
	}
	if d, _ := l.Forced(c.Supply); d.Amps > 0 { // what is free of the breaker tells where to begin
		if n := int(min(c.Free/d.Amps, units.Current(wish))); n > 1 {
			if stop = a.objection(c, l, n); stop == nil {
				low, high = n, n+1
			} else {
				high = n
			}
		}
	}
	for ; stop == nil && high <= wish; high *= 2 {
		if stop = a.objection(c, l, high); stop != nil {
			break
		}
		low = high
	}
	if stop == nil {
		if high = wish + 1; low == wish {
			return wish, a.objection(c, l, high)
		}
		if stop = a.objection(c, l, high); stop == nil {
			return wish, nil
		}
	}
	for high-low > 1 {
		mid := (low + high) / 2
		if s := a.objection(c, l, mid); s != nil {
			high, stop = mid, s
		} else {
			low = mid
		}
	}
	return low, stop
}

// objection returns the first violation that a circuit has with n more units of
// a load on it.
func (a *adder) objection(c circuits.Circuit, l loads.Load, n int) *codes.Finding {
	changed, err := a.with(c, l, n)
	if err != nil {
		return &codes.Finding{Rule: "conductor", Severity: codes.Violation, State: codes.CannotTell, Message: err.Error()}
	}
	for _, f := range judge.Circuit(a.inv, a.set, a.p, &a.base, &changed) {
		if f.Severity == codes.Violation {
			return &f
		}
	}
	return nil
}

// with returns a copy of a circuit that feeds n more units of a load; n may be
// negative.
func (a *adder) with(c circuits.Circuit, l loads.Load, n int) (circuits.Circuit, error) {
	if a.pl == nil {
		a.pl = newPlanner(a.inv, a.set, a.p)
	}
	c = a.pl.changed(c, l, n)
	a.pl.settle(&c)
	return c, a.pl.wire(&c)
}

// changed returns a copy of a circuit with n more units of a load, not yet
// worked out.
func (pl *planner) changed(c circuits.Circuit, l loads.Load, n int) circuits.Circuit {
	list := append([]circuits.Load{}, c.Loads...)
	found := false
	for i := range list {
		if list[i].Item == l.Name {
			list[i].Count += n
			list[i].Added += max(n, 0)
			found = true
		}
	}
	if !found && n > 0 {
		added := pl.carries(l, n, c.Supply)
		added.Added = n
		list = append(list, added)
	}
	c.Loads = list[:0:0]
	for _, cl := range list {
		if cl.Count > 0 {
			c.Loads = append(c.Loads, cl)
		}
	}
	c.Changed = c.Changed || n != 0
	pl.describe(&c)
	return c
}

func violations(list []codes.Finding) map[string]bool {
	out := map[string]bool{}
	for _, f := range list {
		if f.Severity == codes.Violation {
			out[f.Rule+" "+f.Subject] = true
		}
	}
	return out
}

// objects returns the first violation that stands against more load on some
// panels: one that was not there before, or one that was, of these panels or of
// what feeds them, in amperes or volt-amperes or because something is not known.
func (a *adder) objects(found []codes.Finding, panels map[string]bool) *codes.Finding {
	above := upstream(a.inv, panels)
	for _, f := range found {
		carries := f.State == codes.CannotTell || f.Actual.Unit == "A" || f.Actual.Unit == "VA"
		switch {
		case f.Severity != codes.Violation || f.Rule == "unfed-load":
		case slices.Equal(f.Missing, []codes.Fact{codes.SpacesUsed}): // the circuit is told with the words that its panel's free spaces are not known
		case !a.basis[f.Rule+" "+f.Subject], carries && ofPanels(f, above):
			return &f
		}
	}
	return nil
}

// ofPanels reports whether a finding is of one of some panels, or of several
// panels at once.
func ofPanels(f codes.Finding, panels map[string]bool) bool {
	return slices.ContainsFunc(append([]string{f.Subject}, f.Judged...), func(subject string) bool {
		name, ok := strings.CutPrefix(subject, "panels.")
		return subject == "panels" || ok && panels[name]
	})
}

func total(counts []int) int {
	n := 0
	for _, k := range counts {
		n += k
	}
	return n
}
