package document

import (
	"fmt"
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// WhatIf is what would become of a site if units were added or removed or rooms
// dimmed. Nothing is written; it is shown beside a live page and has no form of
// its own for programs.
type WhatIf struct {
	Asked    []string       // what was asked, one change each
	Built    bool           // adding was asked of the circuits as built
	Adds     []Add          // the answers of add, in the order asked
	NotAsked []string       // behind a no
	Fits     bool           // every add says yes and no rule breaks that held
	Warns    bool           // it fits, but brings a warning or heat that the stated cooling does not cover
	Says     string         // the answer in one line
	Figures  []Shift        // service, heat, energy, cost
	Circuits []CircuitShift // circuits whose amperes differ
	Change   Diff           // the change order
	Arisen   []Finding      // findings that were not there before
	Gone     []Finding      // findings that are there no more
	Notes    []string       // what bears on it
	Before   Verdict        // of the plan before
	After    Verdict        // of the plan after
}

// Shift is a figure before and after. Unit is A, W, kWh, BTU/h or a currency.
type Shift struct {
	What          string
	Unit          string
	Before, After *float64 // nil where there is none, or it is not known
	Limit         *float64 // main or breaker; nil where there is none or it is not known
	Remark        string
	Short         bool // of a main, or of the stated cooling
}

// CircuitShift is a circuit before and after, in its worst state of the day. What is
// nil is not known, or has no meaning: the circuit is new, or is there no more.
type CircuitShift struct {
	Circuit                       string
	LoadBefore, LoadAfter         *float64
	RequiredBefore, RequiredAfter *float64 // with the allowance for continuous load
	BreakerAmps                   *float64 // nil where it is not known
	New, Gone                     bool
	Binds                         string // the limit that is fullest then
	Remark                        string
}

// WhatIfOf is what it is made of. Before and After are plans of the same site; of
// After every unit that was asked for is in it, on new circuits where those that
// are there do not take it.
type WhatIfOf struct {
	Asked, NotAsked []string
	Built           bool
	Adds            []Add
	Before, After   Results
	Dimmed          bool
	Notes           []string
}

// dimNote says what a dimmer is not good for.
const dimNote = "dimming changes heat, energy and the figures of the day only: circuits are sized on nameplate or boosted power, whatever the dimmer says, because a dimming line that opens drives the light to full"

// NewWhatIf returns the document of a what-if.
func NewWhatIf(o WhatIfOf) WhatIf {
	d := WhatIf{Asked: o.Asked, NotAsked: o.NotAsked, Built: o.Built, Adds: o.Adds, Notes: slices.Clone(o.Notes), Change: NewDiff(o.Before, o.After),
		Before: NewVerdict(o.Before.Findings, o.Before.Profile), After: NewVerdict(o.After.Findings, o.After.Profile),
		Figures: shiftedFigures(o.Before, o.After), Circuits: shiftedCircuits(o.Before.Plan, o.After.Plan)}
	d.Arisen = foundOnlyIn(o.After, o.Before)
	d.Gone = foundOnlyIn(o.Before, o.After)
	if o.Dimmed {
		d.Notes = append(d.Notes, dimNote)
	}
	for _, a := range o.Adds {
		d.Notes = append(d.Notes, a.Notes...)
	}
	d.Fits, d.Says = d.verdict(o)
	for _, f := range d.Arisen {
		d.Warns = d.Warns || f.Severity != codes.Advice.String()
	}
	for _, f := range d.Figures {
		d.Warns = d.Warns || f.Short
	}
	return d
}

// verdict is the answer: of add where it was asked, of the plan otherwise.
func (d WhatIf) verdict(o WhatIfOf) (bool, string) {
	for _, a := range d.Adds {
		if !a.Fits {
			return false, a.Verdict.Says
		}
	}
	broken := 0
	for _, f := range d.Arisen {
		if f.Severity == codes.Violation.String() {
			broken++
		}
	}
	unfed := 0
	for _, u := range o.After.Plan.Unfed {
		unfed += u.Count
	}
	for _, u := range o.Before.Plan.Unfed {
		unfed -= u.Count
	}
	switch {
	case broken > 0:
		return false, "no: " + count(broken, "finding arises that is not passed", "findings arise that are not passed") + "; " + d.After.Says
	case unfed > 0:
		return false, "no: " + count(unfed, "unit", "units") + " of the site can be given no circuit"
	case len(d.Adds) == 1:
		return true, d.Adds[0].Verdict.Says
	case len(d.Adds) > 1:
		return true, fmt.Sprintf("yes: all %d can go on what is built", len(d.Adds))
	case len(d.Change.Changes) == 0:
		return true, "circuits, breakers and panels stay as they are; " + d.After.Says
	}
	return true, "planned again: " + d.Change.Says + "; " + d.After.Says
}

// foundOnlyIn lists the findings of one result that another does not have.
func foundOnlyIn(r, other Results) []Finding {
	was := map[string]bool{}
	for _, f := range other.Findings {
		was[f.Rule+" "+f.Subject+" "+f.State.String()] = true
	}
	out := []Finding{}
	for _, f := range gravestLast(r.Findings) {
		if !was[f.Rule+" "+f.Subject+" "+f.State.String()] {
			out = append(out, finding(f, r.Inventory))
		}
	}
	return out
}

func shiftedFigures(before, after Results) []Shift {
	var out []Shift
	for _, p := range before.Plan.Panels {
		q := panelOf(after.Plan, p.Name)
		if q == nil {
			continue
		}
		what := "size asked of " + p.Name
		if p.Feeder == nil {
			what += ", the service"
		}
		s := Shift{What: what, Unit: "A", Before: number(float64(p.Required)), After: number(float64(q.Required)), Limit: known(p.Main)}
		if main, ok := p.Main.Get(); ok && units.Exceeds(q.Required, main) {
			s.Remark, s.Short = "more than its main", true
		} else if leastLoad(after.Plan, p.Name) {
			s.Remark = "at least: the current of a load is not known"
		}
		out = append(out, s)
	}
	for _, x := range before.Heat.Rooms {
		y, ok := after.Heat.Room(x.Name)
		if !ok || sameFigure(x.Peak.Total().BTUPerHour(), y.Peak.Total().BTUPerHour()) {
			continue
		}
		out = append(out, Shift{What: "heat of room " + x.Name + " at its peak", Unit: "BTU/h", Before: number(x.Peak.Total().BTUPerHour()), After: number(y.Peak.Total().BTUPerHour()),
			Remark: coolingRemark(covered(x), covered(y)), Short: covered(y) == heat.No})
	}
	if len(before.Heat.Rooms) > 1 {
		out = append(out, Shift{What: "cooling peak, all rooms", Unit: "BTU/h", Before: number(before.Heat.Block.Total.BTUPerHour()), After: number(after.Heat.Block.Total.BTUPerHour())})
	}
	least := ""
	if after.Day.AtLeast() {
		least = "at least: the watts of a load are not known"
	}
	out = append(out,
		Shift{What: "largest quarter-hour, all cycling loads on", Unit: "W", Before: number(float64(before.Day.Site.Demand.Power)), After: number(float64(after.Day.Site.Demand.Power)), Remark: least},
		Shift{What: "energy of a day", Unit: "kWh", Before: number(float64(before.Day.Site.Energy)), After: number(float64(after.Day.Site.Energy)), Remark: least})
	return append(out, shiftedCost(before, after))
}

func shiftedCost(before, after Results) Shift {
	s := Shift{What: "cost of a month", Unit: "money"}
	a, ok := before.Day.Cost.Get()
	b, now := after.Day.Cost.Get()
	if !ok || !now {
		s.Remark = "not known: " + after.Day.Cost.Why()
		return s
	}
	s.Unit, s.Before, s.After = b.Currency, number(float64(a.Month)), number(float64(b.Month))
	if b.AtLeast {
		s.Remark = "at least"
	}
	return s
}

// sameFigure reports whether two figures differ by no more than rounding in binary.
func sameFigure(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

func coolingRemark(was, is heat.Answer) string {
	say := map[heat.Answer]string{heat.Yes: "the stated cooling covers it", heat.No: "the stated cooling does not cover it"}
	switch {
	case was == is && is == heat.No:
		return "the stated cooling covers it neither before nor after"
	case say[is] == "":
		return "cannot be told whether the stated cooling covers it"
	case was == heat.Yes && is == heat.No:
		return say[is] + " any more"
	}
	return say[is]
}

// shiftedCircuits lists the circuits whose required amperes differ, those that are
// new and those that feed nothing any more.
func shiftedCircuits(before, after circuits.Plan) []CircuitShift {
	var out []CircuitShift
	for _, c := range after.Circuits {
		s := CircuitShift{Circuit: c.Name, BreakerAmps: known(c.Breaker), Binds: bindingOf(c)}
		s.LoadAfter, s.RequiredAfter = carriedBy(c)
		switch was := circuitIn(before, c.Name); {
		case was == nil:
			s.New, s.Remark = true, "new"
		case sameFigure(float64(was.Required), float64(c.Required)) && sameFigure(float64(was.Load), float64(c.Load)):
			continue
		default:
			s.LoadBefore, s.RequiredBefore = carriedBy(*was)
		}
		out = append(out, s)
	}
	for _, c := range before.Circuits {
		if circuitIn(after, c.Name) == nil {
			s := CircuitShift{Circuit: c.Name, BreakerAmps: known(c.Breaker), Gone: true, Remark: "feeds nothing any more"}
			s.LoadBefore, s.RequiredBefore = carriedBy(c)
			out = append(out, s)
		}
	}
	return out
}

// carriedBy is what a circuit carries and what it needs, where that is known.
func carriedBy(c circuits.Circuit) (load, required *float64) {
	if unknownLoad(c) {
		return nil, nil
	}
	return number(c.Load), number(c.Required)
}

func bindingOf(c circuits.Circuit) string {
	if len(c.Limits) == 0 {
		return ""
	}
	return c.Limits[0].Rule
}
