package codes

// The facts that rules ask for. Amperes are per pole, at the circuit's voltage,
// in the worst state of the day unless a name says otherwise. The comment gives
// the type that Of returns.
const (
	// of every subject
	Profiled Fact = "code profile"                   // *Profile
	Dwelling Fact = "whether the site is a dwelling" // bool

	// of a circuit
	BreakerAmps    Fact = "breaker rating"                                                 // units.Current
	FullRated      Fact = "listing for 100 % continuous operation"                         // bool
	ContinuousAmps Fact = "continuous current"                                             // units.Current
	OtherAmps      Fact = "non-continuous current"                                         // units.Current
	MarkedAmps     Fact = "current asked for by nameplates"                                // units.Current
	LoadAmps       Fact = "load current"                                                   // units.Current
	StateName      Fact = "worst state of the day"                                         // string
	LoadList       Fact = "loads"                                                          // []Piece
	Volts          Fact = "voltage"                                                        // units.Voltage
	PhaseCount     Fact = "number of phases"                                               // int
	ToNeutral      Fact = "whether it is supplied line to neutral"                         // bool
	OnHighLeg      Fact = "whether it stands on the high leg"                              // bool
	Individual     Fact = "whether it feeds one outlet only"                               // bool
	FeedsLighting  Fact = "whether it feeds luminaires"                                    // bool
	FeedsCorded    Fact = "whether it feeds cord-and-plug loads"                           // bool
	FeedsFastened  Fact = "whether it feeds equipment wired in place"                      // bool
	FeedsLife      Fact = "whether it feeds fans or controls"                              // bool
	ByEquipment    Fact = "whether a nameplate or a motor sets its device"                 // bool
	DeviceFor      Fact = "equipment that its device is chosen for"                        // string: a motor or marked equipment wired in place; empty: none
	BehindBox      Fact = "whether a controller with branches of its own stands before it" // bool
	Existing       Fact = "whether it is in the wall already"                              // bool
	FastenedAmps   Fact = "current of equipment fastened in place"                         // units.Current
	HeaterList     Fact = "its fixed space heating"                                        // []Piece
	HeaterAmps     Fact = "current of fixed space heating"                                 // units.Current
	MeasuredAmps   Fact = "measured current"                                               // units.Current
	PredictedAmps  Fact = "current that its loads explain in the state it was measured in" // units.Current
	CircuitName    Fact = "name of the circuit"                                            // string

	WireSize       Fact = "conductor size"                         // string
	WireMaterial   Fact = "conductor material"                     // string
	WireInsulation Fact = "conductor insulation"                   // string
	WireAmps       Fact = "conductor ampacity"                     // units.Current: corrected, capped at the terminations
	WireTableAmps  Fact = "conductor ampacity at the terminations" // units.Current
	WireCorrected  Fact = "corrected ampacity"                     // units.Current
	AmbientTemp    Fact = "temperature around the conductors"      // units.Temperature
	GroundSize     Fact = "grounding conductor size"               // string
	GroundNeeded   Fact = "grounding conductor size asked for"     // string, empty: by the table alone
	GroundMaterial Fact = "grounding conductor material"           // string
	DropShare      Fact = "voltage drop"                           // units.Ratio
	DropLimit      Fact = "voltage drop allowed"                   // units.Ratio
	FeederDrop     Fact = "voltage drop of the feeders before it"  // units.Ratio
	FedThrough     Fact = "whether a feeder stands before it"      // bool

	NeutralCounted Fact = "whether its neutral counts as a conductor that carries current"    // bool
	NeutralWhy     Fact = "why its neutral counts or does not"                                // string
	WireRests      Fact = "ampacity rows that were not seen in a source"                      // []steps.Cite
	WireUncounted  Fact = "corrected ampacity were the neutral not counted"                   // units.Current
	NeutralWith    Fact = "circuits that share one neutral"                                   // []string, by space, itself among them; of one of them only
	OnePanel       Fact = "whether they leave one panel"                                      // bool
	LegsDiffer     Fact = "whether each stands on a leg of its own"                           // bool
	Neighbours     Fact = "whether their spaces lie next to each other"                       // bool
	OneHandle      Fact = "whether one handle opens them together"                            // bool
	SharedSpaces   Fact = "their panels, spaces and legs"                                     // string
	RacewayGiven   Fact = "whether the file names its raceway"                                // bool
	WireEnough     Fact = "smallest conductor behind its breaker that keeps the voltage drop" // string, empty: none is worked out
	RacewayName    Fact = "its raceway"                                                       // string: "1/2 in EMT"
	RacewayShare   Fact = "filled share of its raceway"                                       // units.Ratio
	RacewayLimit   Fact = "share of its raceway that may be filled"                           // units.Ratio
	RacewayEnough  Fact = "smallest raceway that holds its conductors"                        // string, empty: none in the table
	RacewayRests   Fact = "tables that the fill rests on"                                     // []steps.Cite

	ReceptacleKind Fact = "receptacle configuration"                              // Receptacle
	GroundFault    Fact = "ground-fault protection"                               // bool
	WetPlace       Fact = "whether it stands in a damp or wet place"              // string: "damp" or "wet" where the file says so
	Places         Fact = "the location, dry, damp or wet, of what is plugged in" // bool: nothing hangs on one that is not stated
	Protected      Fact = "protection that the code calls for"                    // Protection
	Guarded        Fact = "whether it has a ground-fault device or needs one"     // bool
	LeakageAmps    Fact = "sum of driver leakage currents"                        // units.Current
	TripAmps       Fact = "trip threshold"                                        // units.Current
	InrushShare    Fact = "maker's limit of units per breaker"                    // units.Ratio used of it
	InrushDetail   Fact = "units against the maker's limit"                       // string

	// of one load on a circuit
	UnitAmps     Fact = "current of one unit"                       // units.Current
	UnitVA       Fact = "apparent power of one unit"                // units.Apparent
	UnitCount    Fact = "number of units"                           // int
	Corded       Fact = "whether it is cord-and-plug connected"     // bool
	IsLuminaire  Fact = "whether it is a luminaire"                 // bool
	MinCircuit   Fact = "nameplate minimum circuit ampacity"        // units.Current
	MaxDevice    Fact = "nameplate maximum overcurrent device"      // units.Current
	MakerBreaker Fact = "maker's maximum breaker"                   // units.Current
	MotorFLC     Fact = "motor full-load current"                   // units.Current
	Accepted     Fact = "voltages it accepts"                       // string
	Accepts      Fact = "whether it accepts its supply"             // bool
	PlugKind     Fact = "receptacle its plug needs"                 // Receptacle
	AskedAlone   Fact = "whether it must have a circuit of its own" // bool
	UsuallyAlone Fact = "whether it is given a circuit of its own"  // bool
	AloneWhy     Fact = "why it takes a circuit of its own"         // string
	HigherVolts  Fact = "higher voltage that it may be supplied at" // units.Voltage, 0: none
	IsContinuous Fact = "whether it is a continuous load"           // bool
	Linked       Fact = "whether units are fed through one another" // bool
	LinkRating   Fact = "rating of the inlet or jumper of a chain"  // units.Current
	LinkMost     Fact = "most units in a chain by the maker"        // int
	LinkUnits    Fact = "units in the longest chain"                // int

	// of a controller
	OutletsUsed   Fact = "units it switches"                                           // int
	Outlets       Fact = "its number of outlets"                                       // int
	OutletRating  Fact = "rating of its outlets"                                       // units.Current
	FeedRating    Fact = "rating of its supply"                                        // units.Current
	FeedDemand    Fact = "current it switches, with the allowance for continuous load" // units.Current
	LargestUnit   Fact = "largest unit current"                                        // units.Current
	LargestItem   Fact = "largest unit"                                                // string
	ContactRating Fact = "rating of its contacts"                                      // units.Current
	ContactAmps   Fact = "most current through one pole of its contacts"               // units.Current, in the worst state of the day
	ContactDetail Fact = "what that current is"                                        // string
	InnerDevices  Fact = "overcurrent protection inside the controller"                // never told by the file

	// of a panel
	SpacesUsed   Fact = "panel spaces needed"                                       // int
	Spaces       Fact = "panel spaces"                                              // int
	MainAmps     Fact = "main rating"                                               // units.Current
	FeederIsMain Fact = "whether the feeder breaker alone protects it"              // bool
	MainIs       Fact = "what the main is"                                          // string
	AheadAmps    Fact = "rating of the device that protects the bus"                // units.Current: the least of main and feeder breaker
	BusAmps      Fact = "bus rating"                                                // units.Current
	RequiredAmps Fact = "required rating"                                           // units.Current
	LegImbalance Fact = "imbalance of the legs"                                     // units.Ratio
	LegSpread    Fact = "difference between the legs"                               // units.Current
	LegDetail    Fact = "current of each leg"                                       // string
	MostEven     Fact = "whether its layout is proved to be the most even there is" // bool
	Outgoing     Fact = "circuits and feeders that leave it"                        // int
	PeakAmps     Fact = "measured peak demand"                                      // units.Current
	PeakMonths   Fact = "months of measurement"                                     // int
	NewAmps      Fact = "current of new load"                                       // units.Current
	Alternating  Fact = "rooms whose lights alternate"                              // []string
	HasCircuits  Fact = "whether it feeds anything"                                 // bool

	// of a feeder, beside what a circuit has
	TransformerVA  Fact = "transformer rating"                         // units.Apparent
	RatedPrimary   Fact = "rated primary current of the transformer"   // units.Current
	RatedSecondary Fact = "rated secondary current of the transformer" // units.Current
	ThroughVA      Fact = "load on the transformer"                    // units.Apparent

	// of an item
	Unplaced       Fact = "units without a circuit"     // int
	UnplacedReason Fact = "why they have none"          // string
	UnplacedNeeds  Fact = "what would make it possible" // string

	// of the site
	Terminals Fact = "temperature rating of the terminations" // units.Temperature
)

