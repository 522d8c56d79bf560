package judge

import (
	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// Plan judges a plan, or the circuits of a site as they are, by the rules of its
// code profile. It returns the findings in their printed order and fills in the
// limits of every circuit, the binding one first.
func Plan(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan *circuits.Plan) []codes.Finding {
	j := begin(inv, set, p, plan)
	j.run()
	out := merge(j.answers, p.Edition)
	codes.SortFindings(out)
	return out
}

// judgment is one run over a plan.
type judgment struct {
	inv     *inventory.Inventory
	set     loads.Set
	p       *codes.Profile
	plan    *circuits.Plan
	answers []answer // those that call for a finding
	every   bool     // keep the others too

	rules map[codes.Subject][]*codes.Rule // that stand in the edition
	unfed map[string][]circuits.Unfed     // by item
	lacks map[string]lack                 // by panel, as far as asked

	nowhere map[string]string // by panel, what stands where the file does not say
}

func begin(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan *circuits.Plan) *judgment {
	j := &judgment{inv: inv, set: set, p: p, plan: plan, rules: map[codes.Subject][]*codes.Rule{}, unfed: map[string][]circuits.Unfed{},
		lacks: map[string]lack{}, nowhere: map[string]string{}}
	for i := range p.Rules {
		r := &p.Rules[i]
		if _, ok := r.In(p.Edition); ok && r.Retired == "" {
			j.rules[r.Subject] = append(j.rules[r.Subject], r)
		}
	}
	for _, u := range plan.Unfed {
		j.unfed[u.Item] = append(j.unfed[u.Item], u)
	}
	return j
}

// run puts every question that the plan raises.
func (j *judgment) run() {
	for i := range j.plan.Circuits {
		j.circuit(&j.plan.Circuits[i])
	}
	for i := range j.plan.Panels {
		j.ask(codes.OfPanel, j.panelFacts(&j.plan.Panels[i]), nil)
		if j.plan.Panels[i].Feeder != nil {
			j.ask(codes.OfFeeder, j.feederFacts(&j.plan.Panels[i]), nil)
		}
	}
	for _, l := range j.set.Loads {
		j.ask(codes.OfItem, j.itemFacts(l), nil)
		if l.Item.Table == inventory.Controllers {
			if f := j.controllerFacts(l); f != nil {
				j.ask(codes.OfControl, f, nil)
			}
		}
	}
	j.ask(codes.OfSite, j.siteFacts(), nil)
}

// answer is what a rule says about a subject.
type answer struct {
	rule    *codes.Rule
	facts   *codes.Facts
	verdict codes.Verdict
}

// ask puts a subject to every rule that concerns its kind and stands in the
// edition, and calls told with each answer.
func (j *judgment) ask(kind codes.Subject, f *codes.Facts, told func(answer)) {
	for _, r := range j.rules[kind] {
		a := answer{r, f, r.Judge(f)}
		if told != nil {
			told(a)
		}
		if j.every || a.verdict.State != codes.Holds && a.verdict.State != codes.NotAsked {
			j.answers = append(j.answers, a)
		}
	}
}

// circuit judges a circuit and each load on it, and lists its limits.
func (j *judgment) circuit(c *circuits.Circuit) {
	f := j.circuitFacts(c)
	var full limits
	j.ask(codes.OfCircuit, f, full.add)
	for _, cl := range c.Loads {
		j.ask(codes.OfLoad, j.loadFacts(c, cl, f), full.add)
	}
	c.Limits = full.sorted(j.p.Rules, j.p.Edition)
}

// start returns the facts that every subject has.
func (j *judgment) start(subject, label string) *codes.Facts {
	f := codes.NewFacts(subject, label)
	codes.Put(f, codes.Profiled, j.p)
	codes.Put(f, codes.Dwelling, j.inv.Site.Use == inventory.Dwelling)
	return f
}

// Circuit judges one circuit of a plan and the loads on it, and fills in its
// limits. The circuit need not be the plan's own: a changed copy is judged with
// the plan around it.
func Circuit(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan *circuits.Plan, c *circuits.Circuit) []codes.Finding {
	j := begin(inv, set, p, plan)
	j.circuit(c)
	out := merge(j.answers, p.Edition)
	codes.SortFindings(out)
	return out
}
