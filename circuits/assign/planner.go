package assign

import (
	"sort"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Plan returns the plan of a site: its existing circuits as they are and new
// circuits for every unit that they do not feed. Units that no circuit can feed
// are listed with the reason; none is ever lost. An error is our own fault.
func Plan(inv *inventory.Inventory, set loads.Set, p *codes.Profile) (circuits.Plan, error) {
	return PlanWith(inv, set, p, Options{})
}

// AsBuilt returns the circuits of a site as they are, and what none of them
// feeds.
func AsBuilt(inv *inventory.Inventory, set loads.Set, p *codes.Profile) (circuits.Plan, error) {
	return AsBuiltWith(inv, set, p, Options{})
}

type planner struct {
	inv  *inventory.Inventory
	set  loads.Set
	p    *codes.Profile
	plan circuits.Plan
	left map[string]int // units without a circuit, by item

	options Options

	spaceBound, circuitBound int64 // of what was packed
	packed                   []packedCell
	taken                    map[string]tally        // by panel
	pulls                    map[string][]panel.Pull // by sub-panel, the most in any state

	panelAt, roomAt map[string]int  // by name: where in inv
	assumed         map[string]bool // subjects of plan.Assumptions
}

func newPlanner(inv *inventory.Inventory, set loads.Set, p *codes.Profile) *planner {
	pl := &planner{inv: inv, set: set, p: p, left: map[string]int{}, taken: map[string]tally{}, pulls: map[string][]panel.Pull{},
		panelAt: map[string]int{}, roomAt: map[string]int{}, assumed: make(map[string]bool, len(set.Assumptions))}
	for _, l := range set.Loads {
		pl.left[l.Name] = l.Count
	}
	for i := range inv.Panels {
		pl.panelAt[inv.Panels[i].Name] = i
	}
	for i := range inv.Rooms {
		pl.roomAt[inv.Rooms[i].Name] = i
	}
	for _, a := range set.Assumptions {
		pl.assumed[a.Subject] = true
	}
	pl.plan = circuits.Plan{Site: inv.Site.Name, Use: inv.Site.Use, Code: p.Name, CodeTitle: p.Title,
		Assumptions: append([]loads.Assumption{}, set.Assumptions...)}
	return pl
}

func (pl *planner) assume(subject, value, why string, cite steps.Cite) {
	if pl.assumed[subject] {
		return
	}
	pl.assumed[subject] = true
	pl.plan.Assumptions = append(pl.plan.Assumptions, loads.Assumption{Subject: subject, Value: value, Why: why, Cite: cite})
}

func (pl *planner) unfed(l loads.Load, n int, reason, needs string) {
	pl.left[l.Name] -= n
	pl.plan.Unfed = append(pl.plan.Unfed, circuits.Unfed{Item: l.Name, Path: l.Path, Count: n, Reason: reason, Needs: needs})
}

func (pl *planner) panel(name string) (inventory.Panel, bool) {
	if i, ok := pl.panelAt[name]; ok {
		return pl.inv.Panels[i], true
	}
	return inventory.Panel{}, false
}

func (pl *planner) room(name string) inventory.Room {
	if i, ok := pl.roomAt[name]; ok {
		return pl.inv.Rooms[i]
	}
	return inventory.Room{}
}

// load returns the load of that name; of an unknown one nothing is known.
func (pl *planner) load(name string) *loads.Load {
	if i := pl.set.Where(name); i >= 0 {
		return &pl.set.Loads[i]
	}
	l, _ := pl.set.Named(name)
	return &l
}

// carries makes n units of a load part of a circuit on a supply. Where the load
// does not accept the supply the draw is what it would be; the judge tells.
func (pl *planner) carries(l loads.Load, n int, s inventory.Supply) circuits.Load {
	d, _ := l.Forced(s)
	on, why, cite := pl.continuous(l, d)
	return circuits.Load{Item: l.Name, Path: l.Path, Category: l.Category, Room: l.Room, Count: n, Listed: l.Item.Listed,
		Draw: d, Continuous: on, Always: l.Heater && pl.p.Heating.AlwaysSized, Why: why, Cite: cite}
}

// continuous tells whether a load counts with the allowance for continuous
// operation. The file may mark a load continuous; it cannot mark one that runs
// for hours as not continuous, nor space heating that the code always counts so.
func (pl *planner) continuous(l loads.Load, d loads.Draw) (bool, string, steps.Cite) {
	if d.MinCircuit.Known() {
		return false, "its nameplate minimum circuit ampacity holds the allowance already", pl.p.Marked.Cite
	}
	if d.Motor {
		if !pl.p.Motors.Held() {
			return true, "a motor counts as continuous whatever its hours; the rule for motors is not held", steps.CommonPractice
		}
		return true, "conductors for " + units.Round(100*float64(pl.p.Motors.Conductor), 0) + " % of a motor's full-load current, whatever its hours", pl.p.Motors.WireCite
	}
	if marked, ok := l.Continuous.Get(); ok && marked {
		return true, "the file marks it continuous", steps.Cite{}
	} else if ok && !l.HoursKnown && !(l.Heater && pl.p.Heating.AlwaysSized) {
		return false, "the file marks it as not continuous", steps.Cite{}
	}
	hours := units.Unknown[clock.Windows](l.LongestRun().Why())
	if l.LongestRun().Known() {
		hours = units.Is(l.Hours)
	}
	return pl.p.IsContinuousIn(hours, d.Amps, l.Heater)
}

// finish gives every circuit its conductor, its panel spaces and its figures,
// and every panel its legs, feeder and demand.
func (pl *planner) finish() (circuits.Plan, error) {
	if err := pl.layOut(); err != nil {
		return circuits.Plan{}, err
	}
	pl.number()
	if err := pl.wireAll(); err != nil {
		return circuits.Plan{}, err
	}
	pl.spare()
	pl.chosenVoltages()
	pl.optimality()
	sort.SliceStable(pl.plan.Assumptions, func(i, j int) bool {
		return units.NaturalLess(pl.plan.Assumptions[i].Subject, pl.plan.Assumptions[j].Subject)
	})
	return pl.plan, nil
}
