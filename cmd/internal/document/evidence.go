package document

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"branchwork/codes"
	"branchwork/codes/published"
	"branchwork/loads/steps"
	files "branchwork/testdata/published"
)

// Schemas of the answers about evidence.
const (
	EvidenceSchema      = "branchwork/evidence/1"
	EvidenceCasesSchema = "branchwork/evidence-cases/1"
)

// Evidence tells how the program's figures were verified: the published cases
// that its tests work, the tools that they compare with, what rests on memory, and
// what nothing outside verifies.
type Evidence struct {
	Schema      string               `json:"schema" jsonschema:"enum=branchwork/evidence/1"`
	Code        string               `json:"code"`
	CodeTitle   string               `json:"code_title"`
	Counts      EvidenceCounts       `json:"counts"`
	Subjects    []EvidenceSubject    `json:"subjects"`
	Sources     []EvidenceSource     `json:"sources"`
	Differ      []EvidenceDifference `json:"differ" jsonschema_description:"cases that the program computes differently from the source, with the reason; what it computes is what the test wants"`
	Compared    []EvidenceCompared   `json:"compared" jsonschema_description:"functions run beside general-purpose tools"`
	Memory      EvidenceMemory       `json:"memory" jsonschema_description:"what the code profile holds from memory"`
	Practice    EvidenceMemory       `json:"practice" jsonschema_description:"what the code profile takes from common practice, without a source"`
	NotVerified []string             `json:"not_verified" jsonschema_description:"what nothing outside the project verifies"`
}

// EvidenceCounts are the headline.
type EvidenceCounts struct {
	Cases       int `json:"cases" jsonschema_description:"published cases kept"`
	Computed    int `json:"computed" jsonschema_description:"cases that the program computes"`
	NotComputed int `json:"not_computed" jsonschema_description:"cases kept although the program does not do what they show"`
	EvidenceHow
	Sources int `json:"sources" jsonschema_description:"sources that cases name, common practice left out"`
	Figures int `json:"figures" jsonschema_description:"values compared"`
	Same    int `json:"same" jsonschema_description:"of them, exactly what is wanted"`
	Tools   int `json:"tools"`
}

// EvidenceHow counts cases by where their answers come from.
type EvidenceHow struct {
	Published int `json:"published" jsonschema_description:"the answer stands in the source"`
	Worked    int `json:"worked" jsonschema_description:"the answer was worked out from what the source gives"`
	Practice  int `json:"practice" jsonschema_description:"facts of the trade without a source"`
	Memory    int `json:"memory" jsonschema_description:"the answer is from memory"`
}

func (h *EvidenceHow) count(how steps.How) {
	switch how {
	case steps.Seen:
		h.Published++
	case steps.Derived:
		h.Worked++
	case steps.Practice:
		h.Practice++
	case steps.Recalled:
		h.Memory++
	}
}

// EvidenceFit is how near figures came to what was wanted.
type EvidenceFit struct {
	Figures   int     `json:"figures"`
	Names     int     `json:"names" jsonschema_description:"of them, names such as a conductor's size, which must be the same"`
	Within    float64 `json:"within_share" jsonschema_description:"the loosest tolerance, as a share of the value wanted; each is half a unit of the last digit printed in the source"`
	Worst     float64 `json:"worst_share" jsonschema_description:"the largest difference, as a share of the value wanted"`
	WorstCase string  `json:"worst_case,omitempty"`
	Of        float64 `json:"worst_of_tolerance" jsonschema_description:"the largest difference as a share of its tolerance; above 1 by rounding noise alone"`
}

func (e *EvidenceFit) count(f published.Figure) {
	e.Figures++
	if f.Names {
		e.Names++
	}
	e.Within, e.Of = max(e.Within, f.Within), max(e.Of, f.Share)
	if f.Off > e.Worst {
		e.Worst, e.WorstCase = f.Off, f.Case
	}
}

// EvidenceSubject is what is checked of one subject.
type EvidenceSubject struct {
	Name     string   `json:"name"`
	Title    string   `json:"title"`
	Cases    int      `json:"cases"`
	Computed int      `json:"computed"`
	Tests    []string `json:"tests" jsonschema_description:"package and function"`
	EvidenceHow
	EvidenceFit
}

// EvidenceSource is a source with the cases that it gives.
type EvidenceSource struct {
	Source
	Cases int `json:"cases"`
	EvidenceFit
}

// EvidenceDifference is a case that a source answers differently.
type EvidenceDifference struct {
	Subject string `json:"subject"`
	Case    string `json:"case"`
	Says    string `json:"says"`
	Source  string `json:"source" jsonschema_description:"key of the source"`
	At      string `json:"at"`
	Why     string `json:"why"`
}

