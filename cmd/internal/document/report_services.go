package document

import (
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// ServiceSheet is the load calculation of a service and the load letter to the
// utility.
type ServiceSheet struct {
	Panel          string      `json:"panel"`
	System         string      `json:"system"`
	Volts          float64     `json:"volts" jsonschema_description:"line to line; of a two-wire service line to neutral"`
	Phases         int         `json:"phases"`
	Groups         []LoadGroup `json:"groups"`
	ConnectedVA    float64     `json:"connected_va"`
	AllowanceVA    float64     `json:"allowance_va" jsonschema_description:"for continuous load and by nameplate"`
	NotAddedVA     float64     `json:"not_added_va" jsonschema_description:"allowance of all motors but the largest, interlocked loads beyond the largest, and what a measured peak holds already"`
	NotAdded       []string    `json:"not_added" jsonschema_description:"what that is of, where there is any"`
	Clauses        []string    `json:"clauses" jsonschema_description:"that the calculation follows"`
	OtherVA        *float64    `json:"other_va,omitempty" jsonschema_description:"stated, not listed in the file"`
	MeasuredVA     *float64    `json:"measured_va,omitempty" jsonschema_description:"measured peak with the allowance of the code"`
	DemandVA       float64     `json:"demand_va"`
	BalancedAmps   float64     `json:"balanced_amps" jsonschema_description:"the demand at the service voltage, the legs alike"`
	RequiredAmps   float64     `json:"required_amps" jsonschema_description:"of the fullest leg, which decides"`
	MainAmps       *float64    `json:"main_amps" jsonschema:"nullable"`
	MarginAmps     *float64    `json:"margin_amps" jsonschema:"nullable" jsonschema_description:"main less the fullest leg; negative where it is short; null where either is not known"`
	UsedPercent    *float64    `json:"used_percent" jsonschema:"nullable"`
	Classes        []LoadClass `json:"classes" jsonschema_description:"connected load as utilities ask for it"`
	ConnectedWatts *float64    `json:"connected_watts" jsonschema:"nullable" jsonschema_description:"of all classes; null where the watts of a load are not known"`
	CoolingTons    *float64    `json:"cooling_tons" jsonschema:"nullable" jsonschema_description:"stated capacity of cooling equipment; null where that of a unit is not given"`
	LargestMotor   *Motor      `json:"largest_motor" jsonschema:"nullable"`
	Compressors    []string    `json:"compressors" jsonschema_description:"items whose largest motor is a compressor's, which no horsepower tells"`
	PeakWatts      float64     `json:"peak_watts" jsonschema_description:"largest quarter-hour as it runs, mean day"`
	DemandWatts    float64     `json:"demand_watts" jsonschema_description:"largest quarter-hour with all cycling loads at once"`
	DemandTimeVA   float64     `json:"demand_time_va" jsonschema_description:"likewise, apparent power"`
	DemandAt       string      `json:"demand_at" jsonschema_description:"when the quarter-hour begins"`
	KWhPerDay      float64     `json:"kwh_per_day"`
	KWhPerMonth    float64     `json:"kwh_per_month"`
	LoadFactor     *float64    `json:"load_factor_percent" jsonschema:"nullable" jsonschema_description:"mean over the peak as it runs"`
	DemandFactor   *float64    `json:"load_factor_of_demand_percent" jsonschema:"nullable" jsonschema_description:"mean over the expected demand"`
	AtLeast        bool        `json:"at_least" jsonschema_description:"true where the watts of a load are not known"`
	LeastLoad      bool        `json:"load_at_least" jsonschema_description:"true where the current of a load is not known: volt-amperes and amperes here are least values"`
	LightingHours  []LitHours  `json:"lighting_hours"`
}

// LoadGroup is a line of the load calculation.
type LoadGroup struct {
	Category    string  `json:"category"`
	ConnectedVA float64 `json:"connected_va"`
	Continuous  float64 `json:"continuous_va" jsonschema_description:"of it continuous, motors and nameplates apart"`
	Individual  float64 `json:"motor_va" jsonschema_description:"of it motors, and equipment marked with its minimum circuit"`
	AllowanceVA float64 `json:"allowance_va"`
	DemandVA    float64 `json:"demand_va"`
	LeastLoad   bool    `json:"load_at_least" jsonschema_description:"true where the current of a load of it is not known"`
}

// LoadClass is connected load of one class.
type LoadClass struct {
	Class string   `json:"class"`
	Count int      `json:"count" jsonschema_description:"units"`
	Watts *float64 `json:"watts" jsonschema:"nullable"`
	VA    *float64 `json:"va" jsonschema:"nullable"`
}

// Motor is the largest motor that states its rating.
type Motor struct {
	Item string  `json:"item"`
	HP   float64 `json:"hp"`
}

// LitHours is when rooms are lit.
type LitHours struct {
	Rooms []string `json:"rooms" jsonschema_description:"lit alike"`
	Lit   string   `json:"lit"`
	Hours float64  `json:"hours" jsonschema_description:"a day"`
}

func services(o ReportOf) []ServiceSheet {
	out := []ServiceSheet{}
	for _, p := range o.Results.Plan.Panels {
		if p.Feeder == nil {
			out = append(out, service(o, p))
		}
	}
	return out
}

func service(o ReportOf, p circuits.Panel) ServiceSheet {
	s := ServiceSheet{Panel: p.Name, System: p.System.Name, Volts: float64(p.System.LineToLine), Phases: 1, Groups: []LoadGroup{}, Classes: []LoadClass{},
		DemandVA: float64(p.DemandVA), RequiredAmps: float64(p.Required), MainAmps: known(p.Main), LightingHours: []LitHours{}, NotAdded: []string{}, Compressors: []string{}}
	if p.System.Form == inventory.TwoWire {
		s.Volts = float64(p.System.LineToNeutral)
	}
	if p.System.Legs == 3 {
		s.Phases = 3
	}
	carried := below(o.Results.Plan, p.Name)
	s.LeastLoad = leastLoad(o.Results.Plan, p.Name)
	s.calculate(o, p, carried)
	s.classify(o.Results, carried)
	s.hours(o, p.Name)
	return s
}

// below lists the circuits of a panel and of all panels that it feeds.
func below(plan circuits.Plan, panel string) []circuits.Circuit {
	var out []circuits.Circuit
	for _, c := range plan.Circuits {
		if plan.Under(c.Panel, panel) {
			out = append(out, c)
		}
	}
	return out
}

// leastLoad reports a panel whose figures are least values: the current of a load
// that it feeds is not known.
func leastLoad(plan circuits.Plan, panel string) bool {
	return slices.ContainsFunc(below(plan, panel), unknownLoad)
}

// calculate sets out how the panel's demand comes together.
func (s *ServiceSheet) calculate(o ReportOf, p circuits.Panel, carried []circuits.Circuit) {
	for _, category := range categories() {
		g := LoadGroup{Category: string(category)}
		for _, c := range carried {
			for _, l := range c.Loads {
				if l.Category == category {
					g.LeastLoad = g.LeastLoad || !l.Drawn()
					va := float64(l.Draw.VA) * float64(l.Count)
					g.ConnectedVA += va
					g.AllowanceVA += va * (allowance(o, l) - 1)
					switch {
					case marked(l) || motor(l):
						g.Individual += va
					case l.Continuous:
						g.Continuous += va
					}
				}
			}
		}
		if g.ConnectedVA == 0 && !g.LeastLoad {
			continue
		}
		g.DemandVA = g.ConnectedVA + g.AllowanceVA
		s.ConnectedVA += g.ConnectedVA
		s.AllowanceVA += g.AllowanceVA
		s.Groups = append(s.Groups, g)
	}
	sum := s.ConnectedVA + s.AllowanceVA
	volts := float64(p.System.LineToNeutral) * float64(p.System.Legs)
	if i, ok := p.OtherLoad.Get(); ok {
		s.OtherVA = number(float64(i) * volts)
		sum += *s.OtherVA
	}
	if i, ok := p.MeasuredPeak.Get(); ok {
		s.MeasuredVA = number(float64(i) * float64(o.Results.Profile.Service.PeakFactor) * volts)
		sum += *s.MeasuredVA
	}
	if less := sum - s.DemandVA; less > 0.5 { // a sum in another order differs in its last digits
		s.NotAddedVA, s.NotAdded = less, notAdded(o, p, carried)
	}
	s.Clauses = calculatedBy(o, carried)
	s.BalancedAmps = s.DemandVA / s.Volts
	if s.Phases == 3 {
		s.BalancedAmps /= math.Sqrt(3)
	}
	if main, ok := p.Main.Get(); ok && main > 0 && !s.LeastLoad {
		s.MarginAmps = number(float64(main - p.Required))
		s.UsedPercent = number(100 * float64(p.Required) / float64(main))
	}
}

// marked reports whether a load counts by the minimum circuit of its nameplate.
func marked(l circuits.Load) bool { return l.Draw.MinCircuit.Known() && l.Draw.Amps > 0 }

// motor reports whether a load counts as a motor: the largest with an allowance.
func motor(l circuits.Load) bool { return l.Draw.Motor && !marked(l) }

// notAdded tells what a service's loads have that does not count, or not in full.
func notAdded(o ReportOf, p circuits.Panel, carried []circuits.Circuit) []string {
	motors, interlocked, measured := 0, false, false
	for _, c := range carried {
		measured = measured || p.MeasuredPeak.Known() && c.Existing && !c.Changed
		for _, l := range c.Loads {
			if motor(l) {
				motors += l.Count
			}
			known, _ := o.Results.Set.Named(l.Item)
			interlocked = interlocked || known.Interlock != ""
		}
	}
	out := []string{}
	if m := o.Results.Profile.Motors; motors > 1 {
		out = append(out, units.Round(100*(float64(m.Conductor)-1), 0)+" % of the motors other than the largest ("+m.SeveralCite.String()+")")
	}
	if interlocked {
		out = append(out, "interlocked loads beyond the largest")
	}
	if measured {
		out = append(out, "what the measured peak holds already")
	}
	return out
}

// calculatedBy lists the clauses that a service's calculation follows: those of the
// rule on a panel's main, and of several motors.
func calculatedBy(o ReportOf, carried []circuits.Circuit) []string {
	out := []string{}
	for _, r := range o.Results.Profile.Rules {
		if cites, ok := r.In(o.Results.Profile.Edition); ok && r.ID == "panel-main" {
			for _, c := range cites {
				out = append(out, c.String())
			}
		}
	}
	if slices.ContainsFunc(carried, func(c circuits.Circuit) bool { return slices.ContainsFunc(c.Loads, motor) }) {
		out = append(out, o.Results.Profile.Motors.SeveralCite.String())
	}
	return out
}

// allowance is the factor with which a load counts towards its panel.
func allowance(o ReportOf, l circuits.Load) float64 {
	if mca, ok := l.Draw.MinCircuit.Get(); ok && l.Draw.Amps > 0 {
		return units.Per(mca, l.Draw.Amps)
	}
	if l.Continuous {
		return o.Results.Profile.Continuous.Factor()
	}
	return 1
}

func categories() []loads.Category {
	return []loads.Category{loads.Lighting, loads.AirMovement, loads.Control, loads.Water, loads.Climate, loads.Receptacles, loads.OtherLoads}
}

// classes of a load letter, in the order in which forms have them.
func classes() []string {
	return []string{"lighting", "cooling", "electric heating", "humidity", "fans", "pumps", "receptacles", "controls and other"}
}

func classOf(i *inventory.Item) string {
	switch {
	case i.Table == inventory.Fixtures:
		return "lighting"
	case i.Table == inventory.Fans:
		return "fans"
	case i.Table == inventory.Controllers:
		return "controls and other"
	}
	switch i.Kind {
	case inventory.AirConditioner, inventory.Chiller:
		return "cooling"
	case inventory.Heater:
		return "electric heating"
	case inventory.Dehumidifier, inventory.Humidifier:
		return "humidity"
	case inventory.Pump:
		return "pumps"
	case inventory.Outlet:
		return "receptacles"
	}
	return "controls and other"
}

// plus adds two figures, either of which may not be known.
func plus(a, b *float64) *float64 {
	if a == nil || b == nil {
		return nil
	}
	return number(*a + *b)
}

func (s *ServiceSheet) classify(r Results, carried []circuits.Circuit) {
	s.ConnectedWatts = number(0.0)
	for _, class := range classes() {
		k := LoadClass{Class: class, Watts: number(0.0), VA: number(0.0)}
		for _, c := range carried {
			for _, l := range c.Loads {
				item, _ := r.Set.Named(l.Item)
				if classOf(item.Item) == class {
					k.add(l)
				}
			}
		}
		if k.Count > 0 {
			s.Classes = append(s.Classes, k)
			s.ConnectedWatts = plus(s.ConnectedWatts, k.Watts)
		}
	}
	s.CoolingTons = number(0.0)
	for _, c := range carried {
		for _, l := range c.Loads {
			item, _ := r.Set.Named(l.Item)
			if q, ok := item.Item.Cooling.Get(); ok {
				s.CoolingTons = plus(s.CoolingTons, number(q.Tons()*float64(l.Count)))
			} else if classOf(item.Item) == "cooling" {
				s.CoolingTons = nil
			}
			if i := item.Item; compresses(i.Kind) && !i.Motor.Known() && !slices.Contains(s.Compressors, i.Name) {
				s.Compressors = append(s.Compressors, i.Name)
			}
			if hp, ok := item.Motor.Get(); ok && (s.LargestMotor == nil || float64(hp) > s.LargestMotor.HP) {
				s.LargestMotor = &Motor{l.Item, float64(hp)}
			}
		}
	}
}

// compresses reports whether equipment of a kind has a compressor for its largest motor.
func compresses(k string) bool {
	return k == inventory.AirConditioner || k == inventory.Chiller || k == inventory.Dehumidifier
}

func (k *LoadClass) add(l circuits.Load) {
	k.Count += l.Count
	n := float64(l.Count)
	var watts, va *float64
	if w, ok := l.Draw.Watts.Get(); ok {
		watts = number(float64(w) * n)
	}
	if l.Drawn() {
		va = number(float64(l.Draw.VA) * n)
	}
	k.Watts, k.VA = plus(k.Watts, watts), plus(k.VA, va)
}

// hours takes demand and energy from the 24 hours.
func (s *ServiceSheet) hours(o ReportOf, panel string) {
	if p, ok := o.Results.Day.Panel(panel); ok {
		g := p.All
		s.PeakWatts, s.DemandWatts, s.DemandTimeVA = float64(g.Peak.Power), float64(g.Demand.Power), float64(g.DemandVA.Apparent)
		s.DemandAt, s.KWhPerDay, s.KWhPerMonth, s.LoadFactor, s.AtLeast = g.Demand.At.String(), float64(g.Energy), float64(g.Month), percent(g.LoadFactor), g.AtLeast
		if s.DemandWatts > 0 && s.LoadFactor != nil {
			s.DemandFactor = number(100 * s.KWhPerDay / 24 * 1000 / s.DemandWatts)
		}
	}
	for _, r := range o.Results.Inventory.Rooms {
		w, ok := r.Lights.Get()
		if !ok {
			continue
		}
		k := slices.IndexFunc(s.LightingHours, func(l LitHours) bool { return l.Lit == w.String() })
		if k < 0 {
			k = len(s.LightingHours)
			s.LightingHours = append(s.LightingHours, LitHours{Lit: w.String(), Hours: w.Length().Hours()})
		}
		s.LightingHours[k].Rooms = append(s.LightingHours[k].Rooms, r.Name)
	}
}
