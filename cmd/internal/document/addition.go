package document

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// Addition is what was worked out about units to be added.
type Addition struct {
	Before   Results // as built
	Item     string
	Room     string
	Path     string
	Count    int
	On       string
	Panels   []string // that could feed it, where no circuit takes any
	Fits     bool
	Proved   bool
	After    circuits.Plan // with the units placed
	Findings []codes.Finding
	Heat     heat.Result // with all units
	New      []circuits.Circuit
	Refused  []Refused
	Move     *Move
	Needs    string
	Notes    []string
}

// NewAdd returns the document of an addition.
func NewAdd(a Addition) Add {
	r := a.Before
	d := Add{
		Schema: AddSchema, Site: r.Plan.Site, Code: r.Profile.Name, CodeTitle: r.Profile.Title, GroundCalled: r.Profile.Wires.GroundCalled, Use: string(r.Plan.Use),
		Item: a.Item, Count: a.Count, On: a.On, Fits: a.Fits, Proved: a.Proved, Placed: a.placed(), NewCircuits: []Circuit{}, Refused: list(a.Refused),
		Move: a.Move, Needs: a.Needs, Panels: []AddedPanel{}, Findings: []Finding{}, Assumptions: []Assumption{}, Notes: list(a.Notes), Caution: Caution,
	}
	for _, c := range a.New {
		d.NewCircuits = append(d.NewCircuits, circuit(c, r.Set, legsOf(a.After, c.Panel)))
	}
	for _, name := range a.upwards(d.Placed) {
		d.Panels = append(d.Panels, a.panel(name))
	}
	if len(d.Panels) > 0 {
		d.Panel = &d.Panels[0]
	}
	for _, f := range gravestLast(a.Findings) {
		d.Findings = append(d.Findings, finding(f, r.Inventory))
	}
	for _, x := range assumptions(r.Plan.Assumptions) {
		if strings.HasPrefix(x.Subject, a.Path+".") {
			d.Assumptions = append(d.Assumptions, x)
		}
	}
	a.heat(&d)
	d.Verdict = a.verdict(d)
	return d
}

func legsOf(p circuits.Plan, name string) []string {
	if x := panelOf(p, name); x != nil {
		return x.LegNames
	}
	return nil
}

func panelOf(p circuits.Plan, name string) *circuits.Panel {
	i := slices.IndexFunc(p.Panels, func(x circuits.Panel) bool { return x.Name == name })
	if i < 0 {
		return nil
	}
	return &p.Panels[i]
}

func circuitIn(p circuits.Plan, name string) *circuits.Circuit {
	i := slices.IndexFunc(p.Circuits, func(c circuits.Circuit) bool { return c.Name == name })
	if i < 0 {
		return nil
	}
	return &p.Circuits[i]
}

// placed lists the circuits that take units, in the order of the plan.
func (a Addition) placed() []Placed {
	out := []Placed{}
	for _, c := range a.After.Circuits {
		n := 0
		for _, l := range c.Loads {
			if l.Item == a.Item {
				n = l.Added
			}
		}
		was := circuitIn(a.Before.Plan, c.Name)
		if n == 0 || was == nil {
			continue
		}
		d := Placed{Circuit: c.Name, Panel: c.Panel, Count: n, LoadBeforeAmps: float64(was.Load), LoadAmps: float64(c.Load), BreakerAmps: known(c.Breaker),
			RequiredBeforeAmps: float64(was.Required), RequiredAfterAmps: float64(c.Required), State: c.State}
		if l := a.binding(c); l.Share > 0 {
			d.Binds = l.Rule
			d.LimitAmps, d.AfterPercent = number(float64(c.Load)/l.Share), number(100*l.Share)
			for _, b := range was.Limits {
				if b.Rule == l.Rule {
					d.BeforePercent = number(100 * b.Share)
				}
			}
		}
		out = append(out, d)
	}
	return out
}

// binding returns the fullest limit of a circuit that is a rule of the code: what
// is only advised does not say no.
func (a Addition) binding(c circuits.Circuit) circuits.Limit {
	for _, l := range c.Limits {
		for _, r := range a.Before.Profile.Rules {
			if r.ID == l.Rule && r.Severity == codes.Violation {
				return l
			}
		}
	}
	return circuits.Limit{}
}

