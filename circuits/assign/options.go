package assign

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
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
	if err := pl.overfull(); err != nil {
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

// TooLarge is a panel that would have more spaces than any panel of a file may
// have: a slip in the file, not a plan.
type TooLarge struct {
	Panel  string
	Spaces int
}

func (e TooLarge) Error() string {
	return fmt.Sprintf("panel %q would need %s spaces; a panel has at most %s", e.Panel, units.Round(float64(e.Spaces), 0), units.Round(inventory.MostSpaces, 0))
}

// overfull finds such a panel before anything is laid out.
func (pl *planner) overfull() error {
	for _, x := range pl.inv.Panels {
		if n := pl.taken[x.Name].spaces; n > inventory.MostSpaces {
			return TooLarge{x.Name, n}
		}
	}
	return nil
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
	switch k.group {
	case sharedGroup:
		says = "shared circuits"
	case defaultGroups[loads.OtherLoads]:
		says = "circuits for other loads"
	}
	if k.room != "" {
		says += " of room " + k.room
	}
	if k.controller != "" {
		says += ", controller " + k.controller
	}
	return says
}
