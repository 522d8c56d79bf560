package document

import "cmp"

// PlanSchema names the contract of Plan.
const PlanSchema = "branchwork/plan/1"

// Plan is the answer of plan and of check.
type Plan struct {
	Schema         string          `json:"schema" jsonschema:"enum=branchwork/plan/1"`
	Site           string          `json:"site"`
	Code           string          `json:"code" jsonschema_description:"name of the code profile"`
	CodeTitle      string          `json:"code_title"`
	GroundCalled   string          `json:"ground_called" jsonschema_description:"in short, what the trade calls an equipment grounding conductor"`
	Use            string          `json:"use" jsonschema:"enum=commercial,enum=dwelling"`
	AsBuilt        bool            `json:"as_built" jsonschema_description:"true where only the circuits in the wall are judged"`
	Circuits       []Circuit       `json:"circuits"`
	Panels         []Panel         `json:"panels"`
	Heat           []RoomHeat      `json:"heat"`
	Day            PlanDay         `json:"day"`
	Optimality     *Optimality     `json:"optimality,omitempty" jsonschema_description:"absent where nothing was decided"`
	VoltageChoices []VoltageChoice `json:"voltage_choices"`
	Unfed          []Unfed         `json:"unfed"`
	RoomLeft       []RoomLeft      `json:"room_left,omitzero" jsonschema_description:"what each circuit would still take, one kind at a time and by the circuit's own rules; absent where circuits are planned"`
	Scarce         []Scarce        `json:"scarce" jsonschema_description:"what runs out first, the scarcest first"`
	Proofs         []Proof         `json:"proofs" jsonschema_description:"bounds of the panel spaces, to be checked by hand"`
	Compare        []Comparison    `json:"compare,omitzero" jsonschema_description:"the same units at every voltage that they accept; only where it was asked for"`
	Findings       []Finding       `json:"findings"`
	Assumptions    []Assumption    `json:"assumptions"`
	Listed         []Listed        `json:"listed,omitempty" jsonschema_description:"alike fixtures that the file lists one by one; what is said of the first of them is said of all, but for the loads of circuits, which name each"`
	Verdict        Verdict         `json:"verdict"`
	Checked        Checked         `json:"checked"`
}

// Circuit is a branch circuit. Amperes are per pole at its voltage, in the
// worst state of the day.
type Circuit struct {
	Name            string     `json:"name"`
	Panel           string     `json:"panel"`
	Spaces          []int      `json:"spaces"`
	Legs            []string   `json:"legs"`
	Poles           int        `json:"poles"`
	Phases          int        `json:"phases"`
	Existing        bool       `json:"existing"`
	Changed         bool       `json:"changed" jsonschema_description:"existing, with loads added"`
	Category        string     `json:"category"`
	Rooms           []string   `json:"rooms"`
	Volts           float64    `json:"volts"`
	VoltsToGround   float64    `json:"volts_to_ground"`
	BreakerAmps     *float64   `json:"breaker_amps" jsonschema:"nullable"`
	FullRated       bool       `json:"full_rated" jsonschema_description:"listed for continuous operation at 100 %"`
	LoadAmps        *float64   `json:"load_amps" jsonschema:"nullable" jsonschema_description:"null, as are the three below, where the current of a load on it is not known"`
	ContinuousAmps  *float64   `json:"continuous_amps" jsonschema:"nullable"`
	RequiredAmps    *float64   `json:"required_amps" jsonschema:"nullable" jsonschema_description:"with the allowance for continuous load"`
	FreeAmps        *float64   `json:"free_amps" jsonschema:"nullable" jsonschema_description:"continuous load that may still be added, by the rating alone"`
	StandsAlone     bool       `json:"stands_alone" jsonschema_description:"a load on it must have the circuit to itself: what is free takes nothing else"`
	State           string     `json:"state" jsonschema_description:"the state of the day that the amperes are of"`
	MeasuredAmps    *float64   `json:"measured_amps,omitempty"`
	Measured        *Measured  `json:"measured,omitempty" jsonschema_description:"the measured current beside what the loads explain; absent where none was measured"`
	Loads           []Load     `json:"loads"`
	Limits          []Limit    `json:"limits" jsonschema_description:"by share used, the binding one first; those that are passed before what is only advised"`
	Conductor       Conductor  `json:"conductor"`
	Ground          Ground     `json:"ground"`
	DropLimit       float64    `json:"drop_limit_percent"`
	Wired           bool       `json:"wired"`
	Receptacle      Receptacle `json:"receptacle,omitzero" jsonschema_description:"absent when wired, null where not known"`
	GFCI            *bool      `json:"gfci" jsonschema:"nullable" jsonschema_description:"whether ground-fault protection is there"`
	Protection      Protection `json:"protection"`
	NotApplied      string     `json:"not_applied,omitempty" jsonschema_description:"rules on what it feeds that the profile does not hold"`
	Controller      string     `json:"controller,omitempty"`
	IndividualOnly  bool       `json:"individual" jsonschema_description:"feeds one outlet only"`
	LastOutletFeet  *float64   `json:"last_outlet_ft" jsonschema:"nullable"`
	AmbientCelsius  float64    `json:"ambient_c"`
	CarryingInGroup int        `json:"current_carrying_conductors" jsonschema_description:"in its raceway or cable"`
}

