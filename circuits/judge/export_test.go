package judge

import (
	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// Asked is one rule put to one subject, with what was known of it.
type Asked struct {
	Rule    codes.Rule
	Facts   *codes.Facts
	Verdict codes.Verdict
}

// Ask returns every question that a plan raises, and its answer.
func Ask(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan *circuits.Plan) []Asked {
	j := begin(inv, set, p, plan)
	j.every = true
	j.run()
	out := make([]Asked, len(j.answers))
	for i, a := range j.answers {
		out[i] = Asked{*a.rule, a.facts, a.verdict}
	}
	return out
}
