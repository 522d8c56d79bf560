package inventory

import (
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// Inventory is a site as the user describes it. Lists are in natural order of
// name (bar-2 before bar-10), whatever the order of the file, so that nothing
// computed from them depends on it.
type Inventory struct {
	File     string // name of the file, as problems print it
	Site     Site
	Panels   []Panel
	Rooms    []Room
	Items    []Item // everything that draws power or makes heat, of all four tables
	Circuits []Circuit
	Plan     Plan
	Tariff   Tariff

	places *placeIndex
}

// Use of the premises; rules differ in a dwelling.
type Use string

const (
	Commercial Use = "commercial"
	Dwelling   Use = "dwelling"
)

// Site is the [site] table.
type Site struct {
	Name       string
	Use        Use
	Code       units.Known[string] // "nec-2023"
	Altitude   units.Known[units.Length]
	Conductors Wiring
	Outdoor    Outdoor
	Notes      string
}

// Wiring is how conductors are run where nothing else is said.
type Wiring struct {
	Material   units.Known[string] // "copper", "aluminum"
	Insulation units.Known[string] // "THHN"
	Raceway    units.Known[string] // "EMT", "PVC"
	Ambient    units.Known[units.Temperature]
	Terminals  units.Known[units.Temperature] // rating of the terminations
	PerRaceway units.Known[int]               // circuits that share one raceway
}

// Outdoor is the design state of the outdoor air.
type Outdoor struct {
	Summer        units.Known[units.Temperature]
	SummerWetBulb units.Known[units.Temperature]
	Winter        units.Known[units.Temperature]
}

// Panel is a [panels.X] table.
type Panel struct {
	Name         string
	System       System
	Main         units.Known[units.Current]
	Bus          units.Known[units.Current]
	Spaces       units.Known[int]
	FedBy        string // the panel that feeds it, empty at the service
	Feeder       Feeder
	Transformer  units.Known[units.Apparent] // between FedBy and this panel
	OtherLoad    OtherLoad
	OtherSpaces  units.Known[int] // that breakers take which the file does not list
	MeasuredPeak units.Known[MeasuredPeak]
	Breakers     []units.Current // ratings the user will buy
}

// Feeder is the run from the feeding panel.
type Feeder struct {
	Length    units.Known[units.Length]
	Breaker   units.Known[units.Current]
	Conductor units.Known[Conductor]
	Spaces    []int // in the feeding panel, where the feeder exists
}

// OtherLoad is demand already on a panel that the file does not list.
type OtherLoad struct {
	PerLeg units.Known[units.Current]
	Total  units.Known[units.Apparent]
}

// MeasuredPeak is a measured maximum demand with the months it covers.
type MeasuredPeak struct {
	Peak   units.Known[units.Current]
	Total  units.Known[units.Apparent]
	Months int
}

// Room is a [rooms.X] table.
type Room struct {
	Name       string
	Panels     []string // the panels that can feed it, the preferred first
	Length     units.Known[units.Length]
	Width      units.Known[units.Length]
	Height     units.Known[units.Length]
	Lights     units.Known[clock.Windows]
	Run        units.Known[units.Length] // panel to first outlet
	Spacing    units.Known[units.Length] // between outlets along a run
	Climate    Climate
	Walls      Surface
	Roof       Surface
	Floor      Surface
	AirChanges units.Known[float64] // per hour
	Inside     bool                 // stands in a conditioned building
	Watering   units.Known[units.WaterRate]
	Runoff     units.Known[units.Ratio]
	People     units.Known[float64]
	Canopy     units.Known[units.Area]
	Exhaust    units.Known[units.Airflow]
	Ramp       units.Known[clock.Minute]  // sunrise and sunset, each
	Interlock  string                     // rooms of one name cannot be lit together
	StartsFrom units.Known[clock.Windows] // when the photoperiod may begin, for staggering
	Apart      []string                   // rooms whose lights must not overlap with this one's
}

// Climate is the set points with lights on and off.
type Climate struct {
	LightsOn    units.Known[units.Temperature]
	LightsOff   units.Known[units.Temperature]
	HumidityOn  units.Known[units.Ratio]
	HumidityOff units.Known[units.Ratio]
}

// Surface is a wall, roof or floor: an area and how well it insulates.
type Surface struct {
	Area units.Known[units.Area]
	U    units.Known[units.Transmittance] // from r where r was given
}

// Table names of items.
const (
	Fixtures    = "fixtures"
	Fans        = "fans"
	Controllers = "controllers"
	Equipment   = "equipment"
)

// Kinds of [equipment.X].
const (
	Dehumidifier   = "dehumidifier"
	Humidifier     = "humidifier"
	AirConditioner = "air-conditioner"
	Heater         = "heater"
	Pump           = "pump"
	Chiller        = "chiller"
	CO2Burner      = "co2-burner"
	Outlet         = "outlet"
	Other          = "other"
)

// Item is one entry of [fixtures], [fans], [controllers] or [equipment]: Count
// identical units. Keys that a table does not have stay unknown.
type Item struct {
	Table string
	Name  string
	Kind  string // of equipment; empty elsewhere
	Room  string
	Panel string // a panel of its own choice, instead of the room's
	Count int
	// Listed are the names, in natural order, of units that the file lists one by one
	// and that are alike; Name tells them all. Nil where one table tells of every unit.
	Listed []string

	Power       units.Known[units.Power]
	Apparent    units.Known[units.Apparent]
	Motor       units.Known[units.Horsepower]
	Current     units.Known[units.Current] // at the one Voltage given
	Currents    []CurrentAt                // label currents, ascending voltage
	Boost       units.Known[units.Power]   // power it can be set to above nominal
	PowerFactor units.Known[units.Ratio]
	Voltage     units.Known[units.VoltageSet]
	Phases      units.Known[int]
	Basis       units.Known[string] // label, sheet, measured, assumed
	Nameplate   units.Known[Nameplate]

	Hours      units.Known[clock.Windows] // of a fixture: its own lights window
	Duty       units.Known[units.Ratio]   // share of its hours that it runs
	Continuous units.Known[bool]          // marked so by the user
	Level      units.Known[units.Ratio]
	Interlock  string // items of one name cannot run together

	Drivers       units.Known[int]
	MaxPerBreaker []MaxPerBreaker
	MaxBreaker    units.Known[units.Current]
	Inrush        units.Known[Inrush]
	Leakage       units.Known[units.Current] // per driver, of equipment per unit
	Location      units.Known[string]        // dry, damp, wet
	Wired         units.Known[bool]
	Plug          units.Known[string]
	Controller    string
	RemoteDriver  units.Known[units.Ratio]
	Photons       units.Known[units.Photons]
	Link          units.Known[Link]

	IsMotor bool
	Duct    units.Known[units.Ratio]

	Outlets      units.Known[int]
	OutletRating units.Known[units.Current]
	Feed         units.Known[units.Current]
	Contactor    units.Known[units.Current] // per pole

	Dedicated units.Known[bool]
	Removes   units.Known[units.WaterRate]
	Adds      units.Known[units.WaterRate] // of a humidifier
	Steam     bool
	Cooling   units.Known[units.Heat]
	Sensible  units.Known[units.Heat] // of Cooling
	Burns     units.Known[units.Heat]
	Fuel      units.Known[string] // natural-gas, propane
	Outdoors  bool
}

// Path is the item's key path: "fixtures.bar-640".
func (i Item) Path() string { return i.Table + "." + i.Name }

// CurrentAt is a label current at a voltage.
type CurrentAt struct {
	Voltage units.Voltage
	Current units.Current
}

// Nameplate is the branch circuit that equipment is marked for.
type Nameplate struct {
	MinCircuit units.Known[units.Current] // minimum circuit ampacity
	MaxBreaker units.Known[units.Current] // maximum overcurrent device
}

// MaxPerBreaker is the maker's limit of fixtures on one breaker. Rating zero
// holds for every rating.
type MaxPerBreaker struct {
	Rating units.Current
	Count  int
}

// Inrush is the peak current at switch-on of one fixture.
type Inrush struct {
	Peak units.Current
	Time units.Known[string] // as written; for the record only
}

// Link is how fixtures are chained through one another: the first one's inlet
// carries them all.
type Link struct {
	Rating units.Current    // of the inlet or the jumper, whichever is less
	Most   units.Known[int] // in one chain, by the maker
	Units  units.Known[int] // in the longest chain that is built
}

// Conductor is a wire as a user names it: "12 AWG copper THHN", or
// "2 x 350 kcmil copper THHN" for parallel sets.
type Conductor struct {
	Sets       int // in parallel; 0 and 1: one
	Size       string
	Material   units.Known[string]
	Insulation units.Known[string]
}

// Circuit is a [circuits.X] table: a branch circuit that exists.
type Circuit struct {
	Name       string
	Panel      string
	Spaces     []int
	Breaker    units.Current
	FullRated  bool // the assembly is listed for 100 % continuous operation
	Conductor  units.Known[Conductor]
	Ground     units.Known[Conductor]
	Length     units.Known[units.Length]
	Voltage    units.Known[units.Voltage]
	Receptacle units.Known[string]
	Feeds      []Fed
	Measured   units.Known[units.Current]
	MeasuredAt string              // date, and the state it was taken in
	State      units.Known[string] // "lights on", "lights off", or a time of day
	GFCI       units.Known[bool]

	SharesNeutral []string // circuits that share one neutral with it
	HandleTie     units.Known[bool]
	Raceway       units.Known[Raceway]
}

// Raceway is what conductors run in, as a user names it: "1/2 EMT".
type Raceway struct {
	Trade string // as the tables write it: "1/2 in"
	Kind  string // "EMT", "PVC"
}

// Fed is how many of an item a circuit feeds.
type Fed struct {
	Item  string
	Count int
}

// Plan is the [plan] table: how to decide.
type Plan struct {
	Voltage   units.Known[units.Voltage]
	Best      bool // voltage = "best"
	Breakers  []units.Current
	Spare     units.Known[units.Ratio]
	MaxDrop   units.Known[units.Ratio]
	Separate  []string // categories kept on circuits of their own; nil = default
	Spread    []string // items to spread over at least two circuits
	Reuse     units.Known[bool]
	Alternate bool // circuits of a row take every other fixture, so that half of it stays lit
}

// Tariff is the [tariff] table.
type Tariff struct {
	Currency string
	Energy   []EnergyPrice
	Demand   units.Known[units.Money] // per kW and month
	Minimum  units.Known[units.Money] // least bill of a month
	Ratchet  units.Known[units.Ratio] // share of the year's highest demand billed at least
}

// EnergyPrice is a price per kWh, for all hours or for some.
type EnergyPrice struct {
	Price  units.Money
	Hours  units.Known[clock.Windows]
	Season units.Known[string] // summer, winter
	Days   units.Known[string] // weekdays, weekends
}
