package document

import "branchwork/circuits"

// Scarce is something that a panel has so much of, and how much is used.
type Scarce struct {
	Panel       string  `json:"panel"`
	What        string  `json:"what" jsonschema:"enum=circuit,enum=spaces,enum=main,enum=bus,enum=leg balance,enum=leakage"`
	Circuit     string  `json:"circuit,omitempty" jsonschema_description:"of what a circuit is over its limit"`
	Used        float64 `json:"used"`
	Have        float64 `json:"have"`
	Unit        string  `json:"unit"`
	UsedPercent float64 `json:"used_percent"`
	AtLeast     bool    `json:"at_least" jsonschema_description:"true where the current of a load is not known: used is a least value"`
	Buys        string  `json:"buys,omitempty" jsonschema_description:"what more of it would carry"`
}

// Proof is a bound of the panel spaces of loads that may share circuits. Each
// choice of voltages has a bound of its own; the least of them holds for all.
type Proof struct {
	Panel      string        `json:"panel"`
	Room       string        `json:"room,omitempty"`
	Group      string        `json:"group"`
	Controller string        `json:"controller,omitempty"`
	Used       int64         `json:"used_spaces"`
	Bound      int64         `json:"bound_spaces"`
	Choices    []ProofChoice `json:"choices"`
}

// ProofChoice bounds the spaces for one choice of voltages. Loads of two parts
// share no circuit, so the bounds of the parts add up.
type ProofChoice struct {
	Volts []float64   `json:"volts" jsonschema_description:"by item of all parts, in their order"`
	Bound int64       `json:"bound_spaces"`
	Parts []ProofPart `json:"parts"`
}

// ProofPart weighs each unit with a whole number. No circuit holds more weight
// than z for each space it takes, so the spaces are at least (total - spared) / z,
// rounded up.
type ProofPart struct {
	Items    []ProofItem    `json:"items"`
	Circuits []ProofCircuit `json:"circuits" jsonschema_description:"each kind of circuit that may be opened"`
	Total    int64          `json:"total_weight"`
	Spared   int64          `json:"spared_weight" jsonschema_description:"what existing circuits hold beyond their share, and units left out"`
	Z        int64          `json:"z"`
	Bound    int64          `json:"bound_spaces"`
}

// ProofItem is one kind of unit.
type ProofItem struct {
	Item   string  `json:"item"`
	Count  int     `json:"count"`
	Volts  float64 `json:"volts"`
	Size   int64   `json:"size" jsonschema_description:"what one takes of a circuit's room"`
	Weight int64   `json:"weight"`
}

// ProofCircuit is a kind of circuit.
type ProofCircuit struct {
	Volts       float64      `json:"volts"`
	BreakerAmps float64      `json:"breaker_amps"`
	Spaces      int          `json:"spaces"`
	Room        int64        `json:"room"`
	Most        []ProofLimit `json:"most" jsonschema_description:"limits for another reason than room"`
	Holds       int64        `json:"holds_weight" jsonschema_description:"the most weight it can hold: z for each space, or less"`
}

// ProofLimit is the most units of an item that one circuit may hold.
type ProofLimit struct {
	Item  string `json:"item"`
	Units int    `json:"units"`
}

// Comparison is what the units of an item would take at each voltage.
type Comparison struct {
	Item    string           `json:"item"`
	Options []ComparedOption `json:"options"`
}

// ComparedOption is one of them, its circuits worked out by themselves.
type ComparedOption struct {
	Volts        float64        `json:"volts"`
	Phases       int            `json:"phases"`
	AmpsEach     float64        `json:"amps_each"`
	Circuits     int            `json:"circuits"`
	Spaces       int            `json:"spaces"`
	Proved       bool           `json:"proved" jsonschema_description:"no arrangement takes fewer spaces"`
	Conductors   map[string]int `json:"conductors" jsonschema_description:"circuits by conductor size"`
	CopperPounds *float64       `json:"copper_lb" jsonschema:"nullable" jsonschema_description:"in conductors and grounds, to the last outlet"`
	System       string         `json:"system" jsonschema_description:"a panel system that supplies it"`
	Own          bool           `json:"own" jsonschema_description:"a panel of its room does"`
}