// upwards lists the panels of the circuits that take units, or of those that
// might, each followed by the panels that feed it.
func (a Addition) upwards(placed []Placed) []string {
	var start, out []string
	for _, p := range placed {
		start = append(start, p.Panel)
	}
	if len(start) == 0 {
		if c := circuitIn(a.Before.Plan, a.On); c != nil {
			start = append(start, c.Panel)
		} else {
			start = a.Panels
		}
	}
	for _, name := range start {
		for p := panelOf(a.Before.Plan, name); p != nil && !slices.Contains(out, p.Name); {
			out = append(out, p.Name)
			if p.Feeder == nil {
				break
			}
			p = panelOf(a.Before.Plan, p.Feeder.From)
		}
	}
	return out
}

func (a Addition) panel(name string) AddedPanel {
	was, is := panelOf(a.Before.Plan, name), panelOf(a.After, name)
	if is == nil {
		is = was
	}
	d := AddedPanel{Panel: name, Legs: list(was.LegNames), LegBeforeAmps: amperes(was.Legs), LegAfterAmps: amperes(is.Legs),
		RequiredBeforeAmps: float64(was.Required), RequiredAfterAmps: float64(is.Required), MainAmps: known(was.Main), Service: was.Feeder == nil, LeastLoad: leastLoad(a.Before.Plan, name)}
	if was.Feeder != nil && is.Feeder != nil {
		d.Feeder = &AddedFeeder{From: was.Feeder.From, RequiredBeforeAmps: float64(was.Feeder.Required),
			RequiredAfterAmps: float64(is.Feeder.Required), BreakerAmps: known(was.Feeder.Breaker)}
	}
	return d
}

func amperes(list []units.Current) []float64 {
	out := []float64{}
	for _, i := range list {
		out = append(out, float64(i))
	}
	return out
}

// heat compares the room before with the room when all units run in it.
func (a Addition) heat(d *Add) {
	was, ok1 := a.Before.Heat.Room(a.Room)
	is, ok2 := a.Heat.Room(a.Room)
	if !ok1 || !ok2 {
		return
	}
	most := math.Inf(-1)
	for i, day := range is.Days() {
		for h := range day.Hours {
			most = max(most, (day.Hours[h].Total() - was.Days()[i].Hours[h].Total()).BTUPerHour())
		}
	}
	d.HeatAddedBTUH = number(most)
	d.Heat = &AddedHeat{Room: a.Room, BeforeBTUH: was.Peak.Total().BTUPerHour(), AfterBTUH: is.Peak.Total().BTUPerHour(), AtLeast: is.AtLeast,
		Covered: string(covered(is)), CoveredBefore: string(covered(was)), Cooling: []AddedCooling{}}
	if covered(is) == heat.No && covered(was) != heat.No {
		d.Notes = append(d.Notes, "the stated cooling of room "+a.Room+" does not cover the room with what is added")
	}
	for _, c := range is.Equipment.Cooling {
		if c.NeededWhy != "" {
			continue
		}
		x := AddedCooling{What: c.What, NeededBTUH: c.Needed.BTUPerHour(), Covers: string(c.Holds), Why: c.Installed.Why()}
		if q, ok := c.Installed.Get(); ok {
			x.InstalledBTUH = number(q.BTUPerHour())
		}
		d.Heat.Cooling = append(d.Heat.Cooling, x)
	}
}

// covered tells whether the stated cooling covers a room's total and dry heat:
// no where one falls short, yes where both are covered. Water has an answer of
// its own.
func covered(r heat.Room) heat.Answer {
	out := heat.Yes
	if len(r.Equipment.Cooling) == 0 {
		out = heat.CannotTell
	}
	for _, c := range r.Equipment.Cooling {
		switch {
		case strings.HasPrefix(c.What, "latent"):
		case c.Holds == heat.No:
			return heat.No
		case c.Holds != heat.Yes:
			out = heat.CannotTell
		}
	}
	return out
}

func (a Addition) verdict(d Add) AnswerVerdict {
	what := fmt.Sprintf("%d x %s", a.Count, a.Item)
	where := make([]string, len(d.Placed))
	taken := 0
	for i, p := range d.Placed {
		where[i] = fmt.Sprintf("%d on %s", p.Count, p.Circuit)
		taken += p.Count
	}
	switch {
	case a.Fits:
		return AnswerVerdict{0, "yes: " + what + " can go on what is built: " + strings.Join(where, ", ")}
	case taken > 0:
		return AnswerVerdict{1, fmt.Sprintf("no: of %s only %d can go on what is built: %s", what, taken, strings.Join(where, ", "))}
	case a.On != "":
		return AnswerVerdict{1, "no: circuit " + a.On + " takes no more " + a.Item}
	}
	return AnswerVerdict{1, "no: no circuit that is built takes " + what}
}
