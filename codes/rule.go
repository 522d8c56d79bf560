package codes

import "branchwork/loads/steps"

// Severity ranks a finding. The zero value is invalid on purpose: a forgotten
// severity shows.
type Severity int

const (
	Violation Severity = iota + 1 // a rule of the code profile
	Warning                       // likely trouble, or a rule that needs judgement on site
	Advice                        // good practice
)

// String returns the severity as it is printed.
func (s Severity) String() string {
	switch s {
	case Violation:
		return "violation"
	case Warning:
		return "warning"
	case Advice:
		return "advice"
	}
	return "invalid"
}

// Subject is what a rule judges.
type Subject string

const (
	OfLoad    Subject = "load"    // one item on one circuit
	OfCircuit Subject = "circuit" // a branch circuit
	OfPanel   Subject = "panel"   // a panelboard with its main and bus
	OfFeeder  Subject = "feeder"  // the run to a panel
	OfControl Subject = "controller"
	OfItem    Subject = "item" // an entry of fixtures, fans, controllers or equipment
	OfSite    Subject = "site"
)

// Remedy is a kind of cure. A larger breaker is not one of them.
type Remedy string

const (
	MoveLoads       Remedy = "move loads to another circuit"
	AddCircuit      Remedy = "add a circuit"
	HigherVoltage   Remedy = "use a higher voltage"
	LargerConductor Remedy = "use a larger conductor"
	SmallerBreaker  Remedy = "use a smaller breaker, no larger than the rule allows"
	ShorterRun      Remedy = "shorten the run"
	LargerPanel     Remedy = "a larger panel or service, by a licensed electrician and the utility"
	AddPanel        Remedy = "add a sub-panel"
	OtherReceptacle Remedy = "fit the receptacle that the circuit calls for"
	HardWire        Remedy = "wire the equipment permanently, by a licensed electrician"
	AddProtection   Remedy = "fit the protective device named"
	AskOnSite       Remedy = "have a licensed electrician establish the fact on site"
	AskMaker        Remedy = "ask the maker for the figure"
	SwitchInSteps   Remedy = "switch on in steps"
	AnotherControl  Remedy = "add a controller"
	Interlock       Remedy = "interlock the loads"
	ReduceLoad      Remedy = "run fewer units"
	OtherSupply     Remedy = "supply it at a voltage that it accepts"
	OtherEquipment  Remedy = "use equipment that the supply suits"
	LargerGround    Remedy = "use a larger grounding conductor"
	OtherInsulation Remedy = "use a conductor with another insulation"
	OtherSpace      Remedy = "move the breaker to other spaces"
	Balance         Remedy = "move circuits to the lighter legs"
	CompleteFile    Remedy = "find what is missing and add it to the file"
	RenameCircuit   Remedy = "write the purpose into the directory"
	StopWork        Remedy = "stop, and have a licensed electrician look at the wiring"
)

// Rule is one demand that a code, or good practice, makes of a plan.
type Rule struct {
	ID       string                  // ours, kebab-case, never reused
	Title    string                  // what must hold, one line, present tense
	Why      string                  // the harm it prevents
	Clauses  map[string][]steps.Cite // by edition; an absent edition: the rule does not exist there
	Severity Severity
	Untold   Severity // of a finding that cannot tell; zero: as Severity
	Subject  Subject
	Key      string // entry of the subject's table that a finding points to, where the file has it
	Needs    []Fact // unknown among these: the verdict is CannotTell
	Remedies []Remedy
	Bounds   bool   // its actual value grows with what hangs on the circuit, so it may be the circuit's binding limit
	Retired  string // reason; a retired rule keeps its ID
	Check    func(*Facts) Verdict
}

// In returns the rule's cites in an edition. A rule of good practice has its
// cites under the empty edition, which holds for all.
func (r Rule) In(edition string) ([]steps.Cite, bool) {
	if c, ok := r.Clauses[edition]; ok {
		return c, true
	}
	c, ok := r.Clauses[""]
	return c, ok
}

// WhenUntold returns how grave it is that the rule cannot tell.
func (r Rule) WhenUntold() Severity {
	if r.Untold != 0 {
		return r.Untold
	}
	return r.Severity
}

// Clauses returns the same clause for several editions of one standard.
func Clauses(ref, at string, how steps.How, editions ...string) map[string][]steps.Cite {
	m := map[string][]steps.Cite{}
	for _, e := range editions {
		m[e] = []steps.Cite{{Ref: ref, Edition: e, At: at, How: how}}
	}
	return m
}

// PracticeClause is the clause of a rule that has none.
func PracticeClause() map[string][]steps.Cite {
	return map[string][]steps.Cite{"": {steps.CommonPractice}}
}

// Judge asks the rule about a subject. A fact that the rule needs and that is
// unknown settles the answer at CannotTell before the rule is asked, unless the
// rule says first that it does not concern the subject. One that is known at the
// least lets no rule hold.
func (r Rule) Judge(f *Facts) Verdict {
	v := r.Check(f)
	if v.State == NotAsked {
		return v
	}
	var missing []Fact
	for _, n := range r.Needs {
		if !f.Has(n) || v.State == Holds && !f.whole(n) {
			missing = append(missing, n)
		}
	}
	if len(missing) == 0 || v.State == CannotTell {
		return v
	}
	return Unsettled("", "", missing...)
}