func scarcest(p circuits.Plan) []Scarce {
	out := []Scarce{}
	for _, s := range circuits.Scarcest(p) {
		d := Scarce{Panel: s.Panel, What: s.What, Circuit: s.Name, Used: s.Used, Have: s.Have, Unit: s.Unit, UsedPercent: 100 * s.Share, AtLeast: s.Least, Buys: s.Buys}
		out = append(out, d)
	}
	return out
}

func proofs(list []circuits.Proof) []Proof {
	out := []Proof{}
	for _, p := range list {
		d := Proof{Panel: p.Panel, Room: p.Room, Group: p.Group, Controller: p.Controller, Used: p.Used, Bound: p.Bound, Choices: []ProofChoice{}}
		for _, c := range p.Choices {
			d.Choices = append(d.Choices, proofChoice(c))
		}
		out = append(out, d)
	}
	return out
}

func proofChoice(c circuits.ProofOfChoice) ProofChoice {
	d := ProofChoice{Volts: []float64{}, Bound: c.Bound, Parts: []ProofPart{}}
	for _, v := range c.Volts {
		d.Volts = append(d.Volts, float64(v))
	}
	for _, part := range c.Parts {
		d.Parts = append(d.Parts, proofPart(part))
	}
	return d
}

func proofPart(part circuits.ProofPart) ProofPart {
	d := ProofPart{Items: []ProofItem{}, Circuits: []ProofCircuit{}, Spared: part.Spared, Z: part.Z, Bound: part.Bound}
	for _, i := range part.Items {
		d.Items = append(d.Items, ProofItem{i.Item, i.Count, float64(i.Volts), i.Size, i.Weight})
		d.Total += int64(i.Count) * i.Weight
	}
	for _, b := range part.Bins {
		c := ProofCircuit{Volts: float64(b.Volts), BreakerAmps: float64(b.Rating), Spaces: b.Spaces, Room: b.Room, Most: []ProofLimit{}, Holds: part.Z * int64(b.Spaces)}
		for i, m := range b.Most {
			if m >= 0 {
				c.Most = append(c.Most, ProofLimit{part.Items[i].Item, m})
			}
		}
		if n := alone(part.Items, b); n >= 0 {
			c.Holds = n
		}
		d.Circuits = append(d.Circuits, c)
	}
	return d
}

// alone is the weight that a circuit of one kind of unit holds: whole units within
// its room and the other limit; -1 where several kinds may share it.
func alone(items []circuits.ProofItem, b circuits.ProofBin) int64 {
	if len(items) != 1 || items[0].Size <= 0 {
		return -1
	}
	n := min(b.Room/items[0].Size, int64(items[0].Count))
	if b.Most[0] >= 0 {
		n = min(n, int64(b.Most[0]))
	}
	return n * items[0].Weight
}

// comparison is the document of voltages side by side.
func comparison(list []circuits.VoltageChoice) []Comparison {
	out := []Comparison{}
	for _, v := range list {
		d := Comparison{Item: v.Item, Options: []ComparedOption{}}
		for _, o := range v.Options {
			sizes := o.Sizes
			if sizes == nil {
				sizes = map[string]int{}
			}
			d.Options = append(d.Options, ComparedOption{Volts: float64(o.Volts), Phases: o.Phases, AmpsEach: float64(o.Each), Circuits: o.Circuits, Spaces: o.Spaces,
				Proved: o.Proved, Conductors: sizes, CopperPounds: known(o.Copper), System: o.System, Own: o.Own})
		}
		out = append(out, d)
	}
	return out
}
