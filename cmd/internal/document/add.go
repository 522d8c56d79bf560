package document

// AddSchema names the contract of Add.
const AddSchema = "branchwork/add/1"

// Add is the answer of add: whether more units of a load go on the circuits as
// they are, and where.
type Add struct {
	Schema        string        `json:"schema" jsonschema:"enum=branchwork/add/1"`
	Site          string        `json:"site"`
	Code          string        `json:"code" jsonschema_description:"name of the code profile"`
	CodeTitle     string        `json:"code_title"`
	GroundCalled  string        `json:"ground_called" jsonschema_description:"in short, what the trade calls an equipment grounding conductor"`
	Use           string        `json:"use" jsonschema:"enum=commercial,enum=dwelling"`
	Item          string        `json:"item"`
	Count         int           `json:"count" jsonschema_description:"units to add to those in the file"`
	On            string        `json:"on,omitempty" jsonschema_description:"the only circuit that was asked"`
	Fits          bool          `json:"fits"`
	Proved        bool          `json:"proved" jsonschema_description:"no other arrangement on circuits that exist takes more"`
	Placed        []Placed      `json:"placed" jsonschema_description:"which circuit takes how many; of a no, as many as go on"`
	NewCircuits   []Circuit     `json:"new_circuits" jsonschema_description:"would carry the rest; work for an electrician"`
	Refused       []Refused     `json:"refused"`
	Move          *Move         `json:"move,omitempty" jsonschema_description:"a plug that changes circuits first makes room"`
	Needs         string        `json:"needs" jsonschema_description:"the least thing that would make it possible; empty for a yes"`
	Panel         *AddedPanel   `json:"panel" jsonschema:"nullable" jsonschema_description:"the panel of the circuits, the first of panels"`
	Panels        []AddedPanel  `json:"panels" jsonschema_description:"from the circuits' panel up to the service, with the units placed"`
	HeatAddedBTUH *float64      `json:"heat_added_btuh" jsonschema:"nullable" jsonschema_description:"of all units, in the hour in which they add most; null where they stand in no room"`
	Heat          *AddedHeat    `json:"heat,omitempty" jsonschema_description:"of the room, with all units; absent where they stand in none"`
	Findings      []Finding     `json:"findings" jsonschema_description:"warnings and advice that the units placed bring"`
	Assumptions   []Assumption  `json:"assumptions" jsonschema_description:"about the load itself"`
	Notes         []string      `json:"notes"`
	Verdict       AnswerVerdict `json:"verdict"`
	Caution       string        `json:"caution"`
}

// Placed is units that a circuit takes. The limit is the load at which the rule
// that binds would be reached, so that load over limit is the share used.
type Placed struct {
	Circuit            string   `json:"circuit"`
	Panel              string   `json:"panel"`
	Count              int      `json:"count"`
	LoadBeforeAmps     float64  `json:"load_before_amps"`
	LoadAmps           float64  `json:"load_amps" jsonschema_description:"with the units, in the worst state of the day"`
	LimitAmps          *float64 `json:"limit_amps" jsonschema:"nullable" jsonschema_description:"the load at which the rule that binds is reached"`
	BeforePercent      *float64 `json:"before_percent" jsonschema:"nullable" jsonschema_description:"of the same limit, before"`
	AfterPercent       *float64 `json:"after_percent" jsonschema:"nullable"`
	Binds              string   `json:"binds" jsonschema_description:"the rule of the code whose limit is fullest"`
	BreakerAmps        *float64 `json:"breaker_amps" jsonschema:"nullable"`
	RequiredBeforeAmps float64  `json:"required_before_amps"`
	RequiredAfterAmps  float64  `json:"required_after_amps" jsonschema_description:"with the allowance for continuous load"`
	State              string   `json:"state" jsonschema_description:"the state of the day that the amperes are of"`
}

// Refused is a circuit that takes no unit, or no more.
type Refused struct {
	Circuit   string   `json:"circuit" jsonschema_description:"empty where a panel or a feeder refuses"`
	Rule      string   `json:"rule" jsonschema_description:"empty where the circuit is no place for the load at all"`
	Reason    string   `json:"reason"`
	ShortAmps *float64 `json:"short_amps" jsonschema:"nullable" jsonschema_description:"of one unit more; null where it is not amperes that lack"`
}

// Move is a cord-connected load that would go to another circuit.
type Move struct {
	Item  string `json:"item"`
	Count int    `json:"count"`
	From  string `json:"from"`
	To    string `json:"to"`
}

// AddedPanel is what the units placed do to a panel.
type AddedPanel struct {
	Panel              string       `json:"panel"`
	Legs               []string     `json:"legs"`
	LegBeforeAmps      []float64    `json:"leg_before_amps"`
	LegAfterAmps       []float64    `json:"leg_after_amps" jsonschema_description:"operating current in the worst state of the day"`
	RequiredBeforeAmps float64      `json:"required_before_amps"`
	RequiredAfterAmps  float64      `json:"required_after_amps" jsonschema_description:"fullest leg with the allowance for continuous load"`
	MainAmps           *float64     `json:"main_amps" jsonschema:"nullable"`
	LeastLoad          bool         `json:"load_at_least" jsonschema_description:"true where the current of a load is not known: amperes here are least values"`
	Service            bool         `json:"service" jsonschema_description:"no panel of the file feeds it"`
	Feeder             *AddedFeeder `json:"feeder,omitempty" jsonschema_description:"absent at the service"`
}

// AddedFeeder is what they do to the feeder of a sub-panel.
type AddedFeeder struct {
	From               string   `json:"from"`
	RequiredBeforeAmps float64  `json:"required_before_amps"`
	RequiredAfterAmps  float64  `json:"required_after_amps"`
	BreakerAmps        *float64 `json:"breaker_amps" jsonschema:"nullable"`
}

// AddedHeat is what all units do to the heat of their room.
type AddedHeat struct {
	Room          string         `json:"room"`
	BeforeBTUH    float64        `json:"before_btuh" jsonschema_description:"at the room's peak"`
	AfterBTUH     float64        `json:"after_btuh" jsonschema_description:"at the peak with all units, which may be another hour"`
	AtLeast       bool           `json:"at_least" jsonschema_description:"a part is not known and the figures are least values"`
	Covered       string         `json:"covered" jsonschema:"enum=yes,enum=no,enum=cannot tell" jsonschema_description:"whether the stated cooling still covers the room"`
	CoveredBefore string         `json:"covered_before" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	Cooling       []AddedCooling `json:"cooling"`
}

// AddedCooling compares one capacity of the stated cooling with the room.
type AddedCooling struct {
	What          string   `json:"what"`
	NeededBTUH    float64  `json:"needed_btuh"`
	InstalledBTUH *float64 `json:"installed_btuh" jsonschema:"nullable"`
	Covers        string   `json:"covers" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	Why           string   `json:"why,omitempty" jsonschema_description:"why it is not known"`
}

// AnswerVerdict is the answer in one line.
type AnswerVerdict struct {
	ExitStatus int    `json:"exit_status" jsonschema:"enum=0,enum=1"`
	Says       string `json:"says"`
}