// How facts are found out on which several others rest.
const (
	readWire        = "put nothing more on it; a licensed electrician reads size, material and insulation of the conductor, which the breaker does not tell; then add `conductor`"
	readGroundFault = "look for the letters GFCI or GFI on the receptacle or breaker: a test button alone is no proof, arc-fault breakers have one and do not protect people; then add `gfci` to the circuit"
)

// settledBy tells how a missing fact is found out. Opening equipment is a
// qualified person's work.
var settledBy = map[Fact]string{
	BreakerAmps:    "read the rating on the breaker's handle and add `breaker`",
	WireSize:       "read the print on the cable jacket where it is visible; otherwise a licensed electrician opens the panel cover",
	WireMaterial:   "a licensed electrician establishes the conductor material at the panel; aluminum or unknown branch wiring means stop",
	WireInsulation: "read the print on the cable jacket; otherwise a licensed electrician establishes it",
	WireAmps:       readWire,
	WireTableAmps:  readWire,
	WireCorrected:  readWire,
	GroundSize:     "a licensed electrician reads the size of the grounding conductor at the panel; add `ground`",
	DropShare:      "measure the run from panel to first outlet and add `run` to the room or `length` to the circuit",
	FeederDrop:     "measure the feeder and add `length` to it",
	ReceptacleKind: "look at its face: two upright slots and a round hole are NEMA 5-15R, the ordinary household outlet, one slot like a T is NEMA 5-20R, others have theirs moulded in; then add `receptacle`",
	GroundFault:    readGroundFault,
	Places:         "add `location` to each, which is dry, damp or wet; the inspector tells how a place is classified",
	LeakageAmps:    "ask the maker for the protective-conductor current per driver and add `leakage`",
	InrushShare:    "ask the maker how many one breaker may switch and add `max_per_breaker`; until then switch on in steps",
	Guarded:        readGroundFault,
	MakerBreaker:   "read the largest overcurrent device on the luminaire's label or in its instructions and add `max_breaker`",
	MainAmps:       "read the rating on the main breaker's handle and add `main`",
	AheadAmps:      "read the rating on the main breaker's handle and add `main`",
	BusAmps:        "read the panelboard's label and add `bus`",
	Spaces:         "count the panel's spaces and add `spaces`",
	Outlets:        "count the controller's outlets and add `outlets`",
	OutletRating:   "read the rating of the controller's outlets and add `outlet_rating`",
	FeedRating:     "read the controller's label and add `feed`",
	PeakMonths:     "ask the utility for the demand of the last twelve months",
	WireUncounted:  readWire,
	OneHandle:      "look whether one handle, or ties made for these breakers, opens them together, and add `handle_tie`",
	RacewayShare:   "have a licensed electrician establish what runs in the raceway, and add `conductor` and `ground`",
	LinkUnits:      "count the fixtures of the longest chain and add `units` to `link`",
	LinkMost:       "read in the maker's instructions how many may be linked and add `most` to `link`",
	ContactRating:  "read the rating of the contactor for electronic ballasts or drivers on its label and add `contactor`",
}