// EvidenceCompared is a comparison with a tool.
type EvidenceCompared struct {
	Subject string  `json:"subject"`
	What    string  `json:"what"`
	Tool    string  `json:"tool"`
	Version string  `json:"version,omitempty"`
	Cases   int     `json:"cases"`
	Most    float64 `json:"most" jsonschema_description:"the largest difference allowed"`
	Worst   float64 `json:"worst" jsonschema_description:"the largest difference seen in the run that was written down"`
	Unit    string  `json:"unit"`
	Test    string  `json:"test"`
}

// evidence is what the tests wrote down, and the cases they read.
type evidence struct {
	subjects []published.Subject
	figures  map[string][]published.Figure // by file and case
	compared []published.Comparison
}

// readEvidence reads the embedded files, once. It panics where one is broken: the
// program was built wrong, and the tests of the files say so.
var readEvidence = sync.OnceValue(func() evidence {
	e := evidence{figures: map[string][]published.Figure{}, compared: ours(published.Comparisons(files.Files, published.Compared))}
	for _, name := range ours(published.Names(files.Files)) {
		e.subjects = append(e.subjects, ours(published.Read(files.Files, name)))
	}
	for _, f := range ours(published.Figures(files.Files, published.Measured)) {
		e.figures[f.File+f.Case] = append(e.figures[f.File+f.Case], f)
	}
	return e
})

// ours takes what was read from our own embedded files.
func ours[T any](x T, err error) T {
	if err != nil {
		panic("document: evidence: " + err.Error())
	}
	return x
}

// NewEvidence returns the page of evidence, for one code profile where it is about
// the profile's own values.
func NewEvidence(p *codes.Profile) Evidence {
	e := readEvidence()
	d := Evidence{Schema: EvidenceSchema, Code: p.Name, CodeTitle: p.Title, Subjects: []EvidenceSubject{}, Sources: []EvidenceSource{},
		Differ: []EvidenceDifference{}, Compared: []EvidenceCompared{}, Memory: restsOn(p, steps.Recalled), Practice: restsOn(p, steps.Practice), NotVerified: []string{}}
	sources := map[string]*EvidenceSource{}
	for _, s := range e.subjects {
		d.subject(e, s, sources)
	}
	for _, ref := range steps.References() {
		if s := sources[ref.Key]; s != nil {
			d.Sources = append(d.Sources, *s)
		}
	}
	d.Counts.Sources = len(d.Sources)
	if sources[steps.CommonPractice.Ref] != nil {
		d.Counts.Sources--
	}
	var tools []string
	for _, c := range e.compared {
		d.Compared = append(d.Compared, EvidenceCompared{Subject: c.Subject, What: c.What, Tool: c.Tool, Version: c.Version,
			Cases: c.Cases, Most: c.Most, Worst: c.Worst, Unit: c.Unit, Test: c.Test})
		if c.Version != "" && !slices.Contains(tools, c.Tool) {
			tools = append(tools, c.Tool)
		}
	}
	d.Counts.Tools = len(tools)
	slices.SortStableFunc(d.Compared, func(a, b EvidenceCompared) int {
		return cmp.Or(strings.Compare(a.Subject, b.Subject), strings.Compare(a.What, b.What), strings.Compare(a.Tool, b.Tool))
	})
	d.gaps(e)
	return d
}

// subject counts the cases of one subject.
func (d *Evidence) subject(e evidence, s published.Subject, sources map[string]*EvidenceSource) {
	out := EvidenceSubject{Name: strings.TrimSuffix(s.File, ".toml"), Title: s.Name, Cases: len(s.Cases), Tests: []string{}}
	for _, c := range s.Cases {
		d.Counts.Cases++
		out.EvidenceHow.count(c.How)
		d.Counts.EvidenceHow.count(c.How)
		from := sources[c.Source.Ref]
		if from == nil {
			ref, _ := steps.Lookup(c.Source.Ref)
			from = &EvidenceSource{Source: reference(ref)}
			sources[c.Source.Ref] = from
		}
		from.Cases++
		figures := e.figures[s.File+c.ID]
		if len(figures) > 0 {
			out.Computed++
			d.Counts.Computed++
		}
		for _, f := range figures {
			d.Counts.Figures++
			if f.Same() {
				d.Counts.Same++
			}
			out.EvidenceFit.count(f)
			from.EvidenceFit.count(f)
			if !slices.Contains(out.Tests, f.Test) {
				out.Tests = append(out.Tests, f.Test)
			}
		}
		if c.Differs != "" {
			d.Differ = append(d.Differ, EvidenceDifference{out.Name, c.ID, c.Says, c.Source.Ref, c.Source.At, c.Differs})
		}
	}
	d.Counts.NotComputed += out.Cases - out.Computed
	d.Subjects = append(d.Subjects, out)
}
