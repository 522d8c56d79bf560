package page

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Plan lays out the answer of plan and check. Findings come last, the gravest
// of them nearest to the end, so that they are what stays on a screen.
func Plan(d document.Plan, s System) Page { return plan(d, s, false) }

// PlanWithProof is Plan with the bounds of the panel spaces worked out, so that
// they can be checked by hand.
func PlanWithProof(d document.Plan, s System) Page { return plan(d, s, true) }

func plan(d document.Plan, s System, proof bool) Page {
	var p Page
	p.add(Heading{1, d.Site}, Text{Text: about(d)}, siteTable(d))
	for _, panel := range d.Panels {
		p.add(panelBlocks(d, panel, s)...)
	}
	p.add(termBlocks(d)...)
	p.add(panelTable(d), feederTable(d, s))
	p.add(voltageBlocks(d)...)
	p.add(compareBlocks(d)...)
	p.add(measuredBlocks(d)...)
	p.add(roomLeftBlocks(d)...)
	p.add(unfedBlocks(d)...)
	p.add(heatLines(d.Heat, s)...)
	p.add(planDayBlocks(d.Day, s)...)
	p.add(optimalityBlocks(d)...)
	if proof {
		p.add(proofBlocks(d)...)
	}
	p.add(scarceBlocks(d)...)
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(checkedBlocks(d.Checked)...)
	p.add(findingBlocks(d.Findings)...)
	p.add(Heading{2, "Verdict"}, Text{ID: "verdict", Text: d.Verdict.Says + "."}, Text{ID: "caution", Text: d.Checked.Caution})
	return p
}

// termBlocks explain words of the tables that a reader may not know.
func termBlocks(d document.Plan) []Block {
	if len(d.Circuits) == 0 {
		return nil
	}
	says := "Leg: one hot conductor of the panel. Free: continuous load that the breaker could still carry; none where a load must have the circuit to itself."
	if slices.ContainsFunc(d.Circuits, func(c document.Circuit) bool { return strings.HasPrefix(c.State, "changeover") }) {
		says = "Changeover: what goes off and what comes on can overlap. " + says
	}
	return []Block{Text{ID: "terms", Text: says}}
}

func about(d document.Plan) string {
	what := "planned circuits"
	switch {
	case d.AsBuilt:
		what = "circuits as they are"
	case d.NothingPlanned():
		what = "circuits that exist, nothing is planned"
	}
	return fmt.Sprintf("%s; %s use; code: %s", what, d.Use, d.CodeTitle)
}

func siteTable(d document.Plan) Table {
	return Table{ID: "site", DataOnly: true, Columns: []Column{{Name: "site"}, {Name: "code"}, {Name: "use"}, {Name: "as built"}, {Name: "exit status"}},
		Rows: [][]Cell{{text(d.Site), text(d.CodeTitle), text(d.Use), text(yesNo(d.AsBuilt)), whole(d.Verdict.ExitStatus)}}}
}

func voltageBlocks(d document.Plan) []Block {
	t := Table{ID: "voltages", Columns: []Column{{Name: "item"}, {Name: "volts", Unit: "V"}, {Name: "phases"},
		{Name: "each", Unit: "A"}, {Name: "circuits"}, {Name: "spaces"}, {Name: "chosen"}}}
	for _, c := range d.VoltageChoices {
		for _, o := range c.Options {
			chosen := ""
			if o.Volts == c.ChosenVolts {
				chosen = "yes"
			}
			t.Rows = append(t.Rows, []Cell{text(c.Item), number(o.Volts, 0), whole(o.Phases), number(o.AmpsEach, 2), whole(o.Circuits), whole(o.Spaces), text(chosen)})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{2, "Voltages available"}, t}
}

func unfedBlocks(d document.Plan) []Block {
	if len(d.Unfed) == 0 {
		return nil
	}
	t := Table{ID: "unfed", Columns: []Column{{Name: "item"}, {Name: "count"}, {Name: "why"}, {Name: "what it would take"}}}
	for _, u := range d.Unfed {
		t.Rows = append(t.Rows, []Cell{text(u.Item), whole(u.Count), text(u.Reason), text(u.Needs)})
	}
	return []Block{Heading{2, "Not fed by any circuit"}, t}
}

func optimalityBlocks(d document.Plan) []Block {
	o := d.Optimality
	if o == nil || d.NothingPlanned() { // what stands in the wall is no plan to be praised
		return nil
	}
	items := []string{
		goodness(o.Spaces.Used, o.Spaces.Bound, o.Spaces.Proved, "panel space", "panel spaces", o.Spaces.Why),
		goodness(o.Circuits.Used, o.Circuits.Bound, o.Circuits.Proved, "circuit", "circuits", o.Circuits.Why),
		evenness(uneven, o.Imbalance.VA, o.Imbalance.BoundVA, o.Imbalance.Proved, o.Imbalance.Why),
	}
	if l := o.Imbalance.LightsOn; l.VA > 0 || !l.Proved {
		items = append(items, evenness(unevenLit, l.VA, l.BoundVA, l.Proved, l.Why))
	}
	t := Table{ID: "optimality", DataOnly: true, Columns: []Column{{Name: "figure"}, {Name: "used"}, {Name: "bound"}, {Name: "proved"}}}
	t.Rows = [][]Cell{
		{text("spaces"), whole(int(o.Spaces.Used)), whole(int(o.Spaces.Bound)), text(yesNo(o.Spaces.Proved))},
		{text("circuits"), whole(int(o.Circuits.Used)), whole(int(o.Circuits.Bound)), text(yesNo(o.Circuits.Proved))},
		{text("imbalance VA"), whole(int(o.Imbalance.VA)), whole(int(o.Imbalance.BoundVA)), text(yesNo(o.Imbalance.Proved))},
		{text("imbalance VA, lights on"), whole(int(o.Imbalance.LightsOn.VA)), whole(int(o.Imbalance.LightsOn.BoundVA)), text(yesNo(o.Imbalance.LightsOn.Proved))},
	}
	return []Block{Heading{2, "How good this plan is"}, List{items}, t}
}

// uneven is what the figures of balance are called.
const (
	uneven    = "VA of the fullest legs above an even share, in the worst state of the day"
	unevenLit = "VA of the fullest legs above an even share, added up over the states of the day with lights on"
)

func goodness(used, bound int64, proved bool, one, many, why string) string {
	s := plural(int(used), one, many)
	switch {
	case proved:
		s += ": proved, no plan within the same limits needs fewer"
	case bound < used:
		s += fmt.Sprintf(": not proved the fewest; none can do with fewer than %s", plural(int(bound), one, many))
	default:
		s += ": not proved the fewest"
	}
	if why != "" {
		s += " (" + why + ")"
	}
	return s
}

// evenness says how far the fullest legs stand above an even share.
func evenness(what string, va, bound int64, proved bool, why string) string {
	s := units.Round(float64(va), 0) + " " + what
	switch {
	case proved:
		s += ": proved, no order of these breakers is more even"
	case bound < va:
		s += fmt.Sprintf(": not proved the most even; no order of these breakers has less than %s", units.Round(float64(bound), 0))
	default:
		s += ": not proved the most even"
	}
	if why != "" {
		s += " (" + why + ")"
	}
	return s
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
