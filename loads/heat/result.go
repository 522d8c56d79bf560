package heat

import (
	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Result is the heat of all rooms of a site.
type Result struct {
	Rooms       []Room // in natural order of name
	Block       Block
	Assumptions []loads.Assumption             // of all rooms, in natural order of subject
	Notes       []string                       // what stands in no room
	SummerRatio units.Known[air.HumidityRatio] // of outdoor air on the summer design day
}

// Room returns the room of that name.
func (r Result) Room(name string) (Room, bool) {
	for _, x := range r.Rooms {
		if x.Name == name {
			return x, true
		}
	}
	return Room{}, false
}

// Block is the whole building at its worst hour: the largest sum of the rooms, which
// is less than the sum of their peaks where rooms are lit at different times.
type Block struct {
	Day        DayName
	At         int // the hour it begins
	Total      units.Heat
	SumOfPeaks units.Heat
	AtLeast    bool
	Lacks      bool // as of a room of it
	Sunless    bool
}

// Gain is heat that a room takes up, dry and as water vapour. Negative means given
// off.
type Gain struct {
	Sensible, Latent units.Heat
}

// Total returns sensible and latent heat together.
func (g Gain) Total() units.Heat { return g.Sensible + g.Latent }

// Plus returns the sum of two gains.
func (g Gain) Plus(h Gain) Gain { return Gain{g.Sensible + h.Sensible, g.Latent + h.Latent} }

// ratioSlack is how far a sensible heat ratio may be from what it can be and still be
// shown as none or all.
const ratioSlack = 0.005

// Ratio returns the sensible heat ratio, sensible over total. It says nothing where
// either part is not to be removed.
func (g Gain) Ratio() units.Known[units.Ratio] {
	ratio := units.Ratio(units.Per(g.Sensible, g.Total()))
	if g.Total() <= 0 || ratio < -ratioSlack || ratio > 1+ratioSlack {
		return units.Unknown[units.Ratio]("there is no heat to remove, dry or as vapour")
	}
	return units.Is(min(1, max(0, ratio)))
}

// Part is what one source contributes.
type Part struct {
	Source Source
	Gain
}

// DayName is one of the three days that are worked.
type DayName string

const (
	Summer DayName = "summer design day"
	Winter DayName = "winter design day"
	Mean   DayName = "mean day"
)

// Day is 24 hours.
type Day struct {
	Name  DayName
	Whole bool // false where the air around is unknown and a part that needs it is left out
	Hours [24]Hour
}

// Hour is the mean of one hour, from h:00 to h+1:00.
type Hour struct {
	At     int         // the hour it begins
	Lit    units.Ratio // share of the hour with the lights on
	Parts  []Part      // in the order of Sources, those that are there
	Gain               // sum of Parts: what cooling and dehumidifying have to remove
	Vapour units.Heat  // latent heat of all water given off, before dehumidifiers

	Removed  units.WaterRate // by dehumidifiers standing in the room
	Electric units.Power     // used up in the room
	SetPoint units.Temperature
	Around   units.Known[units.Temperature] // of the air outside the walls

	// Vented is what the room's own exhaust carries off at this hour, as a negative
	// gain. It is kept out of the sums: a fan is a means of removing heat and can be
	// slowed. Where the air drawn in is warmer or wetter than the room it is a gain
	// and stands among the parts.
	Vented Gain
}

// Part returns what one source contributes in the hour.
func (h Hour) Part(s Source) Gain {
	for _, p := range h.Parts {
		if p.Source == s {
			return p.Gain
		}
	}
	return Gain{}
}

// Canopy is how much water the plants give off.
type Canopy string

const (
	FullCanopy  Canopy = "full canopy"
	SmallPlants Canopy = "small plants" // the first day of a crop: no transpiration
)

// Running is whether something of the room runs in a case.
type Running string

const (
	Runs Running = "running"
	Off  Running = "off"
	None Running = "none" // the room has none
)

// Case is one hour picked for what is largest in it.
type Case struct {
	Name   string
	Day    DayName
	Canopy Canopy
	Hour

	Dehumidifiers Running
	Exhaust       Running // asked of the cases of heating only; elsewhere what it brings in counts and what it carries off does not
}

// LeftOut is a load of the room whose heat, or part of it, goes elsewhere.
type LeftOut struct {
	Name  string
	Watts units.Power // of all its units
	Why   string
}

// Room is the heat of one room.
type Room struct {
	Name                 string
	Summer, Winter, Mean Day

	HeldOn, HeldOff Held // set points, given or assumed

	LightsOn  units.Known[Case] // the worst hour, by total, fully lit
	LightsOff units.Known[Case] // the worst hour, by total, fully dark

	Peak     Case // largest total: what the cooling has to remove
	Sensible Case // largest sensible: what its air side has to carry
	Latent   Case // largest latent: water, before any dehumidifier
	Coldest  Case // least sensible, without the exhaust: heating where it is negative

	ColdestVented units.Known[Case] // the same with the exhaust running

	Tons     float64                  // of Peak
	Ratio    units.Known[units.Ratio] // sensible heat ratio of Peak
	Watts    units.Power              // electric power used up in the room at Peak
	Undimmed units.Known[units.Heat]  // largest total with all lights at full level, where some are dimmed
	AtLeast  bool                     // totals are a least value, by one of the following
	Lacks    bool                     // a part is not known, see Missing
	Sunless  bool                     // sun falls on walls or roof and is not counted

	Water          units.Known[Water]
	Airflow        units.Known[units.Airflow] // to hold the set point by ventilation alone
	AirflowHumid   units.Known[units.Airflow] // to carry off the water
	AirflowHardly  bool                       // Airflow is so large, for a small difference, that it is hardly practical
	HeatAndDry     bool                       // heating and dehumidifying needed in the same hour
	HeatAndDryWhy  string
	Reheat         Reheat // of the hour of HeatAndDry
	Equipment      Equipment
	Light          Light
	LeftOut        []LeftOut
	Missing, Notes []string
	Assumptions    []loads.Assumption
	Steps          []steps.Step
}

// Days returns the three days.
func (r Room) Days() []Day { return []Day{r.Summer, r.Winter, r.Mean} }

// Water is what has to be taken out of a room's air so that its humidity stays.
type Water struct {
	PerDay           units.WaterRate // over the whole day
	LightsOn         units.WaterRate // rate while lit, as litres per day
	LightsOff        units.WaterRate // rate while dark
	AmountOn         float64         // litres in the lit hours of a day
	AmountOff        float64         // litres in the dark hours
	FromPlants       units.WaterRate // part of PerDay that the plants give off
	RemovedByRoom    units.WaterRate // what dehumidifiers in the room take of it
	GovernsLightsOff bool            // the dark rate sizes the dehumidifiers, not the lit one
}

// Reheat is the worst hour that asks for heating and dehumidifying at once.
type Reheat struct {
	Day    DayName
	At     int
	Lit    bool
	Before units.Heat              // heating without the heat that dehumidifiers give back
	After  units.Known[units.Heat] // with it, zero where it covers the need; unknown where none stands in the room
	Water  units.WaterRate         // to remove
}

// Answer is a comparison that may not be decidable.
type Answer string

const (
	Yes        Answer = "yes"
	No         Answer = "no"
	CannotTell Answer = "cannot tell"
)

// Cover compares what is installed with what a design case asks.
type Cover[T ~float64] struct {
	What            string // "total cooling", "sensible cooling", "water", "heating"
	Case            string // the design case
	State           string // what runs in it, where that is not plain: "exhaust off"
	Needed          T
	NeededWhy       string // why Needed is not known, and then zero
	Least           string // why Needed is a least value, so that a capacity above it proves nothing
	Installed       units.Known[T]
	WithoutLargest  units.Known[T]
	Holds           Answer
	HoldsWithoutOne Answer
	Cycling         units.Known[Cycling[T]] // where the coil counts in full and the thermostat would stop it
}

// Cycling is a comparison with the coil on only as much as its sensible load asks. A
// coil takes water only while it runs, so that a unit too large for the dry heat of an
// hour takes less than it is rated for.
type Cycling[T ~float64] struct {
	Run               units.Ratio // share of the hour
	Needed, Installed T
}

// Equipment is what is installed against what is needed.
type Equipment struct {
	Cooling       []Cover[units.Heat]
	Dehumidifying []Cover[units.WaterRate]
	Heating       Cover[units.Heat]
	HeatingAlso   []Cover[units.Heat]               // with the exhaust, or with the dehumidifiers, off
	Exhaust       units.Known[Cover[units.Airflow]] // of a room that has one and may be ventilated
	Sizes         []Size                            // next sizes as sold, where no cooling is stated
	SizesWhy      string                            // why there are none, where the load has to be known better first
	SizedBy       string                            // the design case that governs them
	SizeLatent    units.Heat                        // what the first of Sizes leaves for water, at its usual sensible share
	CoolingPower  units.Power                       // electric power that the first of Sizes draws, at a usual efficiency
	Estimated     []Estimate                        // of stated cooling whose watts its load does not know
}

// Estimate is the electric power of one unit found from its cooling capacity.
type Estimate struct {
	Item  string
	Watts units.Power
}

// Size is an equipment size as the trade sells it.
type Size struct {
	Count  int
	Tons   float64     // of each
	Margin units.Ratio // above the load; it is not part of the load
}

// Light is a check of sense on lights and density.
type Light struct {
	PPFD    units.Known[float64] // mean, µmol/(m²·s)
	DLI     units.Known[float64] // mol/(m²·day)
	Watts   units.Known[float64] // W of lighting per ft² of canopy
	Cooling units.Known[float64] // tons per kW of lighting
	Checks  []Range
}

// Range is a figure beside its usual range. Outside is a note, not an error.
type Range struct {
	What      string
	Value     float64
	Low, High float64
	Unit      string
	Outside   bool
	Cite      steps.Cite
}
