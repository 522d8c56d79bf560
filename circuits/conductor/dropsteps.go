package conductor

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strings"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// record computes the drop from the settled currents by moments (current times
// distance) and records it. It is the sum that voltages walks, in the form in
// which it is checked by hand.
func (l ladder) record(run Run, v []complex128, w *steps.Work) Fall {
	i := l.currents(v)
	var source complex128
	for _, x := range i {
		source += x
	}
	if run.Between != "" {
		w.Add(steps.Step{Name: "current between " + run.Between + ", where the voltage drops most", Result: cmplx.Abs(source), Unit: "A",
			Note: "as a current of the feeder's own voltage and phases; the current of the neutral counts with that of the leg"})
	}
	mp := l.moment("in phase with the supply", "Ip", i, func(x complex128) float64 { return real(x) }, w)
	mq := l.moment("at right angles to it", "Iq", i, func(x complex128) float64 { return -imag(x) }, w)
	k := "2"
	if l.phases == 3 {
		k = "√3"
	}
	r, x := float64(l.line.R), float64(l.line.X)
	ohm := []steps.Input{steps.In("R", r, "ohm/1,000 ft"), steps.In("Mp", mp, "A·ft"), steps.In("X", x, "ohm/1,000 ft"), steps.In("Mq", mq, "A·ft")}
	along, across := l.k()*(r*mp+x*mq)/1000, l.k()*(x*mp-r*mq)/1000
	w.Add(steps.Result("voltage drop along the supply's voltage", k+" · (R · Mp + X · Mq) / 1000", along, "V", dropCite(), ohm...))
	w.Add(steps.Result("voltage drop across the supply's voltage", k+" · (X · Mp − R · Mq) / 1000", across, "V", steps.Cite{}, ohm...))
	drop := l.volts - math.Hypot(l.volts-along, across)
	fall := Fall{Volts: units.Voltage(drop), Share: units.Ratio(drop / l.volts), AtFirst: units.Voltage(cmplx.Abs(v[0])),
		AtEnd: units.Voltage(l.volts - drop), Source: units.Current(cmplx.Abs(source))}
	supply := steps.In("V", l.volts, "V")
	s := steps.Result("voltage drop", "V − √((V − Vp) · (V − Vp) + Vq · Vq)", fall.Volts, "V", steps.Cite{},
		supply, steps.In("Vp", along, "V"), steps.In("Vq", across, "V"))
	if w != nil && l.constantPower() {
		s.Note = "with the currents at the supply's own voltage " + units.Round(l.nominal(), 3) + " V"
	}
	w.Add(s)
	w.Add(steps.Result("voltage drop, share of the supply", "Vd / V", fall.Share, "", steps.Cite{}, steps.In("Vd", drop, "V"), supply))
	return fall
}

func (l ladder) constantPower() bool {
	return slices.ContainsFunc(l.loads, func(t Tap) bool { return t.ConstantPower })
}

// nominal is the drop in volts with each load's current at the supply's own voltage:
// what a hand calculation meets.
func (l ladder) nominal() float64 {
	v := make([]complex128, len(l.loads))
	for i := range v {
		v[i] = complex(l.volts, 0)
	}
	end := l.voltages(l.currents(v))[len(v)-1]
	return l.volts - cmplx.Abs(end)
}

// dropCite is where the formula of the drop along the voltage stands.
func dropCite() steps.Cite {
	return steps.Cite{Ref: "ufc-vd", At: "R cos θ + X sin θ", How: steps.Seen}
}

// longRun is how many loads a run may have whose terms are written one by one; of
// a longer one, loads alike that follow each other are one term.
const longRun = 60

// moment returns Σ I · d of one component of the currents.
func (l ladder) moment(name, symbol string, i []complex128, part func(complex128) float64, w *steps.Work) float64 {
	var sum float64
	for k := range i {
		sum += part(i[k]) * l.d[k]
	}
	if w == nil {
		return sum
	}
	formula, in := "Σ I · d", []steps.Input(nil)
	if len(i) <= longRun {
		formula, in = l.terms(symbol, i, part)
	} else {
		in = l.stretches(i, part)
	}
	s := steps.Result("current times distance, "+name, formula, sum, "A·ft", steps.Cite{}, in...)
	if l.constantPower() {
		s.Note = "loads of constant power: each current is VA over the voltage found at that load"
	}
	w.Add(s)
	return sum
}

// terms writes a moment load by load.
func (l ladder) terms(symbol string, i []complex128, part func(complex128) float64) (formula string, in []steps.Input) {
	terms := make([]string, 0, len(i))
	in = make([]steps.Input, 0, 2*len(i))
	for k := range i {
		is, ds := fmt.Sprintf("%s%d", symbol, k+1), fmt.Sprintf("d%d", k+1)
		terms = append(terms, is+" · "+ds)
		in = append(in, steps.In(is, part(i[k]), "A"), steps.In(ds, l.d[k], "ft"))
	}
	return strings.Join(terms, " + "), in
}

// stretches writes a moment by loads alike that follow each other.
func (l ladder) stretches(i []complex128, part func(complex128) float64) (in []steps.Input) {
	from, sum := 0, 0.0
	for k := range i {
		sum += part(i[k]) * l.d[k]
		if k+1 < len(i) && l.loads[k+1] == l.loads[k] {
			continue
		}
		in = append(in, steps.In(fmt.Sprintf("loads %d to %d", from+1, k+1), sum, "A·ft"))
		from, sum = k+1, 0
	}
	return in
}