// Load is some units of one item on a circuit.
type Load struct {
	Item       string   `json:"item"`
	Category   string   `json:"category" jsonschema:"enum=fixture,enum=fan,enum=controller,enum=equipment" jsonschema_description:"the table that it stands in"`
	Room       string   `json:"room,omitempty"`
	Count      int      `json:"count"`
	FirstUnit  int      `json:"first_unit,omitempty" jsonschema_description:"number of the first of them along the rows of the room; absent where units have no place"`
	UnitStep   int      `json:"unit_step,omitempty" jsonschema_description:"from one of its numbers to the next, where they are not neighbours"`
	Added      int      `json:"added" jsonschema_description:"of count, how many are added to an existing circuit"`
	AmpsEach   *float64 `json:"amps_each" jsonschema:"nullable"`
	WattsEach  *float64 `json:"watts_each" jsonschema:"nullable"`
	VAEach     *float64 `json:"va_each" jsonschema:"nullable"`
	Continuous bool     `json:"continuous"`
	Why        string   `json:"continuous_why"`
	Governs    string   `json:"governs" jsonschema_description:"which current sizes the circuit"`

	of    string   // the item, as the equipment schedule has it
	names []string // of units that the file lists one by one
}

// Of is the item that a load's units are of, as the equipment schedule has it.
func (l Load) Of() string { return cmp.Or(l.of, l.Item) }

// Limit is one limit of a circuit and how much of it is used.
type Limit struct {
	Rule        string  `json:"rule"`
	Title       string  `json:"title"`
	Actual      float64 `json:"actual"`
	Limit       float64 `json:"limit"`
	Unit        string  `json:"unit"`
	UsedPercent float64 `json:"used_percent"`
}

// Conductor is a chosen or given conductor with its run.
type Conductor struct {
	Size           *string  `json:"size" jsonschema:"nullable"`
	Material       *string  `json:"material" jsonschema:"nullable"`
	Insulation     *string  `json:"insulation" jsonschema:"nullable"`
	AmpacityAmps   *float64 `json:"ampacity_amps" jsonschema:"nullable" jsonschema_description:"usable: corrected, adjusted, capped at the terminations"`
	TerminalAmps   *float64 `json:"terminal_amps" jsonschema:"nullable" jsonschema_description:"in the termination column, before correction"`
	CorrectedAmps  *float64 `json:"corrected_amps" jsonschema:"nullable"`
	ProtectedAt    *float64 `json:"protected_at_amps" jsonschema:"nullable" jsonschema_description:"the largest device that protects it"`
	LengthFeet     *float64 `json:"length_ft" jsonschema:"nullable" jsonschema_description:"panel to first outlet"`
	DropPercent    *float64 `json:"drop_percent" jsonschema:"nullable"`
	ParallelSets   int      `json:"parallel_sets"`
	Governs        string   `json:"governs,omitempty" jsonschema_description:"which test chose the size"`
	SizeBeforeDrop string   `json:"size_before_drop,omitempty" jsonschema_description:"size before it was enlarged for voltage drop"`
}

// Ground is an equipment grounding conductor.
type Ground struct {
	Size     *string `json:"size" jsonschema:"nullable"`
	Material *string `json:"material" jsonschema:"nullable"`
}

// Protection is the ground-fault protection that the code calls for.
type Protection struct {
	Needed bool     `json:"needed"`
	Class  string   `json:"class,omitempty"`
	TripMA *float64 `json:"trip_ma,omitempty"`
	Why    string   `json:"why,omitempty"`
	Open   string   `json:"open,omitempty" jsonschema_description:"why it cannot be told whether one is needed; absent where it can"`
	Clause string   `json:"clause,omitempty"`
}

// NothingPlanned reports whether every circuit and feeder of a plan is in the wall
// already and takes nothing new.
func (p Plan) NothingPlanned() bool {
	for _, c := range p.Circuits {
		if !c.Existing || c.Changed {
			return false
		}
	}
	for _, x := range p.Panels {
		if x.Feeder != nil && !x.Feeder.Existing {
			return false
		}
	}
	return !p.AsBuilt && len(p.Circuits) > 0
}

