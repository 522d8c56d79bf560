package conductor

import (
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// question is a request settled against a profile: names resolved, columns and
// factors looked up once. It is the same for every candidate.
type question struct {
	Request
	p          *codes.Profile
	insulation codes.Insulation
	column     units.Temperature // termination column, not above the insulation's own
	ambient    units.Ratio
	bundle     units.Ratio
	required   units.Current
	load       units.Current
	needCite   steps.Cite // of the one of them that is the larger
}

// settle resolves the request and records what does not depend on the size.
func settle(r Request, p *codes.Profile, w *steps.Work) (question, error) {
	q := question{Request: r, p: p}
	if err := q.names(); err != nil {
		return q, err
	}
	q.demand(w)
	q.termination(w)
	return q, q.factors(w)
}

// names fills in defaults and refuses what the profile does not carry.
func (q *question) names() error {
	wires := q.p.Wires
	if q.Material == "" {
		q.Material = wires.Material
	}
	if q.Insulation == "" {
		q.Insulation = wires.Insulation
	}
	if q.Raceway == "" {
		q.Raceway = wires.Raceway
	}
	if q.Phases == 0 {
		q.Phases = 1
	}
	if q.Ambient == 0 {
		q.Ambient = wires.Base
	}
	if _, ok := wires.Ampacity[q.Material]; !ok {
		return fmt.Errorf("no ampacity table for conductors of %q in %s", q.Material, q.p.Title)
	}
	var ok bool
	if q.insulation, ok = wires.InsulationNamed(q.Insulation); !ok {
		var names []string
		for _, i := range wires.Insulations {
			names = append(names, i.Name)
		}
		return fmt.Errorf("no insulation %q in %s; insulations: %s", q.Insulation, q.p.Title, strings.Join(names, ", "))
	}
	if q.Minimum != "" && wires.From(q.Minimum) == nil {
		return fmt.Errorf("no conductor size %q in %s", q.Minimum, q.p.Title)
	}
	if q.Continuous < 0 || q.Other < 0 || q.Device < 0 || q.Least < 0 {
		return fmt.Errorf("a current below zero: continuous %v, other %v, device %v, least %v", q.Continuous, q.Other, q.Device, q.Least)
	}
	return nil
}

// demand computes the required rating and the load.
//
//	Ireq = k · Ic + In    before correction, at the terminations
//	I    = Ic + In        after correction
//
// An ampacity asked for beside it (Request.Least) is asked at the terminations. On
// a nameplate or a motor circuit it is an ampacity under the conditions of use
// (430.22, 440.4(B)) and is asked after correction as well.
func (q *question) demand(w *steps.Work) {
	c := q.p.Continuous
	q.load = q.Continuous + q.Other
	q.required = c.Required(q.Continuous, q.Other, q.FullRated)
	in := steps.In("In", q.Other, "A")
	ic := steps.In("Ic", q.Continuous, "A")
	q.needCite = q.Cite
	switch {
	case q.Feeder && q.Least >= q.required:
		w.Add(steps.Step{Name: "load", Result: float64(q.load), Unit: "A", Cite: q.Cite})
		w.Add(steps.Step{Name: "least ampacity asked for", Result: float64(q.Least), Unit: "A", Cite: q.Cite, Note: "what its panel or transformer asks for, allowances included"})
		q.required = q.Least
		return
	case q.FullRated:
		w.Add(steps.Result("required rating", "Ic + In", q.required, "A", c.FullRatedCite, ic, in))
	case c.Other == c.Rating:
		w.Add(steps.Result("required rating", "k · Ic + In", q.required, "A", q.Cite, steps.In("k", c.Factor(), ""), ic, in))
	default:
		w.Add(steps.Result("required rating", "(a · Ic + b · In) / c", q.required, "A", q.Cite,
			steps.In("a", float64(c.Load), ""), ic, steps.In("b", float64(c.Other), ""), in, steps.In("c", float64(c.Rating), "")))
	}
	w.Add(steps.Result("load", "Ic + In", q.load, "A", q.Cite, ic, in))
	if q.Least == 0 {
		return
	}
	cite := q.LeastCite
	if cite.Ref == "" {
		cite = q.Cite
	}
	if q.Least >= q.required {
		q.needCite = cite
	}
	least := steps.In("Imin", q.Least, "A")
	w.Add(steps.Result("least ampacity asked for", "max(Ireq, Imin)", max(q.required, q.Least), "A", cite, steps.In("Ireq", q.required, "A"), least))
	q.required = max(q.required, q.Least)
	if !q.SmallLimits {
		w.Add(steps.Result("least ampacity asked for after correction", "max(I, Imin)", max(q.load, q.Least), "A", cite, steps.In("I", q.load, "A"), least))
		q.load = max(q.load, q.Least)
	}
}

// termination finds the column in which the ampacity at the terminations is
// read: as marked, or as the code takes it for the device, and never above the
// insulation's own rating or the limit of a cable.
func (q *question) termination(w *steps.Work) {
	wires := q.p.Wires
	marked, ok := q.Terminals.Get()
	why := "as the file states; read the marking on the equipment"
	if !ok {
		marked = wires.Terminals(q.Device)
		why = fmt.Sprintf("terminals not marked, device of %v", q.Device)
	}
	cite := wires.ColumnCite
	if q.insulation.Rating < marked {
		marked, why = q.insulation.Rating, q.insulation.Name+" itself is rated for no more"
	}
	if q.insulation.Limit > 0 && q.insulation.Limit < marked {
		marked, why, cite = q.insulation.Limit, q.insulation.Name+" is used at no more", q.insulation.Cite
	}
	q.column = marked
	w.Add(steps.Choice("termination column", codes.Column(marked), why, cite))
}

// Beyond is the error of a request that the tables of a profile do not reach: an
// ambient above what the insulation stands, a size without a rating in its
// column, a raceway larger than any in the table. It is what the site asks for,
// not a fault of the program, and its words say what does not reach.
type Beyond struct{ Why string }

func (b Beyond) Error() string { return b.Why }

// factors looks up correction and adjustment. A temperature beyond the table is
// an error: the conductor may not be used there.
func (q *question) factors(w *steps.Work) error {
	wires := q.p.Wires
	fa, cite, ok := wires.AmbientFactor(q.insulation.Rating, q.Ambient)
	if !ok {
		return Beyond{fmt.Sprintf("%s insulation (%v) has no correction for an ambient of %v: beyond the table", q.insulation.Name, q.insulation.Rating, q.Ambient)}
	}
	w.Add(steps.Result("correction for ambient temperature", "", fa, "", cite, steps.In("Ta", q.Ambient, "C"), steps.In("Tc", q.insulation.Rating, "C")))
	fb, cite, ok := wires.BundleFactor(q.Carrying)
	if !ok {
		return Beyond{fmt.Sprintf("no adjustment for %d current-carrying conductors: beyond the table", q.Carrying)}
	}
	w.Add(steps.Result("adjustment for current-carrying conductors", "", fb, "", cite, steps.In("n", float64(q.Carrying), "")))
	q.ambient, q.bundle = fa, fb
	return nil
}
