package cli

import (
	"errors"

	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/cmd/internal/document"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
)

// work runs the calculation of one site, the same road for every command:
// loads, circuits, the verifier, the rules, heat, the day. A plan that the verifier
// cannot confirm is never shown.
func (s *streams) work(inv *inventory.Inventory, p *codes.Profile, asBuilt bool) (document.Results, error) {
	defer s.progress.begin("loads")()
	set := loads.Build(inv, values(p))
	decide := assign.PlanWith
	if asBuilt {
		decide = assign.AsBuiltWith
	}
	plan, err := decide(inv, set, p, assign.Options{Progress: s.progress.tell})
	var large assign.TooLarge
	switch {
	case errors.As(err, &large):
		return document.Results{}, hint(err, "look for a slip in a count or a power, or divide the loads among more panels")
	case err != nil:
		return document.Results{}, fault{says: err.Error()}
	}
	s.progress.tell("the plan worked out anew by another road", 0, 0)
	if complaints := verify.Plan(inv, set, p, plan); len(complaints) > 0 {
		return document.Results{}, fault{says: "the plan does not hold when it is worked out by another road", complaints: complaints}
	}
	s.progress.tell("rules of "+p.Title, 0, 0)
	findings := judge.Plan(inv, set, p, &plan)
	s.progress.tell("heat of the rooms and hours of the day", 0, 0)
	hours := day.Of(inv, set)
	return document.Results{
		Inventory: inv, Set: set, Profile: p, Plan: plan, Findings: findings, AsBuilt: asBuilt, Heat: hours.Heat, Day: hours,
	}, nil
}
