package codes

import (
	"math"
	"strings"

	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Profile is one edition of one electrical code: data first, and the few
// questions whose answer is a rule of the book rather than a number in a table.
// Deciding packages take a *Profile as an argument and never look one up.
type Profile struct {
	Name    string // "nec-2023"
	Title   string // "NEC 2023"
	Ref     string // key in references.toml
	Edition string // "2023"

	Legs         []string // names of a panel's legs in bus order
	Continuous   Continuous
	Devices      Devices
	Branch       Branch
	Wires        Wires
	Motors       Motors
	Marked       Marked
	Feeders      Feeders
	Heating      Heating
	Transformers Transformers
	Drop         Drop
	Service      Service
	Receptacles  []Receptacle

	// Protection tells which ground-fault protection an outlet calls for.
	Protection func(Outlet) Protection

	Rules      []Rule
	Tables     []Table
	NotCovered []string // what this profile does not check, in plain words
	Terms      []string // the code's own words: what rules and steps say, what the code says, and so on in pairs
}

// Say puts a text into the code's own words.
func (p *Profile) Say(text string) string {
	if p == nil || len(p.Terms) == 0 {
		return text
	}
	return strings.NewReplacer(p.Terms...).Replace(text)
}

// Continuous says when a load is continuous and what that asks of its circuit.
// The allowance is kept as whole numbers so that a limit can be tested without
// rounding: Load·Ic + Other·In <= Rating·device, amperes all three.
type Continuous struct {
	Run                 clock.Minute // on at its maximum for so long without a break
	Spans               []Span       // of a code that adds up time instead, smaller loads first; empty: Run decides
	Load, Other, Rating int64
	RunCite             steps.Cite
	DeviceCite          steps.Cite // the device
	WireCite            steps.Cite // the branch conductor
	FullRatedCite       steps.Cite
}

// Span is a time that slides over the day. A load up to a current is continuous
// unless it is shown that in no such time it is on for more than Most in all.
type Span struct {
	Most, Within clock.Minute
	UpTo         units.Current // zero: any
}

// Required returns the least rating of device and conductor for a continuous
// and an other current, in amperes: (Load·Ic + Other·In) / Rating, or their
// plain sum where the assembly is listed for continuous operation at 100 %.
func (c Continuous) Required(continuous, other units.Current, fullRated bool) units.Current {
	if fullRated {
		return continuous + other
	}
	return units.Times(continuous, float64(c.Load)/float64(c.Rating)) + units.Times(other, float64(c.Other)/float64(c.Rating))
}

// Factor returns the allowance for continuous load: 1.25.
func (c Continuous) Factor() float64 { return float64(c.Load) / float64(c.Rating) }

// Devices is the standard ratings of overcurrent devices and how far a device
// may exceed its conductor.
type Devices struct {
	Ratings     []units.Current // ascending
	RoundUpTo   units.Current   // next standard size up allowed up to here
	RatingsCite steps.Cite
	ProtectCite steps.Cite // the conductor protected at its ampacity
	RoundUpCite steps.Cite // the conductor protected at the next size up
	AboveCite   steps.Cite // no rounding above RoundUpTo
}

// Next returns the smallest standard rating not below i.
func (d Devices) Next(i units.Current) (units.Current, bool) {
	for _, r := range d.Ratings {
		if !units.Exceeds(i, r) {
			return r, true
		}
	}
	return 0, false
}

// Down returns the largest standard rating not above i.
func (d Devices) Down(i units.Current) (units.Current, bool) {
	for k := len(d.Ratings) - 1; k >= 0; k-- {
		if !units.Exceeds(d.Ratings[k], i) {
			return d.Ratings[k], true
		}
	}
	return 0, false
}

// Standard reports whether i is a standard rating.
func (d Devices) Standard(i units.Current) bool {
	for _, r := range d.Ratings {
		if r == i {
			return true
		}
	}
	return false
}

// Branch is what branch circuits of more than one outlet may be and feed.
type Branch struct {
	Ratings          []units.Current // of circuits with more than one outlet
	LightingUpTo     units.Current   // luminaires beyond it only where their maker allows
	Least            units.Current   // the smallest rating planned for any load
	Default          units.Current   // what a new circuit is planned at where nothing else decides
	OnePlug          units.Ratio     // share of the rating that one cord-and-plug load may take
	OnePlugUpTo      units.Current   // up to this circuit rating
	Fastened         units.Ratio     // share for equipment fastened in place beside other loads
	OutletVA         units.Apparent  // a general outlet
	RatingsCite      steps.Cite
	LoadsCite        steps.Cite
	LightingCite     steps.Cite
	OutletCite       steps.Cite
	DwellingLighting units.Current  // largest device of luminaires wired in a dwelling; 0: as elsewhere
	DwellingVolts    units.Voltage  // highest voltage between conductors for luminaires in a dwelling
	DwellingVA       units.Apparent // and for cord-and-plug loads up to here
	DwellingCite     steps.Cite
}

// Motors is what motors ask of their circuits.
type Motors struct {
	One, Three  Table       // full-load current by rating: single-phase, three-phase
	Conductor   units.Ratio // of full-load current
	Breaker     units.Ratio // most of full-load current for an inverse-time breaker
	TableCite   steps.Cite  // the table governs over the nameplate
	WireCite    steps.Cite
	BreakerCite steps.Cite
	SeveralCite steps.Cite
	NotApplied  string // what of a motor's circuit this profile holds no rule for; empty: it holds them
}

// Marked is equipment whose nameplate gives its circuit.
type Marked struct {
	Cite       steps.Cite // of the marking
	WireCite   steps.Cite
	DeviceCite steps.Cite
}

// Feeders is where what a feeder carries stands.
type Feeders struct {
	WireCite   steps.Cite
	DeviceCite steps.Cite
}

// Allowance is what a motor's conductor and feeder carry of its full-load current;
// where the profile holds no rule for motors, another allowance is taken.
func (m Motors) Allowance(other float64) float64 {
	if !m.Held() {
		return other
	}
	return float64(m.Conductor)
}

// Held reports whether the profile holds a rule for a motor's conductor.
func (m Motors) Held() bool { return !math.IsInf(float64(m.Conductor), 1) }

// HoldsDevice reports whether the profile holds a rule for a motor's device.
func (m Motors) HoldsDevice() bool { return !math.IsInf(float64(m.Breaker), 1) }

// Heating is what fixed space heating asks.
type Heating struct {
	AlwaysContinuous bool // whatever its hours
	AlwaysSized      bool // its circuit has the allowance for it whenever it is on, for minutes too and whatever the file marks
	Cite             steps.Cite
}

// Transformers is the ratings that transformers are made in and what protects
// their primary side.
type Transformers struct {
	One, Three  Table       // ratings in kVA: single-phase, three-phase
	Primary     units.Ratio // primary device as a share of rated primary current; next standard rating up
	PrimaryCite steps.Cite
}

// Next returns the smallest rating made that is not below s.
func (t Transformers) Next(s units.Apparent, phases int) (units.Apparent, steps.Cite, bool) {
	table := t.One
	if phases == 3 {
		table = t.Three
	}
	for _, r := range table.Rows {
		if kva := units.Times(units.KVA, r.Values[0]); !units.Exceeds(s, kva) {
			return kva, table.Cite("", r.How), true
		}
	}
	return 0, steps.Cite{}, false
}

// Service is how an existing service is judged by a measured peak.
type Service struct {
	PeakFactor units.Ratio // put on the measured peak before new load is added
	Cite       steps.Cite
}

// Drop is how much voltage a run may lose.
type Drop struct {
	Branch, Total units.Ratio
	Mandatory     bool // a rule, or a note of good practice
	Cite          steps.Cite
}

// Receptacle is a configuration: what it is rated for and what it connects.
type Receptacle struct {
	Name    string // "NEMA 6-20R"
	Amps    units.Current
	Volts   units.Voltage // its voltage rating
	On      []units.Voltage
	Phases  int
	Poles   int // ungrounded conductors
	Neutral bool
	Locking bool
	OwnPlug bool // of 20 A and takes no plug of 15 A
	How     steps.How
}

// Outlet is what a protection rule asks of an outlet.
type Outlet struct {
	ToGround units.Voltage
	Volts    units.Voltage
	Phases   int
	Rating   units.Current
	Lighting bool // feeds horticultural lighting
	Corded   bool // through a plug or a separable connector
	Wet      bool // damp or wet place
	Dwelling bool
}

// Protection is the ground-fault protection an outlet calls for.
type Protection struct {
	Needed bool
	Class  string        // "Class A GFCI", "special-purpose GFCI"
	Trip   units.Current // the lowest leakage at which it may trip
	Why    string
	Open   string // why it cannot be told whether one is needed; empty where it can
	Cite   steps.Cite
}

// Continuous reports whether a load that runs so long without a break is
// continuous. A load whose hours are unknown counts as continuous.
func (p *Profile) IsContinuous(longest units.Known[clock.Minute], heater bool) (bool, string, steps.Cite) {
	if heater && p.Heating.AlwaysContinuous {
		return true, "fixed space heating is a continuous load whatever its hours", p.Heating.Cite
	}
	run, ok := longest.Get()
	if !ok {
		return true, "its hours are not known, so it counts as continuous", p.Continuous.RunCite
	}
	if s := p.Continuous.Spans; len(s) > 0 && run <= s[0].Most {
		return true, "its longest unbroken run is " + units.Round(run.Hours(), 2) + " h; a load counts as continuous unless all its hours show otherwise", p.Continuous.RunCite
	}
	if run >= p.Continuous.Run {
		return true, "its hours keep it on for " + units.Round(run.Hours(), 2) + " h without a break", p.Continuous.RunCite
	}
	return false, "its longest unbroken run is " + units.Round(run.Hours(), 2) + " h", p.Continuous.RunCite
}

// IsContinuousIn reports whether a load of so many amperes that is on in those
// hours is continuous. It answers as IsContinuous does where the code goes by the
// longest unbroken run.
func (p *Profile) IsContinuousIn(hours units.Known[clock.Windows], load units.Current, heater bool) (bool, string, steps.Cite) {
	w, ok := hours.Get()
	if !ok || len(p.Continuous.Spans) == 0 || heater && p.Heating.AlwaysContinuous {
		run := units.Unknown[clock.Minute](hours.Why())
		if ok {
			run = units.Is(w.LongestRun())
		}
		return p.IsContinuous(run, heater)
	}
	s, ok := p.Continuous.Span(load)
	if !ok {
		return true, "no time is given within which a load of " + load.String() + " could be shown not to be continuous", p.Continuous.RunCite
	}
	most := mostOn(w, s.Within)
	limit, on, within := units.Round(s.Most.Hours(), 2), units.Round(most.Hours(), 2), units.Round(s.Within.Hours(), 2)
	if most > s.Most {
		return true, "it is on for " + on + " h in a " + within + "-hour period, more than " + limit + " h", p.Continuous.RunCite
	}
	return false, "it is on for at most " + on + " h in any " + within + "-hour period, no more than " + limit + " h", p.Continuous.RunCite
}

// Span returns the one that holds for a load; ok is false where none does.
func (c Continuous) Span(load units.Current) (s Span, ok bool) {
	for _, s := range c.Spans {
		if s.UpTo == 0 || !units.Exceeds(load, s.UpTo) {
			return s, true
		}
	}
	return Span{}, false
}

// mostOn returns the most time on in any stretch of the day so long, across
// midnight.
func mostOn(w clock.Windows, within clock.Minute) clock.Minute {
	var on, most clock.Minute
	for m := clock.Minute(0); m < clock.Day+within; m++ {
		if w.Contains(m) {
			on++
		}
		if m >= within && w.Contains(m-within) {
			on--
		}
		most = max(most, on)
	}
	return most
}

// ReceptacleFor returns the straight-blade receptacle of a circuit rating on a
// supply, and whether there is one.
func (p *Profile) ReceptacleFor(rating units.Current, volts units.Voltage, phases int, neutral bool) (Receptacle, bool) {
	var locking *Receptacle
	for i, r := range p.Receptacles {
		if r.Amps != rating || r.Phases != phases || r.Neutral != neutral {
			continue
		}
		for _, v := range r.On {
			if v != volts {
				continue
			}
			if !r.Locking {
				return r, true
			}
			if locking == nil {
				locking = &p.Receptacles[i]
			}
		}
	}
	if locking != nil {
		return *locking, true
	}
	return Receptacle{}, false
}

// ReceptacleNamed returns a receptacle by its configuration name, with or
// without its "NEMA" and "R".
func (p *Profile) ReceptacleNamed(name string) (Receptacle, bool) {
	for _, r := range p.Receptacles {
		if bareReceptacle(r.Name) == bareReceptacle(name) {
			return r, true
		}
	}
	return Receptacle{}, false
}
