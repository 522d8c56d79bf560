package cli

import (
	"errors"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/cmd/internal/document"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/abreast"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
)

// work runs the calculation of one site, the same road for every command: loads;
// circuits, the verifier and the rules; beside them heat and the day. A plan that the
// verifier cannot confirm is never shown.
func (s *streams) work(inv *inventory.Inventory, p *codes.Profile, asBuilt bool) (document.Results, error) {
	defer s.progress.begin("loads")()
	set := loads.Build(inv, values(p))
	var plan circuits.Plan
	var findings []codes.Finding
	var hours day.Day
	var err error
	abreast.Do(2, func(i int) {
		if i == 0 {
			plan, findings, err = s.judged(inv, set, p, asBuilt)
		} else {
			hours = day.Of(inv, set)
		}
	}, func(int) {})
	if err != nil {
		return document.Results{}, err
	}
	return document.Results{
		Inventory: inv, Set: set, Profile: p, Plan: plan, Findings: findings, AsBuilt: asBuilt, Heat: hours.Heat, Day: hours,
	}, nil
}

// judged decides a plan, has it confirmed and asks the rules of it.
func (s *streams) judged(inv *inventory.Inventory, set loads.Set, p *codes.Profile, asBuilt bool) (circuits.Plan, []codes.Finding, error) {
	decide := assign.PlanWith
	if asBuilt {
		decide = assign.AsBuiltWith
	}
	plan, err := decide(inv, set, p, assign.Options{Progress: s.progress.tell})
	var large assign.TooLarge
	switch {
	case errors.As(err, &large):
		return plan, nil, hint(err, "look for a slip in a count or a power, or divide the loads among more panels")
	case err != nil:
		return plan, nil, fault{says: err.Error()}
	}
	s.progress.tell("the plan worked out anew by another road", 0, 0)
	if complaints := verify.Plan(inv, set, p, plan); len(complaints) > 0 {
		return plan, nil, fault{says: "the plan does not hold when it is worked out by another road", complaints: complaints}
	}
	s.progress.tell("rules of "+p.Title, 0, 0)
	return plan, judge.Plan(inv, set, p, &plan), nil
}
