package document

import (
	"slices"
	"strings"

	"branchwork/circuits"
	"branchwork/loads/heat"
)

// ExplainSchema names the contract of Explanation.
const ExplainSchema = "branchwork/explain/1"

// Explanation is the working behind circuits, panels and rooms.
type Explanation struct {
	Schema    string    `json:"schema" jsonschema:"enum=branchwork/explain/1"`
	Site      string    `json:"site"`
	Code      string    `json:"code"`
	CodeTitle string    `json:"code_title"`
	Subjects  []Subject `json:"subjects"`
	Caution   string    `json:"caution"`
}

// Subject is one thing explained.
type Subject struct {
	Kind     string    `json:"kind" jsonschema:"enum=panel,enum=circuit,enum=room"`
	Name     string    `json:"name"`
	Path     string    `json:"path"`
	Sections []Section `json:"sections"`
	Limits   []Limit   `json:"limits" jsonschema_description:"by share used, the binding one first; those that are passed before what is only advised"`
	Findings []Finding `json:"findings"`
}

// Section is the working of one question, in order.
type Section struct {
	Title string   `json:"title"`
	Steps []Worked `json:"steps"`
	Notes []string `json:"notes,omitempty"`
}

// Worked is one line of working.
type Worked struct {
	Name    string    `json:"name"`
	Formula string    `json:"formula,omitempty"`
	Inputs  []Operand `json:"inputs"`
	Result  *float64  `json:"result,omitempty" jsonschema_description:"absent where the step chose a name"`
	Unit    string    `json:"unit,omitempty"`
	Text    string    `json:"text,omitempty" jsonschema_description:"the result where it is a name"`
	Note    string    `json:"note,omitempty"`
	Source  string    `json:"source,omitempty"`
	Checked string    `json:"checked,omitempty" jsonschema_description:"how the source was checked"`
	Line    string    `json:"line" jsonschema_description:"the step in one line: name: formula = numbers = result"`
}

// Operand is a number put into a formula.
type Operand struct {
	Symbol string  `json:"symbol"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit,omitempty"`
}

// NewExplanation returns the working of every panel, circuit and room.
func NewExplanation(r Results) Explanation {
	d := Explanation{Schema: ExplainSchema, Site: r.Plan.Site, Code: r.Profile.Name, CodeTitle: r.Profile.Title, Subjects: []Subject{}, Caution: Caution}
	for _, p := range r.Plan.Panels {
		d.Subjects = append(d.Subjects, panelSubject(r, p))
	}
	for _, c := range r.Plan.Circuits {
		d.Subjects = append(d.Subjects, circuitSubject(r, c))
	}
	for _, x := range r.Heat.Rooms {
		d.Subjects = append(d.Subjects, roomSubject(r, x))
	}
	return d
}

// About returns the explanation of what goes by a name or a key path.
func (d Explanation) About(name string) Explanation {
	all := d.Subjects
	d.Subjects = []Subject{}
	for _, s := range all {
		if s.Name == name || s.Path == name {
			d.Subjects = append(d.Subjects, s)
		}
	}
	return d
}

// Names returns what can be asked for, each once.
func (d Explanation) Names() []string {
	var out []string
	for _, s := range d.Subjects {
		if !slices.Contains(out, s.Name) {
			out = append(out, s.Name)
		}
	}
	return out
}

func panelSubject(r Results, p circuits.Panel) Subject {
	s := Subject{Kind: "panel", Name: p.Name, Path: "panels." + p.Name, Limits: []Limit{}}
	s.Sections = []Section{{Title: "panel " + p.Name, Steps: Working(p.Steps)}}
	if p.Feeder != nil {
		f := Section{Title: "feeder from " + p.Feeder.From, Steps: Working(p.Feeder.Steps)}
		if p.Feeder.Transformer != nil {
			f.Notes = []string{"these are of the transformer's primary; secondary " + SecondaryOpen}
		}
		s.Sections = append(s.Sections, f)
	}
	s.Findings = about(r, s.Path)
	return s
}

func circuitSubject(r Results, c circuits.Circuit) Subject {
	s := Subject{Kind: "circuit", Name: c.Name, Path: "circuits." + c.Name, Limits: limitsOf(c)}
	s.Sections = []Section{{Title: "circuit " + c.Name, Steps: Working(c.Steps)}}
	s.Findings = about(r, s.Path)
	return s
}

func roomSubject(r Results, x heat.Room) Subject {
	s := Subject{Kind: "room", Name: x.Name, Path: "rooms." + x.Name, Limits: []Limit{}}
	s.Sections = []Section{{Title: "heat of room " + x.Name, Steps: Working(x.Steps), Notes: slices.Concat(x.Missing, x.Notes)}}
	s.Findings = about(r, s.Path)
	return s
}

// about returns the findings whose subject is the path or lies under it.
func about(r Results, path string) []Finding {
	out := []Finding{}
	for _, f := range gravestLast(r.Findings) {
		if f.Subject == path || strings.HasPrefix(f.Subject, path+".") || strings.HasPrefix(f.Subject, path+"[") {
			out = append(out, finding(f, r.Inventory))
		}
	}
	return out
}
