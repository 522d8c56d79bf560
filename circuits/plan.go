package circuits

import (
	"slices"

	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Plan is a finished plan, or the circuits of a site as they are.
type Plan struct {
	Site        string
	Use         inventory.Use
	Code        string // profile name
	CodeTitle   string
	Panels      []Panel   // in natural order of name
	Circuits    []Circuit // by panel, then by first space
	Unfed       []Unfed
	Assumptions []loads.Assumption
	Optimality  Optimality
	Choices     []VoltageChoice
	Proofs      []Proof
}

// Panel is a panelboard with what it carries.
type Panel struct {
	Name        string
	System      inventory.System
	LegNames    []string
	Main        units.Known[units.Current]
	Bus         units.Known[units.Current]
	Spaces      units.Known[int]
	SpacesUsed  int
	OtherSpaces units.Known[int] // taken by breakers that the file does not list
	Spare       int              // spaces left
	Feeder      *Feeder          // nil at the service
	Feeds       []string         // panels it feeds

	ConnectedWatts units.Power
	UnknownWatts   bool // a load's watts are not known
	ConnectedVA    units.Apparent
	DemandVA       units.Apparent  // continuous allowance included, noncoincident loads once
	Legs           []units.Current // operating current per leg in the worst state of the day
	Neutral        units.Known[units.Current]
	Required       units.Current // worst leg with the continuous allowance
	Imbalance      units.Ratio   // (largest − smallest leg) / mean
	Balance        LegBalance
	State          string                     // the state of the day that Legs shows
	OtherLoad      units.Known[units.Current] // per leg, not listed in the file
	MeasuredPeak   units.Known[units.Current]
	Steps          []steps.Step
}

// Unlisted reports whether a panel carries load that the file does not list:
// breakers that nobody has told of may then stand in its spaces.
func (p Panel) Unlisted() bool {
	return p.OtherLoad.Or(0) > 0 || p.MeasuredPeak.Or(0) > 0 || p.OtherSpaces.Or(0) > 0
}

// Taken is how many of a panel's spaces are taken. Where breakers that the file does
// not list may stand in it and are not counted, it is the least and all is false.
func (p Panel) Taken() (n int, all bool) {
	other, counted := p.OtherSpaces.Get()
	return p.SpacesUsed + other, counted || !p.Unlisted()
}

// Adds reports whether the plan puts a breaker into a panel.
func (p Plan) Adds(panel string) bool {
	return slices.ContainsFunc(p.Circuits, func(c Circuit) bool { return c.Panel == panel && !c.Existing }) ||
		slices.ContainsFunc(p.Panels, func(x Panel) bool { return x.Feeder != nil && x.Feeder.From == panel && !x.Feeder.Existing })
}

// Feeder is the run that feeds a sub-panel, and its breaker in the feeding panel.
type Feeder struct {
	From        string
	Panel       string
	Existing    bool
	Spaces      []int
	Legs        []int
	Poles       int
	Volts       units.Voltage
	Breaker     units.Known[units.Current]
	Load        units.Current // operating, worst leg
	Required    units.Current
	Conductor   Wire
	Ground      Wire
	Length      units.Known[units.Length]
	Drop        units.Known[units.Ratio]
	Enough      string // of one in the wall that drops too much: the smallest conductor behind its breaker that does not
	Carrying    int    // current-carrying conductors in its raceway
	Ambient     units.Temperature
	Neutral     Neutral
	Raceway     Raceway
	Transformer *Transformer
	Steps       []steps.Step
}

// Transformer stands between a feeder and the panel it feeds.
type Transformer struct {
	Rating    units.Apparent
	Given     bool
	Phases    int
	Primary   units.Voltage
	Secondary units.Voltage
}

// Circuit is a branch circuit.
type Circuit struct {
	Name       string
	Panel      string
	Spaces     []int
	Legs       []int // indices into the panel's LegNames
	Supply     inventory.Supply
	ToGround   units.Voltage
	Existing   bool
	Changed    bool // existing, with loads added
	Category   loads.Category
	Rooms      []string
	Controller string
	Breaker    units.Known[units.Current]
	FullRated  bool
	Loads      []Load
	Individual bool // one outlet only

	State      string        // the worst state of the day
	Load       units.Current // per pole, in that state
	Continuous units.Current
	Required   units.Current
	Free       units.Current              // continuous load that may still be added, the plan's own spare kept
	Limits     []Limit                    // by share used, the binding one first; those that are passed before what is only advised
	Measured   units.Known[units.Current] // by a clamp meter
	MeasuredIn string                     // the state it was taken in: "lights on", a time; empty: not said
	Predicted  units.Known[units.Current] // what its loads explain in that state

	Conductor  Wire
	Ground     Wire
	Length     units.Known[units.Length] // panel to first outlet
	LastOutlet units.Known[units.Length] // panel to last outlet
	Drop       units.Known[units.Ratio]
	DropLimit  units.Ratio
	Carrying   int // current-carrying conductors in its raceway
	Ambient    units.Temperature
	Neutral    Neutral
	Raceway    Raceway
	Receptacle string // empty when wired
	Wired      bool
	GFCI       units.Known[bool] // whether ground-fault protection is there
	Protection codes.Protection  // what the code calls for
	Steps      []steps.Step
}

// Load is some units of one item on a circuit.
type Load struct {
	Item       string
	Path       string
	Category   loads.Category
	Room       string
	Count      int
	Added      int      // of Count, how many a plan adds to an existing circuit
	First      int      // number of its first unit among the item's, row by row; 0 where units have no place
	Every      int      // its units are First, First+Every, …: 1 neighbours, 2 every other one
	Listed     []string // names of all units of the item where the file lists them one by one: unit 1 has the first
	Draw       loads.Draw
	Continuous bool
	Always     bool   // continuous where it only overlaps for minutes too: its circuit is sized so at all times
	Why        string // why continuous, or not
	Cite       steps.Cite
}

// Unit returns the number of the load's unit i, from 0.
func (l Load) Unit(i int) int { return l.First + i*max(1, l.Every) }

// Names returns the names of the load's units where the file lists them one by one
// and it is known which they are; nil otherwise.
func (l Load) Names() []string {
	if l.First == 0 || len(l.Listed) == 0 {
		return nil
	}
	out := make([]string, l.Count)
	for i := range out {
		out[i] = l.Listed[l.Unit(i)-1]
	}
	return out
}

// Who names the load's units: the item, or of units listed one by one those that
// are on this circuit.
func (l Load) Who() string {
	if names := l.Names(); names != nil {
		return inventory.Listing(names)
	}
	return l.Item
}

// Amps returns the current of all units of the load, per pole.
func (l Load) Amps() units.Current { return units.Times(l.Draw.Amps, float64(l.Count)) }

// Wire is a chosen or given conductor.
type Wire struct {
	Size          string // empty where unknown
	Material      string
	Insulation    string
	Ampacity      units.Known[units.Current] // usable: corrected, adjusted, capped at the terminations
	TerminalAmps  units.Known[units.Current] // before correction, in the termination column
	CorrectedAmps units.Known[units.Current]
	ProtectedAt   units.Known[units.Current] // the largest device that protects it
	Sets          int
	Governs       string // which test chose the size
	BeforeDrop    string // size before it was enlarged for voltage drop
	Beyond        string // why the tables have no ampacity for it; empty where they have, or where it is not known
}

// Limit is one limit of a circuit and how much of it is used.
type Limit struct {
	Rule   string
	Title  string
	Actual units.Any
	Limit  units.Any
	Share  float64
	Cites  []steps.Cite // the rule's clauses, and values from memory that it rests on
}

// Unfed is units that no circuit feeds.
type Unfed struct {
	Item   string
	Path   string
	Count  int
	Reason string
	Needs  string // what would make it possible
}

// Bounded is a value with the bound that proves how good it is.
type Bounded struct {
	Used, Bound int64
	Proved      bool
	Why         string
}

// Optimality says how good the plan is, and whether that is proved.
type Optimality struct {
	Spaces   Bounded
	Circuits Bounded
	// Imbalance is how far the fullest leg stands above an even share, in VA, over
	// the panels: in the state of the day in which it is fullest, and added up
	// over the states with lights on.
	Imbalance Bounded
	LightsOn  Bounded
}

// LegBalance is how a panel's legs are filled over the day: sums of branch
// currents as a panel schedule adds them up, each rounded to 10 mA, in the states
// that last (a changeover lasts minutes), of interlocked loads each member by
// itself. States count in which no other state of the day has as much on every
// breaker; those with lights on are added up, or all where none has.
type LegBalance struct {
	State    string // in which the fullest leg is fullest
	Worst    int64  // the fullest leg then, in steps of 10 mA
	Even     int64  // an equal share then, rounded up
	Bound    int64  // no layout of the same breakers has a smaller Worst
	Proved   bool
	Why      string
	Lit      int64 // the fullest legs of the states with lights on, added up
	LitEven  int64 // the same at an equal share
	LitBound int64 // no layout with this Worst has a smaller Lit
}

// Proof is a bound of the panel spaces of loads that may share circuits, with
// what it takes to check it by hand. Each choice of voltages has a bound of its
// own; the least of them holds for all.
type Proof struct {
	Panel, Room, Group, Controller string
	Choices                        []ProofOfChoice
	Bound                          int64 // spaces
	Used                           int64
}

// ProofOfChoice bounds the spaces for one choice of voltages. Of each part no
// load shares a circuit with a load of another part, so their bounds add up.
type ProofOfChoice struct {
	Volts []units.Voltage // by item of all parts, in their order
	Parts []ProofPart
	Bound int64
}

// ProofPart gives each item a whole-number weight such that no circuit that may
// be opened holds more than Z of weight per panel space it takes; then the
// spaces are at least (total weight − Spared) / Z, rounded up.
type ProofPart struct {
	Items  []ProofItem
	Bins   []ProofBin
	Z      int64
	Spared int64 // what existing circuits may hold beyond their share, and units left out
	Bound  int64
}

// ProofItem is one kind of unit: how many, what one takes of a circuit in weighted
// milliamperes, and its weight.
type ProofItem struct {
	Item   string
	Count  int
	Volts  units.Voltage
	Size   int64
	Weight int64
}

// ProofBin is a kind of circuit that may be opened.
type ProofBin struct {
	Volts  units.Voltage
	Rating units.Current
	Spaces int
	Room   int64 // weighted milliamperes
	Most   []int // by item of the part, the most units in one; −1: no limit
}

// VoltageChoice is what an item would take at each voltage it could be served at.
type VoltageChoice struct {
	Item    string
	Chosen  units.Voltage
	Options []VoltageOption
}

// VoltageOption is one of them.
type VoltageOption struct {
	Volts    units.Voltage
	Phases   int
	System   string // a panel system that supplies it
	Own      bool   // the item's own panel does
	Spaces   int
	Circuits int
	Proved   bool
	Each     units.Current
	Sizes    map[string]int       // circuits by conductor size
	Copper   units.Known[float64] // pounds of copper in conductors and grounds
}

// Add counts a circuit's conductor and copper in the option.
func (o *VoltageOption) Add(c Circuit, copper units.Known[float64]) {
	if o.Sizes == nil {
		o.Sizes = map[string]int{}
		o.Copper = units.Is(0.0)
	}
	o.Sizes[c.Conductor.Size]++
	sum, ok1 := o.Copper.Get()
	more, ok2 := copper.Get()
	if !ok1 || !ok2 {
		o.Copper = units.Unknown[float64](o.Copper.Why() + copper.Why())
		return
	}
	o.Copper = units.Is(sum + more)
}