// Panel is a panelboard with what it carries.
type Panel struct {
	Name             string             `json:"name"`
	System           string             `json:"system"`
	Legs             []string           `json:"legs" jsonschema_description:"in bus order"`
	Spaces           *int               `json:"spaces" jsonschema:"nullable"`
	SpacesUsed       int                `json:"spaces_used"`
	MainAmps         *float64           `json:"main_amps" jsonschema:"nullable"`
	BusAmps          *float64           `json:"bus_amps" jsonschema:"nullable"`
	ConnectedWatts   *float64           `json:"connected_watts" jsonschema:"nullable" jsonschema_description:"null where the watts of a load are not known"`
	ConnectedVA      float64            `json:"connected_va"`
	DemandVA         float64            `json:"demand_va" jsonschema_description:"continuous allowance included, noncoincident loads once"`
	LegAmps          map[string]float64 `json:"leg_amps" jsonschema_description:"operating current in the worst state of the day"`
	NeutralAmps      *float64           `json:"neutral_amps" jsonschema:"nullable" jsonschema_description:"null where the current of a load is not known"`
	RequiredAmps     float64            `json:"required_amps" jsonschema_description:"worst leg with the continuous allowance"`
	ImbalancePercent *float64           `json:"imbalance_percent" jsonschema:"nullable" jsonschema_description:"(largest - smallest leg) / mean"`
	State            string             `json:"state"`
	LeastLoad        bool               `json:"load_at_least" jsonschema_description:"true where the current of a load is not known: its amperes and volt-amperes are least values"`
	OtherLoadAmps    *float64           `json:"other_load_amps,omitempty" jsonschema_description:"per leg, not listed in the file"`
	MeasuredPeakAmps *float64           `json:"measured_peak_amps,omitempty"`
	OtherSpaces      *int               `json:"other_spaces,omitempty" jsonschema_description:"taken by breakers that the file does not list; absent where it does not say"`
	Unlisted         bool               `json:"unlisted" jsonschema_description:"it carries load that the file does not list, whose breakers may stand in spaces that look free: the spaces of planned breakers are provisional"`
	Feeds            []string           `json:"feeds" jsonschema_description:"panels it feeds"`
	Feeder           *Feeder            `json:"feeder,omitempty" jsonschema_description:"absent at the service"`
}

// Feeder is the run that feeds a sub-panel, with its breaker in the feeding one.
type Feeder struct {
	From         string       `json:"from"`
	Existing     bool         `json:"existing"`
	Spaces       []int        `json:"spaces"`
	Legs         []string     `json:"legs"`
	Poles        int          `json:"poles"`
	Volts        float64      `json:"volts"`
	BreakerAmps  *float64     `json:"breaker_amps" jsonschema:"nullable"`
	LoadAmps     float64      `json:"load_amps"`
	RequiredAmps float64      `json:"required_amps"`
	Conductor    Conductor    `json:"conductor"`
	Ground       Ground       `json:"ground"`
	Transformer  *Transformer `json:"transformer,omitempty"`
}

// Transformer stands between a feeder and the panel it feeds.
type Transformer struct {
	VA             float64 `json:"va"`
	Given          bool    `json:"given" jsonschema_description:"false where its rating was chosen here"`
	Phases         int     `json:"phases"`
	PrimaryVolts   float64 `json:"primary_volts"`
	SecondaryVolts float64 `json:"secondary_volts"`
	Secondary      string  `json:"secondary" jsonschema_description:"what is not worked out on the side of the panel that is fed: breaker, conductors, ground and raceway of the feeder are the primary's"`
}

// Optimality says how good the plan is, and whether that is proved.
type Optimality struct {
	Spaces    Bounded          `json:"spaces"`
	Circuits  Bounded          `json:"circuits"`
	Imbalance BoundedImbalance `json:"imbalance"`
}

// Bounded is a count with the bound below which no plan can come.
type Bounded struct {
	Used   int64  `json:"used"`
	Bound  int64  `json:"bound"`
	Proved bool   `json:"proved"`
	Why    string `json:"why"`
}

// BoundedImbalance is how far the fullest leg stands above an even share, over
// all panels, in the state of the day in which it is fullest.
type BoundedImbalance struct {
	BoundedVA
	LightsOn BoundedVA `json:"lights_on" jsonschema_description:"the same added up over the states of the day with lights on, as small as the worst state leaves it"`
}

// BoundedVA is a figure in volt-amperes with the bound below which it cannot come.
type BoundedVA struct {
	VA      int64  `json:"va"`
	BoundVA int64  `json:"bound_va"`
	Proved  bool   `json:"proved"`
	Why     string `json:"why"`
}

// VoltageChoice is what an item would take at each voltage on offer.
type VoltageChoice struct {
	Item        string          `json:"item"`
	ChosenVolts float64         `json:"chosen_volts"`
	Options     []VoltageOption `json:"options"`
}

// VoltageOption is one of them.
type VoltageOption struct {
	Volts    float64 `json:"volts"`
	Phases   int     `json:"phases"`
	Spaces   int     `json:"spaces"`
	Circuits int     `json:"circuits"`
	AmpsEach float64 `json:"amps_each"`
}

// Unfed is units that no circuit feeds.
type Unfed struct {
	Item   string `json:"item"`
	Count  int    `json:"count"`
	Reason string `json:"reason"`
	Needs  string `json:"needs"`
	Line   int    `json:"line,omitempty"`
}
