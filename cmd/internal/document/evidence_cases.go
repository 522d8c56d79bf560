package document

import "strings"

// EvidenceCases is one subject, case by case.
type EvidenceCases struct {
	Schema  string         `json:"schema" jsonschema:"enum=branchwork/evidence-cases/1"`
	Name    string         `json:"name"`
	Title   string         `json:"title"`
	Cases   []EvidenceCase `json:"cases"`
	Sources []Source       `json:"sources"`
}

// EvidenceCase is a published case beside what the program computes.
type EvidenceCase struct {
	Case      string           `json:"case"`
	Says      string           `json:"says"`
	Source    string           `json:"source" jsonschema_description:"key of the source"`
	At        string           `json:"at"`
	Checked   string           `json:"checked"`
	Tolerance float64          `json:"tolerance" jsonschema_description:"in the base unit of what is wanted"`
	Differs   string           `json:"differs,omitempty"`
	Figures   []EvidenceFigure `json:"figures" jsonschema_description:"empty: the program does not compute what the case shows"`
}

// EvidenceFigure is a value wanted and the one computed, in one unit.
type EvidenceFigure struct {
	Name     string  `json:"name"`
	Wanted   string  `json:"wanted"`
	Computed string  `json:"computed"`
	Off      float64 `json:"off_share" jsonschema_description:"difference as a share of the value wanted"`
	Test     string  `json:"test"`
}

// EvidenceSubjects returns the names of the subjects that have cases.
func EvidenceSubjects() []string {
	var out []string
	for _, s := range readEvidence().subjects {
		out = append(out, strings.TrimSuffix(s.File, ".toml"))
	}
	return out
}

// NewEvidenceCases returns one subject case by case; ok is false where there is
// none of that name.
func NewEvidenceCases(name string) (d EvidenceCases, ok bool) {
	e := readEvidence()
	for _, s := range e.subjects {
		if strings.TrimSuffix(s.File, ".toml") != name {
			continue
		}
		d = EvidenceCases{Schema: EvidenceCasesSchema, Name: name, Title: s.Name, Cases: []EvidenceCase{}}
		used := map[string]bool{}
		for _, c := range s.Cases {
			used[c.Source.Ref] = true
			out := EvidenceCase{Case: c.ID, Says: c.Says, Source: c.Source.Ref, At: c.Source.At, Checked: c.How.String(), Tolerance: c.Tol,
				Differs: c.Differs, Figures: []EvidenceFigure{}}
			for _, f := range e.figures[s.File+c.ID] {
				out.Figures = append(out.Figures, EvidenceFigure{f.Key, f.Want, f.Got, f.Off, f.Test})
			}
			d.Cases = append(d.Cases, out)
		}
		d.Sources = sources(used)
		return d, true
	}
	return d, false
}
