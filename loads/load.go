package loads

import (
	"slices"

	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Category sorts loads by what they do; circuits keep categories apart.
type Category string

const (
	Lighting    Category = "lighting"
	AirMovement Category = "air movement"
	Control     Category = "control"
	Water       Category = "water"   // wet equipment: pumps, chillers, humidifiers
	Climate     Category = "climate" // heat, cooling, dehumidifying
	Receptacles Category = "outlets"
	OtherLoads  Category = "other"
)

// Assumption is a value that the file does not give.
type Assumption struct {
	Subject string // key path: "fixtures.bar-640.power_factor"
	Value   string
	Why     string
	Cite    steps.Cite
}

// MotorTable gives a motor's full-load current by rated output, nominal voltage
// and phases; ok is false beyond the table. A code profile supplies it.
type MotorTable func(hp units.Horsepower, v units.Voltage, phases int) (i units.Current, cite steps.Cite, ok bool)

// Load is one item of the inventory, Count identical units.
type Load struct {
	Item     *inventory.Item // shared with the inventory; not to be changed
	Name     string
	Path     string
	Category Category
	Room     string
	Panels   []string // that can feed it, the preferred first
	Count    int

	PF         units.Ratio // at full power
	Voltage    units.VoltageSet
	Phases     int                      // 1 or 3; 0 either
	Power      units.Known[units.Power] // sizing power of one unit: nameplate or boost
	Running    units.Known[units.Power] // mean power of one unit while on, for heat and energy
	Motor      units.Known[units.Horsepower]
	Heater     bool   // fixed space heating
	Corded     bool   // cord-and-plug connected
	Plug       string // its receptacle where the file names one
	NonLinear  bool   // electronic supply; its neutral current carries harmonics
	Alone      bool   // takes a circuit of its own
	AloneWhy   string
	Continuous units.Known[bool] // marked by the user
	Interlock  string            // loads of one group whose members differ cannot run together
	Member     string            // which member of its group it belongs to

	Hours      clock.Windows
	HoursKnown bool
	Drivers    int

	motors MotorTable
}

// LongestRun returns the longest time that the load is on without a break;
// unknown where its hours are.
func (l Load) LongestRun() units.Known[clock.Minute] {
	if !l.HoursKnown {
		return units.Unknown[clock.Minute]("its hours are not given")
	}
	if l.Hours.IsNever() {
		return units.Unknown[clock.Minute]("connected equipment that is never to run can still be switched on")
	}
	return units.Is(l.Hours.LongestRun())
}

// OnAt reports whether the load is on at minute m of the day. A load whose hours
// are unknown, or never, counts as on: what is connected can be switched on.
func (l Load) OnAt(m clock.Minute) bool { return l.AlwaysOn() || l.Hours.Contains(m) }

// AlwaysOn reports whether the load counts as on at every time of the day.
func (l Load) AlwaysOn() bool { return !l.HoursKnown || l.Hours.IsNever() || l.Hours.IsAlways() }

// CodeValues is what the loads of a site need of a code of practice; a profile
// supplies it.
type CodeValues struct {
	Motors     MotorTable
	Outlet     units.Apparent // of a general outlet whose load is not known
	OutletCite steps.Cite
}

// Draw is what one unit draws from one supply.
type Draw struct {
	Supply     inventory.Supply
	Amps       units.Current // sizing current of one unit, per pole: the larger of the two below
	Computed   units.Known[units.Current]
	Stated     units.Known[units.Current]
	Governs    string // which of the two, in words
	PF         units.Ratio
	VA         units.Apparent // of the sizing current
	Watts      units.Known[units.Power]
	Motor      bool                       // current from the motor tables
	MinCircuit units.Known[units.Current] // marked on the equipment; holds the allowance already
	MaxDevice  units.Known[units.Current] // marked largest overcurrent device
	Steps      []steps.Step
}

// Set is all loads of a site with what was assumed.
type Set struct {
	Loads       []Load // in natural order of name
	Assumptions []Assumption

	index map[string]int
}

// Named returns the load of that name.
func (s Set) Named(name string) (Load, bool) {
	if i := s.Where(name); i >= 0 {
		return s.Loads[i], true
	}
	return nothing(), false
}

// Where returns the place in Loads of the load of that name, -1 where there is none.
func (s Set) Where(name string) int {
	if s.index == nil {
		return slices.IndexFunc(s.Loads, func(l Load) bool { return l.Name == name })
	}
	if i, ok := s.index[name]; ok {
		return i
	}
	return -1
}

// nothing is a load of which nothing is known.
func nothing() Load { return Load{Item: &inventory.Item{}} }
