package document

import (
	"branchwork/circuits"
	"branchwork/loads/day"
)

// Stagger is a choice of the photoperiods' starts, before and after.
type Stagger struct {
	Least  string         `json:"least" jsonschema:"enum=peak demand,enum=cost" jsonschema_description:"what was made least"`
	Unit   string         `json:"unit"`
	Used   *float64       `json:"used" jsonschema:"nullable" jsonschema_description:"after, in unit"`
	Bound  *float64       `json:"bound" jsonschema:"nullable" jsonschema_description:"no choice of starts has less; null where nothing tells"`
	Proved bool           `json:"proved"`
	Why    string         `json:"why" jsonschema_description:"why it is not proved, or why nothing was chosen"`
	Grid   int            `json:"grid_minutes"`
	Rooms  []StaggerRoom  `json:"rooms"`
	Before StaggerFigures `json:"before"`
	After  StaggerFigures `json:"after"`
	Notes  []string       `json:"notes"`
}

// StaggerRoom is what becomes of a room's lights.
type StaggerRoom struct {
	Room     string   `json:"room"`
	Before   string   `json:"before"`
	After    string   `json:"after"`
	ByMinute int      `json:"by_minutes" jsonschema_description:"later, around the clock"`
	Fixed    string   `json:"fixed,omitempty" jsonschema_description:"why it cannot move"`
	With     []string `json:"moves_with_it" jsonschema_description:"items with hours of their own that move with the lights"`
	Stand    []string `json:"stand" jsonschema_description:"items with hours of their own that do not"`
}

// StaggerFigures are the figures of one choice.
type StaggerFigures struct {
	PeakWatts   float64          `json:"peak_watts"`
	PeakAt      string           `json:"peak_at"`
	DemandWatts float64          `json:"demand_watts" jsonschema_description:"with all cycling loads at once, worst day"`
	DemandAt    string           `json:"demand_at"`
	LoadFactor  *float64         `json:"load_factor_percent" jsonschema:"nullable"`
	CoolingBTUH float64          `json:"cooling_peak_btuh" jsonschema_description:"all rooms at their common worst hour"`
	CoolingAt   string           `json:"cooling_peak_at"`
	CostMonth   *float64         `json:"cost_per_month" jsonschema:"nullable"`
	Services    []StaggerService `json:"services"`
	Watts       []float64        `json:"watts" jsonschema_description:"by hour, mean day"`
}

// StaggerService is a service panel under one choice.
type StaggerService struct {
	Panel    string  `json:"panel"`
	MostAmps float64 `json:"fullest_leg_amps" jsonschema_description:"of all hours"`
	MostAt   string  `json:"fullest_at"`
	Required float64 `json:"required_amps" jsonschema_description:"with the continuous allowance, everything connected counted as on"`
}

// StaggerOf is what a staggered day is made of.
type StaggerOf struct {
	Choice        day.Staggered
	Before, After PlanOfDay
}

// PlanOfDay is a plan with what its legs carry hour by hour.
type PlanOfDay struct {
	Plan circuits.Plan
	Legs []PanelDay
}

// interlockNote says what a schedule does not do.
const interlockNote = "the size of the service counts everything connected as on, whatever the schedule: a timer can slip. " +
	"It falls only where rooms are interlocked so that they cannot be lit together"

func stagger(o StaggerOf) *Stagger {
	s := o.Choice
	d := &Stagger{Least: "peak demand", Unit: s.Unit, Used: known(s.Used), Bound: known(s.Bound), Proved: s.Proved, Why: s.Why, Grid: int(s.Grid), Rooms: []StaggerRoom{},
		Before: staggerFigures(s.Before, o.Before), After: staggerFigures(s.After, o.After), Notes: append([]string{interlockNote}, s.Notes...)}
	if s.Objective == day.ForCost {
		d.Least = "cost"
	}
	for _, r := range s.Rooms {
		d.Rooms = append(d.Rooms, StaggerRoom{r.Room, r.Before.String(), r.After.String(), int(r.By), r.Fixed, list(r.With), list(r.Stand)})
	}
	return d
}

func staggerFigures(x day.Day, p PlanOfDay) StaggerFigures {
	d := StaggerFigures{PeakWatts: float64(x.Site.Peak.Power), PeakAt: x.Site.Peak.At.String(), DemandWatts: float64(x.Site.Demand.Power), DemandAt: x.Site.Demand.At.String(),
		LoadFactor: percent(x.Site.LoadFactor), CoolingBTUH: x.Heat.Block.Total.BTUPerHour(), CoolingAt: hourText(x.Heat.Block.At) + " on the " + string(x.Heat.Block.Day),
		Services: []StaggerService{}, Watts: []float64{}}
	if c, ok := x.Cost.Get(); ok {
		d.CostMonth = number(c.Month)
	}
	for i, q := range p.Plan.Panels {
		if q.Feeder == nil {
			most := p.Legs[i].Fullest()
			d.Services = append(d.Services, StaggerService{q.Name, float64(most.Most()), most.At.String(), float64(q.Required)})
		}
	}
	for _, h := range x.Site.Hours {
		d.Watts = append(d.Watts, float64(h.Power))
	}
	return d
}
