package conductor

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Request is what a circuit asks of its conductors. Currents are design
// currents per ungrounded conductor in the worst state of the day.
type Request struct {
	Continuous, Other units.Current
	FullRated         bool          // the assembly is listed for continuous load at 100 %
	Device            units.Current // the overcurrent device in front; zero: none decided
	RoundUp           bool          // the next standard rating above the ampacity is allowed: not on a branch circuit of several receptacles
	SmallLimits       bool          // the device must protect the conductor; false for nameplate and motor circuits, whose device another rule sets
	Feeder            bool          // its load is not split by hours: the allowances are in Least
	Least             units.Current // ampacity asked for where it is larger than the continuous sum: by a nameplate, a motor or a feeder rule; zero: none
	LeastCite         steps.Cite    // of it; empty: as Cite
	Cite              steps.Cite    // of the required rating and the load
	DeviceCite        steps.Cite    // of the device that a nameplate or a motor rule sets

	Material, Insulation, Raceway string // empty: the profile's default
	Ambient                       units.Temperature
	Terminals                     units.Known[units.Temperature] // marked on the equipment
	Carrying                      int                            // current-carrying conductors in one raceway

	Volts     units.Voltage // between the circuit's conductors; line to line on three phases
	Phases    int           // 1 or 3
	Neutral   bool          // a neutral runs along; it has the size of the other conductors
	Run       Run
	Also      []Run       // other pairs of the same conductors; the largest voltage drop counts
	DropLimit units.Ratio // zero: none
	Minimum   string      // smallest size to consider; empty: the smallest of the table
}

// Run is a run of conductors from the source past its loads.
type Run struct {
	Between string                    // conductors, where there are several pairs: "A and neutral"
	ToFirst units.Known[units.Length] // source to the first load, one way
	Spacing units.Known[units.Length] // between neighbouring loads; needed where there is more than one
	Loads   []Tap                     // in order along the run
}

// Tap is one load on a run, at its operating power.
type Tap struct {
	VA            units.Apparent
	PF            units.Ratio // lagging, in (0, 1]
	ConstantPower bool        // draws more current as the voltage falls (electronic supplies); otherwise its current at nominal voltage
}

// The tests that can choose a size.
const (
	AtTerminations = "required rating at the terminations"
	Corrected      = "corrected ampacity"
	Protection     = "protection of the conductor"
	ForDrop        = "voltage drop"
	Smallest       = "smallest size allowed"
)

// Test is one test of a conductor: what it demands and the smallest conductor
// that meets it.
type Test struct {
	Name  string
	Needs units.Current // of the conductor; for protection, the device
	Has   units.Current // what the chosen conductor offers
	Size  string        // smallest size that meets this test alone; empty: none does
	Sets  int
	Short bool // the chosen conductor does not meet it
}

// Choice is a conductor with every figure that led to it. Currents are of all
// parallel sets together.
type Choice struct {
	Size, Material, Insulation, Raceway string
	Sets                                int // conductors in parallel

	Required       units.Current     // with the allowance for continuous load, or by nameplate
	Load           units.Current     // without it
	Column         units.Temperature // termination column
	TableAmps      units.Current     // in that column
	InsulationAt   units.Temperature
	InsulationAmps units.Current // in the insulation's column
	Ambient        units.Ratio   // correction for ambient temperature
	Bundle         units.Ratio   // adjustment for current-carrying conductors
	CorrectedAmps  units.Current // after both
	UsableAmps     units.Current // the lesser of table and corrected
	SmallLimit     units.Current // most protection of a small conductor; zero: none
	ProtectedAt    units.Current // largest standard device that protects it
	ByEquipment    bool          // the device is set by a nameplate or motor rule, which ProtectedAt then includes

	Tests      []Test // the most demanding first
	Governs    string // the test that chose the size
	NeededSize string // smallest conductor by all tests but voltage drop and the smallest size allowed
	NeededSets int
	BeforeDrop string // size before it was enlarged for voltage drop

	DropVolts  units.Voltage
	Drop       units.Known[units.Ratio]
	DropOver   bool                     // above the limit: of the conductor given, or whatever the size
	DropBefore units.Known[units.Ratio] // of BeforeDrop, where the conductor was enlarged for it

	Ground        string // size of the equipment grounding conductor; empty without a device
	GroundGoverns string
	GroundNeeds   float64 // least area, in the profile's unit of area
	GroundArea    float64
}
