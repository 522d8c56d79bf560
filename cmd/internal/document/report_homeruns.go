package document

import (
	"branchwork/circuits"
	"branchwork/loads/units"
)

// HomeRun is the conductors from a panel to the first outlet of a circuit and
// on to its last, or those of a feeder.
type HomeRun struct {
	Panel      string    `json:"panel" jsonschema_description:"where it starts"`
	Circuit    string    `json:"circuit,omitempty"`
	Feeds      string    `json:"feeds,omitempty" jsonschema_description:"the panel that a feeder feeds"`
	Rooms      []string  `json:"rooms"`
	Existing   bool      `json:"existing"`
	Wires      []RunWire `json:"wires"`
	Sets       int       `json:"sets" jsonschema_description:"of these wires, each in a raceway of its own"`
	Raceway    *Raceway  `json:"raceway" jsonschema:"nullable"`
	FirstFeet  *float64  `json:"first_ft" jsonschema:"nullable" jsonschema_description:"one way, to the first outlet or to the panel"`
	LastFeet   *float64  `json:"last_ft" jsonschema:"nullable" jsonschema_description:"one way, to the last outlet or to the panel"`
	OnCircuits int       `json:"per_raceway" jsonschema_description:"circuits that share the raceway"`
}

// RunWire is wires of one kind in a run.
type RunWire struct {
	Use        string  `json:"use" jsonschema:"enum=ungrounded,enum=neutral,enum=ground"`
	Count      int     `json:"count"`
	Size       *string `json:"size" jsonschema:"nullable"`
	Material   *string `json:"material" jsonschema:"nullable"`
	Insulation *string `json:"insulation" jsonschema:"nullable"`
}

// Raceway is what a run is drawn into.
type Raceway struct {
	Kind           string  `json:"kind"`
	Trade          string  `json:"trade" jsonschema_description:"trade size; empty where it was not worked out"`
	Conductors     int     `json:"conductors" jsonschema_description:"in it, grounding conductors among them"`
	FillPercent    float64 `json:"fill_percent"`
	AllowedPercent float64 `json:"allowed_percent"`
	Why            string  `json:"why,omitempty" jsonschema_description:"why its trade size was not worked out"`
}

func homeRuns(o ReportOf) []HomeRun {
	r := o.Results
	out := []HomeRun{}
	per := max(1, r.Inventory.Site.Conductors.PerRaceway.Or(1))
	for _, c := range r.Plan.Circuits {
		h := HomeRun{Panel: c.Panel, Circuit: c.Name, Rooms: list(c.Rooms), Existing: c.Existing, Sets: max(1, c.Conductor.Sets), OnCircuits: per,
			Wires: wires(c.Conductor, c.Ground, c.Supply.Poles, c.Supply.Neutral), FirstFeet: known(c.Length), LastFeet: known(c.LastOutlet)}
		h.Raceway = raceway(o, "circuits."+c.Name)
		out = append(out, h)
	}
	for _, p := range r.Plan.Panels {
		f := p.Feeder
		if f == nil {
			continue
		}
		h := HomeRun{Panel: f.From, Feeds: p.Name, Rooms: []string{}, Existing: f.Existing, Sets: max(1, f.Conductor.Sets), OnCircuits: 1,
			Wires: wires(f.Conductor, f.Ground, f.Poles, FeederNeutral(*f)), FirstFeet: known(f.Length), LastFeet: known(f.Length)}
		h.Raceway = raceway(o, "panels."+p.Name+".feeder")
		out = append(out, h)
	}
	return out
}

// FeederNeutral reports whether a neutral runs along a feeder: one before a
// transformer needs none.
func FeederNeutral(f circuits.Feeder) bool { return f.Transformer == nil }

func raceway(o ReportOf, path string) *Raceway {
	r, ok := o.Raceways[path]
	if !ok {
		return nil
	}
	return &r
}

func wires(w, ground circuits.Wire, live int, neutral bool) []RunWire {
	out := []RunWire{{"ungrounded", live, word(w.Size), word(w.Material), word(w.Insulation)}}
	if neutral {
		out = append(out, RunWire{"neutral", 1, word(w.Size), word(w.Material), word(w.Insulation)})
	}
	return append(out, RunWire{"ground", 1, word(ground.Size), word(ground.Material), word(w.Insulation)})
}

// whole returns the longer of the two lengths of a run that are known.
func (h HomeRun) whole() units.Known[units.Length] {
	switch {
	case h.LastFeet != nil:
		return units.Is(units.Length(*h.LastFeet))
	case h.FirstFeet != nil:
		return units.Is(units.Length(*h.FirstFeet))
	}
	return units.Unknown[units.Length]("its length is not known")
}
