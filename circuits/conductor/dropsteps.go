package conductor

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// record computes the drop from the settled currents by moments (current times
// distance) and records it. It is the sum that voltages walks, in the form in
// which it is checked by hand.
func (l ladder) record(r Run, v []float64, w *steps.Work) Fall {
	i := l.currents(v)
	var mp, mq, source, reactive float64
	if l.alike(i) {
		mp, mq = l.equal(i[0], v[0], r, w)
	} else {
		mp = l.moment("in phase", "Ip", i, l.pf, w)
		mq = l.moment("at right angles", "Iq", i, l.sin, w)
	}
	for k := range i {
		source += i[k] * l.pf(k)
		reactive += i[k] * l.sin(k)
	}
	k := "2"
	if l.phases == 3 {
		k = "√3"
	}
	drop := l.k() * (float64(l.line.R)*mp + float64(l.line.X)*mq) / 1000
	fall := Fall{Volts: units.Voltage(drop), Share: units.Ratio(drop / l.volts),
		AtFirst: units.Voltage(v[0]), AtEnd: units.Voltage(l.volts - drop), Source: units.Current(math.Hypot(source, reactive))}
	w.Add(steps.Result("voltage drop", k+" · (R · Mp + X · Mq) / 1000", fall.Volts, "V", dropCite(),
		steps.In("R", l.line.R, "ohm/1,000 ft"), steps.In("Mp", mp, "A·ft"), steps.In("X", l.line.X, "ohm/1,000 ft"), steps.In("Mq", mq, "A·ft")))
	w.Add(steps.Result("voltage drop, share of the supply", "Vd / V", fall.Share, "", l.line.Cite,
		steps.In("Vd", drop, "V"), steps.In("V", l.volts, "V")))
	return fall
}

// dropCite is where the formula of the drop stands.
func dropCite() steps.Cite {
	return steps.Cite{Ref: "ufc-vd", At: "R cos θ + X sin θ", How: steps.Seen}
}

// alike reports whether all loads draw one current at one power factor.
func (l ladder) alike(i []float64) bool {
	for k, t := range l.loads {
		if t.ConstantPower && len(l.loads) > 1 || i[k] != i[0] || t.PF != l.loads[0].PF {
			return false
		}
	}
	return true
}

// equal returns the moments of n equal loads in closed form:
//
//	Mp = n · I · pf · (L + s · (n − 1) / 2)
//	Mq = Mp · √(1 − pf²) / pf
//
// v is the voltage at the load, which only a single load of constant power uses.
func (l ladder) equal(i, v float64, r Run, w *steps.Work) (mp, mq float64) {
	formula, at := "S / V", l.volts
	if l.phases == 3 {
		formula = "S / (√3 · V)"
	}
	if l.loads[0].ConstantPower {
		at = v
	}
	w.Add(steps.Result("operating current of one load", formula, i, "A", l.line.Cite, steps.In("S", l.loads[0].VA, "VA"), steps.In("V", at, "V")))
	n, pf := float64(len(l.loads)), l.pf(0)
	first, spacing := float64(r.ToFirst.Or(0)), float64(r.Spacing.Or(0))
	mp = n * i * pf * (first + spacing*(n-1)/2)
	mq = mp * math.Sqrt(max(0, 1-pf*pf)) / pf
	w.Add(steps.Result("current times distance, in phase", "n · I · pf · (L + s · (n − 1) / 2)", mp, "A·ft", l.line.Cite,
		steps.In("n", n, ""), steps.In("I", i, "A"), steps.In("pf", pf, ""), steps.In("L", first, "ft"), steps.In("s", spacing, "ft")))
	w.Add(steps.Result("current times distance, at right angles", "Mp · √(1 − pf · pf) / pf", mq, "A·ft", l.line.Cite,
		steps.In("Mp", mp, "A·ft"), steps.In("pf", pf, "")))
	return mp, mq
}

// longRun is how many loads a run may have whose terms are written one by one; of
// a longer one, loads alike that follow each other are one term.
const longRun = 60

// moment returns Σ I · d of one component of the currents.
func (l ladder) moment(name, symbol string, i []float64, part func(int) float64, w *steps.Work) float64 {
	var sum float64
	for k := range i {
		sum += i[k] * part(k) * l.d[k]
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
	s := steps.Result("current times distance, "+name, formula, sum, "A·ft", l.line.Cite, in...)
	if slices.ContainsFunc(l.loads, func(t Tap) bool { return t.ConstantPower }) {
		s.Note = "loads of constant power: each current is VA over the voltage found at that load"
	}
	w.Add(s)
	return sum
}

// terms writes a moment load by load.
func (l ladder) terms(symbol string, i []float64, part func(int) float64) (formula string, in []steps.Input) {
	var terms []string
	for k := range i {
		a := i[k] * part(k)
		is, ds := fmt.Sprintf("%s%d", symbol, k+1), fmt.Sprintf("d%d", k+1)
		terms = append(terms, is+" · "+ds)
		in = append(in, steps.In(is, a, "A"), steps.In(ds, l.d[k], "ft"))
	}
	return strings.Join(terms, " + "), in
}

// stretches writes a moment by loads alike that follow each other.
func (l ladder) stretches(i []float64, part func(int) float64) (in []steps.Input) {
	from, sum := 0, 0.0
	for k := range i {
		sum += i[k] * part(k) * l.d[k]
		if k+1 < len(i) && l.loads[k+1] == l.loads[k] {
			continue
		}
		in = append(in, steps.In(fmt.Sprintf("loads %d to %d", from+1, k+1), sum, "A·ft"))
		from, sum = k+1, 0
	}
	return in
}
