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
	j := &judgment{inv: inv, set: set, p: p, plan: plan}
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
	answers []answer
}

// run puts every question that the plan raises.
func (j *judgment) run() {
	for i := range j.plan.Circuits {
		j.circuit(&j.plan.Circuits[i])
	}
	for i := range j.plan.Panels {
		j.ask(codes.OfPanel, j.panelFacts(&j.plan.Panels[i]))
		if j.plan.Panels[i].Feeder != nil {
			j.ask(codes.OfFeeder, j.feederFacts(&j.plan.Panels[i]))
		}
	}
	for _, l := range j.set.Loads {
		j.ask(codes.OfItem, j.itemFacts(l))
		if l.Item.Table == inventory.Controllers {
			if f := j.controllerFacts(l); f != nil {
				j.ask(codes.OfControl, f)
			}
		}
	}
	j.ask(codes.OfSite, j.siteFacts())
}

// answer is what a rule says about a subject.
type answer struct {
	rule    codes.Rule
	facts   *codes.Facts
	verdict codes.Verdict
}

// ask puts a subject to every rule that concerns its kind and stands in the
// edition, and returns the answers.
func (j *judgment) ask(kind codes.Subject, f *codes.Facts) []answer {
	var out []answer
	for _, r := range j.p.Rules {
		if r.Subject != kind || r.Retired != "" {
			continue
		}
		if _, ok := r.In(j.p.Edition); !ok {
			continue
		}
		out = append(out, answer{r, f, r.Judge(f)})
	}
	j.answers = append(j.answers, out...)
	return out
}

// circuit judges a circuit and each load on it, and lists its limits.
func (j *judgment) circuit(c *circuits.Circuit) {
	f := j.circuitFacts(c)
	answers := j.ask(codes.OfCircuit, f)
	for _, cl := range c.Loads {
		answers = append(answers, j.ask(codes.OfLoad, j.loadFacts(c, cl, f))...)
	}
	c.Limits = limits(answers, j.p.Rules, j.p.Edition)
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
	j := &judgment{inv: inv, set: set, p: p, plan: plan}
	j.circuit(c)
	out := merge(j.answers, p.Edition)
	codes.SortFindings(out)
	return out
}
