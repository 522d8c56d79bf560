package document

import (
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// AmpsSchema names the contract of Amps.
const AmpsSchema = "branchwork/amps/1"

// Amps is the answer of amps: one load, without a site.
type Amps struct {
	Schema      string       `json:"schema" jsonschema:"enum=branchwork/amps/1"`
	Given       string       `json:"given" jsonschema_description:"as written on the command line"`
	Code        string       `json:"code"`
	CodeTitle   string       `json:"code_title"`
	Watts       *float64     `json:"watts" jsonschema:"nullable"`
	VA          *float64     `json:"va" jsonschema:"nullable" jsonschema_description:"null for a motor, whose current is a table's"`
	HP          *float64     `json:"hp,omitempty"`
	PowerFactor float64      `json:"power_factor"`
	HeatBTUH    *float64     `json:"heat_btuh" jsonschema:"nullable"`
	Continuous  float64      `json:"continuous_factor" jsonschema_description:"allowance that the breaker counts are made with"`
	Rows        []AmpsAt     `json:"rows"`
	Assumptions []Assumption `json:"assumptions"`
	Caution     string       `json:"caution"`
}

// AmpsAt is the load at one voltage.
type AmpsAt struct {
	Volts  float64  `json:"volts"`
	Phases int      `json:"phases"`
	Amps   *float64 `json:"amps" jsonschema:"nullable" jsonschema_description:"null where the tables have none"`
	Fits   []Fit    `json:"fits"`
	Steps  []Worked `json:"steps"`
}

// Fit is how many whole units one breaker carries as continuous load.
type Fit struct {
	BreakerAmps  float64 `json:"breaker_amps"`
	Count        int     `json:"count"`
	RequiredAmps float64 `json:"required_amps" jsonschema_description:"of so many, with the allowance"`
}

// breakers are the ratings that units are counted for.
func breakers() []units.Current { return []units.Current{15, 20, 30} }

// NewAmps returns the document of one load, its rows still to come.
func NewAmps(given string, p *codes.Profile, l loads.Load, assumed []loads.Assumption) Amps {
	d := Amps{
		Schema: AmpsSchema, Given: given, Code: p.Name, CodeTitle: p.Title, Watts: known(l.Power), HP: known(l.Motor), PowerFactor: float64(l.PF),
		Continuous: p.Continuous.Factor(), Rows: []AmpsAt{}, Assumptions: assumptions(assumed), Caution: Caution,
	}
	if va, ok := l.Item.Apparent.Get(); ok {
		d.VA = number(va)
	} else if w, ok := l.Power.Get(); ok && d.HP == nil {
		d.VA = number(w.VA(l.PF))
	}
	if w, ok := l.Power.Get(); ok {
		d.HeatBTUH = number(w.Heat().BTUPerHour())
	}
	return d
}

// NewAmpsAt returns what the load draws from one supply, and how many units each
// breaker carries with all of them on for hours.
func NewAmpsAt(u inventory.Supply, draw loads.Draw, ok bool, c codes.Continuous) AmpsAt {
	d := AmpsAt{Volts: float64(u.Volts), Phases: u.Phases, Fits: []Fit{}, Steps: []Worked{}}
	if ok {
		d.Amps = number(draw.Amps)
		d.Steps = Working(draw.Steps)
	}
	for _, b := range breakers() {
		f := Fit{BreakerAmps: float64(b)}
		if ok {
			f.Count = fit(draw.Amps, b, c)
			f.RequiredAmps = float64(c.Required(units.Times(draw.Amps, float64(f.Count)), 0, false))
		}
		d.Fits = append(d.Fits, f)
	}
	return d
}

// fit counts whole units: the largest n with Load·n·I <= Rating·breaker, the
// allowance in the whole numbers that the profile keeps it in.
func fit(each, breaker units.Current, c codes.Continuous) int {
	room := units.Times(breaker, float64(c.Rating))
	one := units.Times(each, float64(c.Load))
	n := int(units.Per(room, one))
	if !units.Exceeds(units.Times(one, float64(n+1)), room) {
		n++
	}
	return n
}
