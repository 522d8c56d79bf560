package document

import (
	"slices"
	"sort"
	"strings"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/day"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Results is what one run worked out about a site.
type Results struct {
	Inventory *inventory.Inventory
	Set       loads.Set
	Profile   *codes.Profile
	Plan      circuits.Plan
	Findings  []codes.Finding
	Heat      heat.Result
	Day       day.Day
	AsBuilt   bool
	RoomLeft  []RoomLeft               // of circuits as they are
	Compared  []circuits.VoltageChoice // where it was asked for
}

// NewPlan returns the document of a plan, or of the circuits as they are.
func NewPlan(r Results) Plan {
	d := Plan{
		Schema: PlanSchema, Site: r.Plan.Site, Code: r.Profile.Name, CodeTitle: r.Profile.Title, GroundCalled: r.Profile.Wires.GroundCalled, Use: string(r.Plan.Use), AsBuilt: r.AsBuilt,
		Circuits: []Circuit{}, Panels: []Panel{}, Heat: rooms(r.Heat), Day: planDay(r.Day), VoltageChoices: []VoltageChoice{}, Unfed: []Unfed{},
		Findings: []Finding{}, Assumptions: assumptions(allAssumed(r)), Verdict: NewVerdict(r.Findings, r.Profile), Checked: checked(r.Profile), Listed: listedItems(r),
	}
	legs := map[string][]string{}
	for _, p := range r.Plan.Panels {
		legs[p.Name] = p.LegNames
	}
	for _, p := range r.Plan.Panels {
		x := panel(p, legs)
		if x.LeastLoad = leastLoad(r.Plan, p.Name); x.LeastLoad { // more load may as well even the legs out
			x.ImbalancePercent, x.NeutralAmps = nil, nil
		}
		d.Panels = append(d.Panels, x)
	}
	for _, c := range r.Plan.Circuits {
		x := circuit(c, r.Set, legs[c.Panel])
		x.NotApplied = notApplied(r, c)
		d.Circuits = append(d.Circuits, x)
	}
	for _, f := range gravestLast(r.Findings) {
		d.Findings = append(d.Findings, finding(f, r.Inventory))
	}
	for _, u := range r.Plan.Unfed {
		d.Unfed = append(d.Unfed, Unfed{Item: u.Item, Count: u.Count, Reason: u.Reason, Needs: u.Needs, Line: r.Inventory.Line(u.Path)})
	}
	for _, c := range r.Plan.Choices {
		d.VoltageChoices = append(d.VoltageChoices, choice(c))
	}
	d.Scarce, d.Proofs = scarcest(r.Plan), proofs(r.Plan.Proofs)
	if r.Compared != nil {
		d.Compare = comparison(r.Compared)
	}
	if r.AsBuilt {
		d.RoomLeft = list(r.RoomLeft)
	} else {
		d.Optimality = optimality(r.Plan.Optimality)
	}
	return d
}

func gravestLast(findings []codes.Finding) []codes.Finding {
	sorted := slices.Clone(findings)
	codes.SortFindings(sorted)
	return sorted
}

// allAssumed joins what the plan, the heat balance and the day assumed, each once, in
// natural order of subject.
func allAssumed(r Results) []loads.Assumption {
	all := slices.Concat(r.Plan.Assumptions, r.Heat.Assumptions, r.Day.Assumptions)
	sort.SliceStable(all, func(i, j int) bool { return units.NaturalLess(all[i].Subject, all[j].Subject) })
	return slices.CompactFunc(all, func(a, b loads.Assumption) bool { return a.Subject == b.Subject && a.Value == b.Value })
}

func assumptions(all []loads.Assumption) []Assumption {
	out := []Assumption{}
	for _, a := range all {
		out = append(out, Assumption{Subject: a.Subject, Value: a.Value, Why: a.Why + noKey(a), Source: source(a.Cite)})
	}
	return out
}

// noKey tells readers that what was taken cannot be given in the file, so that nobody
// looks for how; not where the reason names a key that can.
func noKey(a loads.Assumption) string {
	given, _, _ := strings.Cut(a.Why, " is not given")
	if subject, _, _ := strings.Cut(a.Subject, " of "); inventory.HasKey(subject) || inventory.HasKey(given) {
		return ""
	}
	return "; the file has no key for it"
}

// source prints a cite, and how the value was checked where the cite does not
// say so itself.
func source(c steps.Cite) string {
	s := c.String()
	if c.How == steps.Derived {
		s += " (" + c.How.String() + ")"
	}
	return s
}

func finding(f codes.Finding, inv *inventory.Inventory) Finding {
	at := f.At
	if at == "" {
		at = f.Subject
	}
	d := Finding{Rule: f.Rule, Title: f.Title, Severity: f.Severity.String(), Verdict: f.State.String(), Clause: f.Clause(),
		Subject: f.Subject, Message: f.Message, Remedy: f.Remedy, Line: inv.Line(at), Also: f.Also}
	if f.Limit.Unit != "" || f.Limit.Value != 0 {
		d.Actual, d.Limit, d.Unit = number(f.Actual.Value), number(f.Limit.Value), f.Limit.Unit
	}
	for _, m := range f.Missing {
		d.Missing = append(d.Missing, string(m))
	}
	return d
}

func choice(c circuits.VoltageChoice) VoltageChoice {
	d := VoltageChoice{Item: c.Item, ChosenVolts: float64(c.Chosen), Options: []VoltageOption{}}
	for _, o := range c.Options {
		d.Options = append(d.Options, VoltageOption{Volts: float64(o.Volts), Phases: o.Phases, Spaces: o.Spaces, Circuits: o.Circuits, AmpsEach: float64(o.Each)})
	}
	return d
}

func optimality(o circuits.Optimality) *Optimality {
	return &Optimality{
		Spaces:    Bounded(o.Spaces),
		Circuits:  Bounded(o.Circuits),
		Imbalance: BoundedImbalance{boundedVA(o.Imbalance), boundedVA(o.LightsOn)},
	}
}

func boundedVA(b circuits.Bounded) BoundedVA { return BoundedVA{b.Used, b.Bound, b.Proved, b.Why} }
