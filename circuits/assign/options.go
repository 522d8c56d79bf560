package assign

import (
	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// Options are how a plan is worked out. They bear on nothing in it.
type Options struct {
	// Progress, where it is set, is told of each part of the work before it begins,
	// and that it is number at of so many alike. It is called by the goroutine that
	// plans, often.
	Progress func(part string, at, of int)
}

// PlanWith is Plan with options.
func PlanWith(inv *inventory.Inventory, set loads.Set, p *codes.Profile, o Options) (circuits.Plan, error) {
	pl := newPlanner(inv, set, p)
	pl.options = o
	pl.readExisting()
	if err := pl.voltageChoices(); err != nil {
		return circuits.Plan{}, err
	}
	pl.boxes()
	pl.single()
	if err := pl.shared(); err != nil {
		return circuits.Plan{}, err
	}
	return pl.finish()
}

// AsBuiltWith is AsBuilt with options.
func AsBuiltWith(inv *inventory.Inventory, set loads.Set, p *codes.Profile, o Options) (circuits.Plan, error) {
	pl := newPlanner(inv, set, p)
	pl.options = o
	pl.readExisting()
	for _, l := range set.Loads {
		if n := pl.left[l.Name]; n > 0 {
			pl.unfed(l, n, "no circuit in the file feeds it", "add it to the `feeds` of its circuit, or plan a new one")
		}
	}
	return pl.finish()
}

// tell reports that a part of the work begins.
func (pl *planner) tell(part string, at, of int) {
	if pl.options.Progress != nil {
		pl.options.Progress(part, at, of)
	}
}

// says names the loads of a cell as a reader would.
func (k cellKey) says() string {
	says := "circuits for " + k.group[2:]
	if k.room != "" {
		says += " of room " + k.room
	}
	if k.controller != "" {
		says += ", controller " + k.controller
	}
	return says
}
